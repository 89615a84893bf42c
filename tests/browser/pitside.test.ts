import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { photo } from '../setup/hostile-files'
import { photosIn, samplesIn, testsIn } from '../setup/phone-rows'
import {
  expectAccessible,
  launchPhone,
  removeFolder,
  type Site,
  signIn,
  startSite,
  TODAY,
  wellPath,
} from './harness'
import { fillAbout } from './sheet-about'

/** At a pit without bars: tests with the stopwatch and lab sheets, kept on the phone until there is signal. */
let site: Site
let phone: BrowserContext
let page: Page
let well = ''
const folder = mkdtempSync(join(tmpdir(), 'wellround-pit-'))

beforeAll(async () => {
  site = await startSite('demo')
  await openPhone()
  await signIn(page, site, 'technician')
  // Closed in peace once: a browser that dies within half a minute of signing in has not yet written down who is signed in.
  await phone.close()
  await openPhone()
  // What is taken along is looked at by the same clock later.
  await at(0)
  well = await wellPath(page, site, 'mabe meadow')
  await page.goto(site.url + well)
  await page.waitForFunction(async () => {
    const registration = await navigator.serviceWorker.ready
    return registration.active?.state === 'activated' && navigator.serviceWorker.controller !== null
  })
  await page.click('text=Take this well with you')
  await page.waitForSelector('text=On this phone since')
  await site.pause()
})
afterAll(async () => {
  await phone?.close()
  await site?.stop()
  removeFolder(folder)
})

async function openPhone() {
  phone = await launchPhone(folder)
  page = phone.pages()[0] ?? (await phone.newPage())
}

/** Ends the whole browser at once, as a dead battery does: nothing that it still meant to write is written. */
async function batteryDies() {
  const debug = await phone.newCDPSession(page)
  const gone = new Promise((done) => phone.once('close', done))
  // Never answered: whoever would is gone.
  void debug.send('Browser.crash').catch(() => undefined)
  await gone
}

/** The device's clock: stands still where it is set, as if nobody looked in between. */
const START = Date.parse(`${TODAY}T09:00:00Z`)
const at = (afterS: number) => page.clock.setFixedTime(START + afterS * 1000)
/** Level in ft of a well at 6 ft at rest, drawn down by 3 ft, that wins it back with a time constant of ten minutes. */
const level = (afterS: number) => (6 + 3 * Math.exp(-afterS / 600)).toFixed(2)
const kept = () => page.getByText('Kept on this device.').waitFor()
const saved = () => page.getByText('Saved on this phone at').waitFor()

async function reading(afterS: number, row: number) {
  await at(afterS)
  await page.getByRole('button', { name: 'Take a reading now' }).click()
  await page.fill(`[name=level${row}]`, level(afterS))
  await kept()
}

/** The list sends by itself when it is opened; what waits out a failure of a moment ago goes by the button. */
async function everythingSent() {
  await page.goto(`${site.url}/unsent`)
  const button = page.locator('main button:has-text("Send now")')
  await expect
    .poll(
      async () => {
        await button.evaluateAll(([first]) => first instanceof HTMLElement && first.click())
        return [
          await page.getByText('Nothing waits here').count(),
          await page.locator('.unsent-photo').count(),
        ]
      },
      { interval: 500 },
    )
    .toEqual([1, 0])
}

describe('a recovery test without signal', () => {
  test('begins from the page of the well, with the clock, and asks nothing before the instant is kept', async () => {
    await page.goto(site.url + well)
    await page.getByText('Not here without signal').waitFor()
    await page.getByRole('link', { name: 'Run a test' }).click()
    await page.getByRole('link', { name: 'Run a recovery test' }).waitFor()
    await expectAccessible(page)
    await at(0)
    await page.getByRole('link', { name: 'Run a recovery test' }).click()
    await page.getByRole('button', { name: 'Pump stopped: start the clock' }).waitFor()
    await page.fill('[name=static]', '6')
    await page.getByRole('button', { name: 'Pump stopped: start the clock' }).click()
    await reading(10, 1)
    await reading(60, 2)
    await at(180)
    await page.getByRole('button', { name: 'Take a reading now' }).click()
    await kept()
  })

  test('loses nothing to a dead battery: every stamp is there, and the clock counts on', async () => {
    await batteryDies()
    await openPhone()
    await at(300)
    await page.goto(`${site.url}${well}/tests/new/recovery`)
    await page.getByText('was put back').waitFor()
    expect(await page.locator('[role=timer]').innerText()).toContain('5:00')
    expect(await page.inputValue('[name=static]')).toBe('6')
    for (const [i, [when, depth]] of [
      ['10 s', level(10)],
      ['1 min', level(60)],
      ['3 min', ''],
    ].entries()) {
      expect(await page.inputValue(`[name=elapsed${i + 1}]`)).toBe(when)
      expect(await page.inputValue(`[name=level${i + 1}]`)).toBe(depth)
    }
    await page.fill('[name=level3]', level(180))
    await reading(300, 4)
    await reading(600, 5)
    await reading(900, 6)
  })

  test('says what the readings tell so far, without the server', async () => {
    await page.getByText(/wins back nine tenths of the drawdown in 23 min/).waitFor()
    await page.locator('figure.chart').first().waitFor()
    await expectAccessible(page)
  })

  test('asks about odd readings on the spot, and stays as it was filled in', async () => {
    await page.fill('[name=level6]', '66.7')
    await page.getByRole('button', { name: 'Save the test' }).click()
    await page.waitForSelector('.error-summary')
    expect(await page.inputValue('[name=level5]')).toBe(level(600))
    await expectAccessible(page)
    await page.fill('[name=level6]', level(900))
    await page.getByRole('button', { name: 'Save the test' }).click()
    await saved()
    await page.getByText('1 not sent yet').waitFor()
  })

  test('is listed with its readings, can be gone on with by its clock, and is sent once', async () => {
    const before = testsIn(site.file)
    await page.goto(`${site.url}/unsent`)
    await page.getByText(`10 s, ${level(10)} ft`).waitFor()
    expect(await page.locator('article h3').innerText()).toContain('Recovery test at')
    await expectAccessible(page)
    await at(1500)
    await page.getByRole('link', { name: 'Open and mend' }).click()
    await page.getByText('25:00').waitFor()
    expect(await page.inputValue('[name=level6]')).toBe(level(900))
    await reading(1500, 7)
    await page.getByRole('button', { name: 'Save the test' }).click()
    await saved()
    expect(await page.evaluate(() => Object.keys(localStorage))).toEqual([])
    await site.resume()
    await everythingSent()
    expect(testsIn(site.file)).toBe(before + 1)
    await page.goto(`${site.url}${well}/tests`)
    await page.locator('main li.sheet a').first().click()
    await page.waitForURL(/tests\/[0-9a-f-]{36}$/)
    const main = await page.locator('main').innerText()
    expect(main).toContain('wins back nine tenths of the drawdown in 23 min')
    expect(await page.locator('#readings + p + section tbody tr').count()).toBe(7)
    await site.pause()
  })
})

test('drawdown and step tests are kept and sent the same way, and what the logbook would refuse is said on the spot', async () => {
  const before = testsIn(site.file)
  await at(0)
  await page.goto(`${site.url}${well}/tests/new/drawdown`)
  await page.getByRole('button', { name: 'Pump started: start the clock' }).click()
  for (const [i, minutes] of [1, 3, 6, 10, 20, 40].entries()) {
    await at(minutes * 60)
    await page.getByRole('button', { name: 'Take a reading now' }).click()
    await page.fill(`[name=level${i + 1}]`, (9 - 3 * Math.exp(-minutes / 10) + minutes / 1000).toFixed(2))
  }
  await page.getByRole('button', { name: 'Save the test' }).click()
  await page.getByText('Enter the flow at which the well is pumped').first().waitFor()
  await page.fill('[name=flow]', '30 gpm')
  await page.fill('[name=static]', '6')
  await page.getByRole('button', { name: 'Save the test' }).click()
  await saved()
  await page.goto(`${site.url}${well}/tests/new/step`)
  await page.getByRole('heading', { name: 'Step test at' }).waitFor()
  await page.fill('[name=static]', '6')
  await page.fill('[name=date]', TODAY)
  for (const [i, [flow, minutes, depth]] of [
    ['4', '60', '7.1'],
    ['8', '60', '8.5'],
    ['12', '60', '10.2'],
  ].entries()) {
    await page.fill(`[name=flow${i + 1}]`, flow ?? '')
    await page.fill(`[name=elapsed${i + 1}]`, minutes ?? '')
    await page.fill(`[name=level${i + 1}]`, depth ?? '')
  }
  await kept()
  await expectAccessible(page)
  await page.getByRole('button', { name: 'Save the test' }).click()
  await saved()
  await site.resume()
  await everythingSent()
  expect(testsIn(site.file)).toBe(before + 2)
  await site.pause()
})

test('a lab sheet with a photo of the paper: a pasted table, a question on the spot, sent once', async () => {
  const [samples, photos] = [samplesIn(site.file), photosIn(site.file)]
  await page.goto(site.url + well)
  await page.getByRole('link', { name: 'Log a lab sheet' }).click()
  await page.getByRole('heading', { name: 'Lab sheet for' }).waitFor()
  await page.getByRole('button', { name: 'Store the sheet' }).waitFor()
  await fillAbout(page)
  await page.fill(
    '[name=pasted]',
    'Parameter\tResult\tUnits\nNitrate as N\t4.2\tmg/L\nUnobtainium\t3\tmg/L\nPIT-SHEET',
  )
  await page.getByRole('button', { name: 'Read the table into rows' }).click()
  await page.getByText('2 rows were read from the table').waitFor()
  expect(await page.inputValue('[name="r1:result"]')).toBe('4.2')
  expect(await page.inputValue('[name=pasted]')).toBe('')
  expect(await page.inputValue('[name=pointKind]')).toBe('Kitchen tap')
  await page.setInputFiles('[name=photo]', {
    name: 'lid-sheet.jpg',
    mimeType: 'image/jpeg',
    buffer: await photo(),
  })
  await page.getByRole('button', { name: 'Store the sheet' }).click()
  await page.waitForSelector('.error-summary')
  await expectAccessible(page)
  expect(await page.inputValue('[name="r1:result"]')).toBe('4.2')
  // The photo that was chosen before the question is still chosen.
  expect(await page.inputValue('[name=photo]')).toContain('lid-sheet.jpg')
  await page.getByLabel('"Unobtainium" is not a name known here').selectOption('open')
  await page.getByRole('button', { name: 'Store the sheet' }).click()
  await saved()

  await batteryDies()
  await openPhone()
  await at(3600)
  await page.goto(`${site.url}/unsent`)
  await page.getByText('4.2 mg/L').waitFor()
  await page.locator('.unsent-photo').waitFor()
  await expectAccessible(page)
  await page.getByRole('link', { name: 'Open and mend' }).click()
  await page.getByRole('button', { name: 'Store the sheet' }).waitFor()
  expect(await page.inputValue('[name="r1:result"]')).toBe('4.2')
  // The answer about the row is still given.
  expect(await page.getByLabel('"Unobtainium" is not a name known here').inputValue()).toBe('open')
  await page.fill('[name=sampleLab]', 'Sorrel')
  await page.getByRole('button', { name: 'Store the sheet' }).click()
  await saved()
  expect(samplesIn(site.file)).toBe(samples)
  await site.resume()
  await everythingSent()
  expect(samplesIn(site.file)).toBe(samples + 1)
  // The list lets go of a photo once the server has it.
  await expect.poll(() => photosIn(site.file)).toBe(photos + 1)
  await site.pause()
})
