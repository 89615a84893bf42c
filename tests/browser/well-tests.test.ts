import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { expectAccessible, launchBrowser, openPage, type Site, signIn, startSite, TODAY } from './harness'

let browser: Browser
let site: Site
beforeAll(async () => {
  browser = await launchBrowser()
  site = await startSite('demo')
})
afterAll(async () => {
  await browser?.close()
  await site?.stop()
})

async function wellPath(page: Page, words: string): Promise<string> {
  await page.goto(`${site.url}/wells?q=${encodeURIComponent(words)}`)
  const href = await page.locator('main table a[href^="/wells/"]').first().getAttribute('href')
  if (!href) throw new Error(`no well is found by ${words}`)
  return href
}

/** The device's clock: stands still where it is set, as if nobody looked in between. */
const START = Date.parse(`${TODAY}T09:00:00Z`)
const at = (page: Page, afterS: number) => page.clock.setFixedTime(START + afterS * 1000)

/** Level in ft of a well at 6 ft at rest, drawn down by 3 ft, that wins it back with a time constant of ten minutes. */
const level = (afterS: number) => (6 + 3 * Math.exp(-afterS / 600)).toFixed(2)

async function tap(page: Page, afterS: number) {
  await at(page, afterS)
  await page.getByRole('button', { name: 'Take a reading now' }).click()
  await page.keyboard.type(level(afterS))
}

const kept = (page: Page) => page.getByText('Kept on this device.').waitFor()
const testsListed = async (page: Page, path: string) => {
  await page.goto(`${site.url}${path}/tests`)
  return page.locator('main li.sheet').count()
}

/** How many running tests have marks on this device's disk. */
const marksIn = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<number>((resolve, reject) => {
        const open = indexedDB.open('wellround-marks')
        open.onerror = () => reject(open.error)
        open.onsuccess = () => {
          const count = open.result.transaction('marks').objectStore('marks').count()
          count.onsuccess = () => {
            open.result.close()
            resolve(count.result)
          }
        }
      }),
  )

describe('a recovery test at 390 px', () => {
  test('loses nothing to a reload, a closed tab, a lost signal or a second sending', async () => {
    const { page: first, context, complaints } = await openPage(browser)
    await signIn(first, site, 'technician')
    const path = await wellPath(first, 'mabe meadow')
    const before = await testsListed(first, path)
    await first.goto(`${site.url}${path}`)
    await first.getByRole('link', { name: 'Run a test' }).click()
    await first.waitForURL(/tests\/new$/)
    await first.getByRole('link', { name: 'Run a recovery test' }).click()
    await first.waitForURL(/tests\/new\/recovery$/)
    await at(first, 0)
    await first.reload()
    await first.fill('[name=static]', `6'`)
    await first.fill('[name=flow]', '9 gpm')
    await first.fill('[name=pumpedMinutes]', '30')
    await first.getByRole('button', { name: 'Pump stopped: start the clock' }).click()
    await kept(first)
    await tap(first, 10)
    await tap(first, 60)

    // A reload in the middle of a level.
    await first.reload()
    await first.getByText('was put back').waitFor()
    expect(await first.inputValue('[name=static]')).toBe(`6'`)
    expect(await first.inputValue('[name=level2]')).toBe(level(60))
    await tap(first, 180)

    // The tab is closed, the phone sleeps; two minutes later another one is opened.
    await first.close()
    const page = await context.newPage()
    page.on('pageerror', (error) => complaints.push(error.message))
    await at(page, 300)
    await page.goto(`${site.url}${path}/tests/new/recovery`)
    await page.getByText('was put back').waitFor()
    expect(await page.locator('[role=timer]').innerText()).toContain('5:00')
    expect(await page.inputValue('[name=elapsed3]')).toBe('3 min')
    await tap(page, 300)
    await tap(page, 600)
    await tap(page, 900)

    // A slip: one reading too many, struck and put back and struck again.
    await tap(page, 905)
    await page.getByRole('button', { name: /Strike reading 7/ }).click()
    await page.getByRole('button', { name: /Put back/ }).click()
    await page.getByRole('button', { name: /Strike reading 7/ }).click()
    await page.getByText(/wins back nine tenths of the drawdown in 23 min/).waitFor()
    await page.locator('figure.chart').waitFor()
    await expectAccessible(page)

    // The answer gets lost on its way: the test is stored, and the phone cannot know. It keeps it, and sends it once more.
    await tap(page, 1500)
    await kept(page)
    await page.route(/tests\/new\/recovery/, async (route) => {
      if (route.request().method() !== 'POST') return route.continue()
      await route.fetch({ maxRedirects: 0 })
      await route.abort()
    })
    const lost = page.waitForEvent('requestfailed', (request) => request.method() === 'POST')
    await page.getByRole('button', { name: 'Save the test' }).click()
    await lost
    await page.waitForURL(/saved=/)

    const main = await page.locator('main').innerText()
    expect(main).toContain('Saved: every reading of the test')
    expect(main).toContain('wins back nine tenths of the drawdown in 23 min')
    expect(main).toContain('Before the test the pump gave 9.0')
    expect(await page.locator('#readings + p + section tbody tr').count()).toBe(7)
    await page.waitForFunction(() => Object.keys(localStorage).length === 0)
    expect(await testsListed(page, path)).toBe(before + 1)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('under which the signal goes is kept on the phone, and sent by itself when it is back', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'technician')
    const path = await wellPath(page, 'mabe meadow')
    const before = await testsListed(page, path)
    await at(page, 0)
    await page.goto(`${site.url}${path}/tests/new/recovery`)
    await page.getByRole('button', { name: 'Pump stopped: start the clock' }).click()
    for (const seconds of [10, 60, 180, 300, 600, 900]) await tap(page, seconds)
    await kept(page)
    await context.setOffline(true)
    await page.getByRole('button', { name: 'Save the test' }).click()
    await page.getByText('Saved on this phone at').waitFor()
    await page.getByText('1 not sent yet').waitFor()
    await context.setOffline(false)
    await page.getByText('1 not sent yet').waitFor({ state: 'detached' })
    expect(await testsListed(page, path)).toBe(before + 1)
    await context.close()
  })

  test('asks about levels that look like feet, and keeps them for whoever stands by them', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'technician')
    const path = await wellPath(page, 'weir house')
    await at(page, 0)
    await page.goto(`${site.url}${path}/tests/new/recovery`)
    await page.fill('[name=static]', '1.8 m')
    await page.getByRole('button', { name: 'Pump stopped: start the clock' }).click()
    for (const seconds of [10, 60, 180, 300, 600]) {
      await at(page, seconds)
      await page.getByRole('button', { name: 'Take a reading now' }).click()
      await page.keyboard.type(`${level(seconds)} m`)
    }
    await page.getByRole('button', { name: 'Save the test' }).click()
    await page.waitForSelector('.error-summary')
    expect(await page.locator('.question').innerText()).toContain('look like feet')
    await expectAccessible(page)
    await page.getByLabel(/I looked twice/).check()
    await page.getByRole('button', { name: 'Save the test' }).click()
    await page.waitForURL(/saved=/)
    expect(await page.locator('main').innerText()).toMatch(/No result[\s\S]*look like feet/)
    await context.close()
  })

  test('leaves no reading behind for the next person who signs in', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'technician')
    const path = await wellPath(page, 'weir house')
    await at(page, 0)
    await page.goto(`${site.url}${path}/tests/new/drawdown`)
    await page.getByRole('button', { name: 'Pump started: start the clock' }).click()
    await tap(page, 60)
    await kept(page)
    expect(await marksIn(page)).toBe(1)
    await page.goto(`${site.url}/account`)
    await page.getByRole('button', { name: 'Sign out', exact: true }).click()
    await page.waitForURL(/sign-in/)
    await page.waitForFunction(() => Object.keys(localStorage).length === 0)
    await expect.poll(() => marksIn(page)).toBe(0)
    await context.close()
  })
})

describe('without script', () => {
  test('a test is a plain table that comes back filled in when it is refused', async () => {
    const { page, context } = await openPage(browser, { script: false })
    await signIn(page, site, 'technician')
    const path = await wellPath(page, 'stone bridge')
    await page.goto(`${site.url}${path}/tests/new/recovery`)
    await expectNothingScripted(page)
    await page.fill('[name=static]', '6')
    for (const [i, minutes] of [0, 2, 5, 10, 20].entries()) {
      await page.fill(`[name=elapsed${i + 1}]`, String(minutes))
      await page.fill(`[name=level${i + 1}]`, i === 3 ? 'seven' : level(minutes * 60))
    }
    await page.getByRole('button', { name: 'Save the test' }).click()
    await page.waitForSelector('.error-summary')
    expect(await page.inputValue('[name=level4]')).toBe('seven')
    expect(await page.inputValue('[name=level5]')).toBe(level(1200))
    await page.fill('[name=level4]', level(600))
    await page.getByRole('button', { name: 'Save the test' }).click()
    await page.waitForURL(/saved=/)
    expect(await page.locator('main').innerText()).toContain(
      'wins back nine tenths of the drawdown in 23 min',
    )
    await context.close()
  })

  async function expectNothingScripted(page: Page) {
    expect(await page.getByRole('button', { name: /start the clock/ }).count()).toBe(0)
    expect(await page.locator('main').innerText()).not.toContain('Kept on this device')
  }
})

test('a step test is kept through a reload, and its report prints and shows that it was withdrawn', async () => {
  const { page, context, complaints } = await openPage(browser)
  await signIn(page, site, 'installer')
  await page.goto(`${site.url}/settings`)
  await page.fill('#outfit-name', 'Fernhollow Wellwrights')
  await page
    .locator('form', { has: page.locator('#outfit-name') })
    .getByRole('button')
    .click()
  await page.getByText('Saved', { exact: true }).waitFor()
  const path = await wellPath(page, 'sorrel head')
  await page.goto(`${site.url}${path}/tests/new/step`)
  await page.fill('[name=static]', '6')
  const steps = [
    ['4', '60', '7.1'],
    ['8', '60', '8.5'],
    ['12', '60', '10.2'],
  ] as const
  for (const [i, [flow, minutes, depth]] of steps.entries()) {
    await page.fill(`[name=flow${i + 1}]`, flow)
    await page.fill(`[name=elapsed${i + 1}]`, minutes)
    await page.fill(`[name=level${i + 1}]`, depth)
  }
  await expectAccessible(page)
  await page.reload()
  await page.getByText('was put back').waitFor()
  expect(await page.inputValue('[name=level3]')).toBe('10.2')
  await page.getByRole('button', { name: 'Save the test' }).click()
  await page.waitForURL(/saved=/)
  expect(await page.locator('main').innerText()).toContain('Well loss C')
  await page.emulateMedia({ media: 'print' })
  expect(await page.locator('nav').first().isVisible()).toBe(false)
  expect(await page.getByText('Fernhollow Wellwrights').first().isVisible()).toBe(true)
  await page.emulateMedia({ media: 'screen' })
  const report = new URL(page.url()).pathname
  await page.getByRole('link', { name: 'Withdraw it' }).click()
  await page.fill('[name=reason]', 'The bucket leaked')
  await page.getByRole('button', { name: 'Withdraw the line' }).click()
  await page.waitForURL(/withdrawn=/)
  await page.goto(`${site.url}${report}`)
  expect(await page.locator('main').innerText()).toMatch(
    /Withdrawn: counts for nothing[\s\S]*The bucket leaked/,
  )
  await expectAccessible(page)
  await page.goto(`${site.url}${path}/tests`)
  expect(await page.locator('main').innerText()).toContain('Withdrawn: counts for nothing')
  expect(complaints).toEqual([])
  await context.close()
})

test('a drawdown test runs by the clock through to its report', async () => {
  const { page, context, complaints } = await openPage(browser)
  await signIn(page, site, 'technician')
  const path = await wellPath(page, 'sorrel head')
  await at(page, 0)
  await page.goto(`${site.url}${path}/tests/new/drawdown`)
  await page.fill('[name=static]', '6')
  await page.fill('[name=flow]', '30 gpm')
  await page.getByRole('button', { name: 'Pump started: start the clock' }).click()
  // It falls by 3 ft with a time constant of ten minutes, and then by little more.
  for (const minutes of [1, 3, 6, 10, 20, 40, 60, 90]) {
    await at(page, minutes * 60)
    await page.getByRole('button', { name: 'Take a reading now' }).click()
    await page.keyboard.type((9 - 3 * Math.exp(-minutes / 10) + minutes / 1000).toFixed(2))
  }
  await kept(page)
  await page.locator('figure.chart').waitFor()
  await expectAccessible(page)
  await page.getByRole('button', { name: 'Save the test' }).click()
  await page.waitForURL(/saved=/)
  const main = await page.locator('main').innerText()
  // By hand: 30 gal/min over 3.09 ft is 9.71, with nothing left to come out of casing and gravel by then.
  expect(main).toMatch(/After 90 min the level stood 3\.09\sft below rest: 9\.71\sgal\/min per ft/)
  expect(await page.locator('#readings + p + section tbody tr').count()).toBe(8)
  await expectAccessible(page)
  expect(complaints).toEqual([])
  await context.close()
})

test('the choice of a test and the list of tests are accessible', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'technician')
  const path = await wellPath(page, 'sorrel head')
  for (const end of ['', '/new']) {
    await page.goto(`${site.url}${path}/tests${end}`)
    await expectAccessible(page)
  }
  await context.close()
})

test('an owner finds no test of the desk, whether it exists or not', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'installer')
  const path = await wellPath(page, 'old forge')
  await context.clearCookies()
  await signIn(page, site, 'owner')
  for (const end of ['', '/new', '/new/recovery']) {
    const answer = await page.request.get(`${site.url}${path}/tests${end}`)
    expect(answer.status(), end).toBe(404)
  }
  await context.close()
})
