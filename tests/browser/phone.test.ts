import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { photo } from '../setup/hostile-files'
import { foundIn, marksPhoto, notesIn, openRound, photosIn, stopRow } from '../setup/phone-rows'
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

let site: Site
let phone: BrowserContext
let page: Page
let well = ''
const folder = mkdtempSync(join(tmpdir(), 'wellround-phone-'))

beforeAll(async () => {
  site = await startSite('demo', async (db) => {
    await marksPhoto(db)
    return []
  })
  phone = await launchPhone(folder)
  page = phone.pages()[0] ?? (await phone.newPage())
  await signIn(page, site, 'technician')
  well = await wellPath(page, site, 'Orchard')
})
afterAll(async () => {
  await phone?.close()
  await site?.stop()
  removeFolder(folder)
})

const notes = () => notesIn(site.file)
const photos = () => photosIn(site.file)
/** The page sends by itself when it is opened; what waits out a failure of a moment ago goes by the button. */
const sendAllNow = async () => {
  await page.goto(`${site.url}/unsent`)
  await page.waitForSelector('h2:has-text("Not sent yet")')
  const button = page.locator('main button:has-text("Send now")')
  await expect
    .poll(
      async () => {
        await button.evaluateAll(([first]) => first instanceof HTMLElement && first.click())
        return { nothing: await page.getByText('Nothing waits here').count(), buttons: await button.count() }
      },
      { interval: 500 },
    )
    .toEqual({ nothing: 1, buttons: 0 })
  await expect.poll(mark).toBe('')
}

/** The worker has taken over and has its files. */
const ready = (where: Page) =>
  where.waitForFunction(async () => {
    const registration = await navigator.serviceWorker.ready
    return registration.active?.state === 'activated' && navigator.serviceWorker.controller !== null
  })

/** Fills and saves a visit on the form that is open. */
async function log(where: Page, note: string, file?: { name: string; mimeType: string; buffer: Buffer }) {
  await where.fill('[name=date]', TODAY)
  await where.fill('[name=note]', note)
  if (file) await where.setInputFiles('[name=photo]', file)
  await where.click('text=Save the visit')
}

/** Every entry of every cache of the site. */
const cached = () =>
  page.evaluate(async () => {
    const urls: string[] = []
    for (const name of await caches.keys())
      for (const request of await (await caches.open(name)).keys()) urls.push(new URL(request.url).pathname)
    return urls
  })

/** What the page says, once it says all of these. */
async function expectWords(...words: string[]): Promise<void> {
  for (const each of words) await expect.poll(() => page.locator('main').innerText()).toContain(each)
}
const mark = () => page.locator('.phone-mark').innerText()

describe('a day without signal', () => {
  // One that fails with the server gone must not take the others down with it.
  afterAll(() => site.resume())

  test('a well is taken along while there is signal', async () => {
    await page.goto(`${site.url}${well}`)
    await ready(page)
    await page.click('text=Take this well with you')
    await page.waitForSelector('text=On this phone since')
    expect(await mark()).toBe('')
  })

  test('with the server gone its page and its form open, and two visits are kept, one with a photo', async () => {
    await site.pause()
    await page.goto(`${site.url}${well}`)
    await page.waitForSelector('text=From what is on this phone, last updated')
    await page.click('text=Log a visit')
    await page.waitForSelector('#visit')
    await expectAccessible(page)
    await log(page, 'PHONE-1', { name: 'lid.jpg', mimeType: 'image/jpeg', buffer: await photo() })
    await page.waitForSelector('text=Saved on this phone at')
    await page.click('text=Log another visit')
    await page.waitForSelector('text=Saved on this phone at', { state: 'detached' })
    await log(page, 'PHONE-2')
    await page.waitForSelector('text=Saved on this phone at')
    await page.waitForSelector('text=2 not sent yet')
  })

  test('an odd reading is asked about on the spot, and nothing typed is lost', async () => {
    await page.goto(`${site.url}${well}/visit`)
    await page.fill('[name=staticLevel]', '900')
    await log(page, 'PHONE-3')
    await page.waitForSelector('text=There is a problem')
    expect(await page.inputValue('[name=staticLevel]')).toBe('900')
    await page.check('[name="answer:staticLevel"]')
    await page.click('text=Save the visit')
    await page.waitForSelector('text=Saved on this phone at')
  })

  test('a page that is not on the phone says so, and what is', async () => {
    await page.goto(`${site.url}/yield`)
    await page.waitForSelector('h1:has-text("No signal")')
    await expectWords('Taken along')
    await expectAccessible(page)
  })

  test('the browser is closed and opened again: everything is listed, with its words and its photo', async () => {
    await phone.close()
    phone = await launchPhone(folder)
    page = phone.pages()[0] ?? (await phone.newPage())
    await page.goto(`${site.url}/unsent`)
    await expectWords('PHONE-1', 'PHONE-2', 'PHONE-3', 'Saved on this phone', 'There was no signal', '900')
    await expect.poll(() => page.locator('.unsent-photo').count()).toBe(1)
    await expectAccessible(page)
  })

  test('what waits can be saved as a file, photos included', async () => {
    const [download] = await Promise.all([page.waitForEvent('download'), page.click('text=Save as a file')])
    const stream = await download.createReadStream()
    const pieces: Buffer[] = []
    for await (const piece of stream) pieces.push(Buffer.from(piece))
    const file = JSON.parse(Buffer.concat(pieces).toString('utf8'))
    expect(file.records).toHaveLength(3)
    expect(Buffer.from(file.photos[0].base64, 'base64')).toEqual(await photo())
  })

  test('the signal returns: everything arrives, once', async () => {
    expect(notes()).toEqual([])
    await site.resume()
    await sendAllNow()
    expect(notes()).toEqual(['PHONE-1', 'PHONE-2', 'PHONE-3'])
    expect(photos()).toBe(1)
    await page.goto(`${site.url}${well}`)
    await page.waitForSelector('a:has-text("Photo 1")')
    expect(await mark()).toBe('')
  })

  test('the phone’s caches hold files of the build alone', async () => {
    for (const path of ['/', '/wells', well, `${well}/visit`, '/water', '/account'])
      await page.goto(site.url + path)
    const urls = await cached()
    expect(urls.length).toBeGreaterThan(3)
    expect(urls.filter((url) => !url.startsWith('/offline/'))).toEqual([])
  })

  test('the network is cut under an open form with signal: the visit is kept, and sent when it is back', async () => {
    await page.goto(`${site.url}${well}/visit`)
    await phone.setOffline(true)
    await log(page, 'PHONE-4')
    await page.waitForSelector('text=Saved on this phone at')
    await phone.setOffline(false)
    await expect.poll(notes).toContain('PHONE-4')
    await expect.poll(mark).toBe('')
  })

  test('with signal a visit with a photo goes at once, and leads to the well', async () => {
    await page.goto(`${site.url}${well}/visit`)
    await log(page, 'PHONE-5', { name: 'lid-2.jpg', mimeType: 'image/jpeg', buffer: await photo() })
    await page.waitForSelector('text=Saved: the visit of')
    expect(notes()).toContain('PHONE-5')
    expect(photos()).toBe(2)
  })
})

describe('a round', () => {
  afterEach(() => site.resume())

  test('is taken along, and without signal its stops are closed in each way; sent, they stand closed', async () => {
    const { id, stops } = openRound(site.file)
    const round = `${site.url}/rounds/${id}`
    await page.goto(round)
    await ready(page)
    await page.click('text=Take this round with you')
    await page.waitForSelector('text=On this phone since')
    await site.pause()
    await page.goto(round)
    await page.waitForSelector('text=From what is on this phone, last updated')
    await expectAccessible(page)

    await page.goto(`${round}/stops/${stops[0]}`)
    await page.waitForSelector('h1:has-text("Close the stop at")')
    await expectAccessible(page)
    await page.click('text=Done or partly')
    await page.waitForSelector('#visit')
    await page.fill('[name=date]', TODAY)
    await page.fill('[name=note]', 'PHONE-ROUND')
    await page.click('.visit-save button')
    await page.waitForSelector('text=Saved on this phone at')
    await page.click('text=Back to the round')
    await page.waitForSelector('text=Closed here: done')

    for (const [stop, outcome, said] of [
      [stops[1], 'not-found', 'probed around the birch'],
      [stops[2], 'no-access', 'bridge closed'],
    ] as const) {
      await page.goto(`${round}/stops/${stop}`)
      await page.fill('[name=date]', TODAY)
      await page.fill('[name=stopOther]', 'bring a saw')
      await page.click('#not-reached-form button[type=submit]')
      await page.waitForSelector('text=Choose what happened')
      expect(await page.inputValue('[name=stopOther]')).toBe('bring a saw')
      await page.check(`[name=stopOutcome][value=${outcome}]`)
      await page.fill('[name=stopSaid]', said)
      await page.click('#not-reached-form button[type=submit]')
      await page.waitForSelector('text=Saved on this phone at')
    }
    await page.goto(`${site.url}/unsent`)
    await page.waitForSelector('text=bridge closed')
    await expectAccessible(page)
    for (const stop of stops.slice(0, 3)) expect(stopRow(site.file, stop).outcome).toBeNull()

    await site.resume()
    await sendAllNow()
    expect(notes()).toContain('PHONE-ROUND')
    expect(stopRow(site.file, stops[0]).outcome).toBe('done')
    expect(stopRow(site.file, stops[1])).toMatchObject({
      outcome: 'not-found',
      said: 'probed around the birch',
    })
    expect(stopRow(site.file, stops[2])).toMatchObject({ outcome: 'no-access', said: 'bridge closed' })
    for (const step of ['call-owner', 'visit-again', 'bring a saw'])
      expect(stopRow(site.file, stops[1]).nextSteps).toContain(step)
  })

  test('the sheet to a head says the same without signal, photos included, and takes the answer', async () => {
    const buried = await wellPath(page, site, 'camp kitchen')
    // The way from here is offered once the script has asked the device, on either page.
    const sheet = async () => {
      await page.waitForSelector('.find button:has-text("Show the way from where I stand")')
      return page.locator('.find').innerText()
    }
    await page.goto(`${site.url}${buried}`)
    await page.click('text=Take this well with you')
    await page.waitForSelector('text=On this phone since')
    await page.goto(`${site.url}${buried}/find`)
    const online = await sheet()
    expect(online).toContain('The record does not fit together')
    await site.pause()
    await page.goto(`${site.url}${buried}/find`)
    await page.waitForSelector('text=From what is on this phone, last updated')
    expect(await sheet()).toBe(online)
    await expect
      .poll(() => page.locator('.place-photos img').evaluate((img: HTMLImageElement) => img.naturalWidth))
      .toBeGreaterThan(0)
    await expectAccessible(page)
    const before = foundIn(site.file)
    await page.fill('#search [name=date]', TODAY)
    await page.click('#search button[value=found]')
    await page.waitForSelector('text=Saved on this phone at')
    await site.resume()
    await sendAllNow()
    expect(foundIn(site.file)).toBe(before + 1)
  })

  test('what waits can be deleted and read back from its file, and then arrives', async () => {
    await page.goto(`${site.url}${well}/visit`)
    await site.pause()
    await log(page, 'PHONE-FILE', { name: 'lid-3.jpg', mimeType: 'image/jpeg', buffer: await photo() })
    await page.waitForSelector('text=Saved on this phone at')
    await page.goto(`${site.url}/unsent`)
    const [download] = await Promise.all([page.waitForEvent('download'), page.click('text=Save as a file')])
    const file = join(folder, 'unsent.json')
    await download.saveAs(file)
    await page.locator('article button:has-text("Delete")').click()
    await page.click('text=Yes, delete the visit')
    await page.waitForSelector('text=Nothing waits here')
    await page.click('text=Read a saved file back')
    await expectAccessible(page)
    await page.setInputFiles('#read-back', file)
    await page.waitForSelector('text=Saved on this phone: 1 record and 1 photo of the file.')
    await page.waitForSelector('text=PHONE-FILE')
    await site.resume()
    const before = photos()
    await sendAllNow()
    expect(notes()).toContain('PHONE-FILE')
    expect(photos()).toBe(before + 1)
  })
})

describe('another person on the same phone', () => {
  afterEach(() => site.resume())

  test('sees and sends nothing of what the first one wrote', async () => {
    await page.goto(`${site.url}${well}/visit`)
    await site.pause()
    await log(page, 'PHONE-6')
    await page.waitForSelector('text=Saved on this phone at')
    await phone.clearCookies()
    await site.resume()
    await page.goto(`${site.url}/unsent`)
    await page.waitForSelector('text=Nobody is signed in on this phone')
    await signIn(page, site, 'installer')
    await page.goto(`${site.url}/unsent`)
    await page.waitForSelector('text=Somebody else has 1 record on this phone')
    await expectWords('Nothing yet.')
    expect(await page.locator('main').innerText()).not.toContain('PHONE-6')
    await page.goto(`${site.url}${well}`)
    expect(notes()).not.toContain('PHONE-6')
  })

  test('the first one signs in again and it is sent', async () => {
    await phone.clearCookies()
    await signIn(page, site, 'technician')
    await expect.poll(notes).toContain('PHONE-6')
  })

  test('signing out says what is not sent, and leaves nothing behind', async () => {
    await page.goto(`${site.url}${well}`)
    await page.click('text=Take this well with you')
    await page.waitForSelector('text=On this phone since')
    await page.goto(`${site.url}${well}/visit`)
    await site.pause()
    await log(page, 'PHONE-7')
    await page.waitForSelector('text=Saved on this phone at')
    // A server that is back, and takes no batches yet.
    await phone.route('**/api/v1/batches', (route) => route.abort())
    await site.resume()
    await page.goto(`${site.url}/account`)
    await page.click('text=Sign out >> nth=0')
    await page.waitForSelector('text=1 record is not sent yet')
    await expectAccessible(page)
    await page.click('text=Delete them and sign out')
    await page.waitForURL('**/sign-in**')
    await phone.unroute('**/api/v1/batches')
    const left = await page.evaluate(
      () =>
        new Promise<number[]>((resolve, reject) => {
          const open = indexedDB.open('wellround')
          open.onerror = () => reject(open.error)
          open.onsuccess = () => {
            const names = ['items', 'photos', 'taken', 'meta']
            const tx = open.result.transaction(names)
            const counts = names.map((name) => tx.objectStore(name).count())
            tx.oncomplete = () => resolve(counts.map(({ result }) => result))
          }
        }),
    )
    expect(left).toEqual([0, 0, 0, 0])
  })
})
