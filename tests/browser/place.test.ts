import type { Browser, Page } from 'playwright-core'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { expectAccessible, launchBrowser, openPage, type Site, signIn, startSite, wellPath } from './harness'

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

/** A picture of noise, which packs badly: large enough for a phone to make it smaller. */
const photo = async (side: number) => ({
  name: 'photo.jpg',
  mimeType: 'image/jpeg',
  buffer: await sharp({
    create: {
      width: side,
      height: side,
      channels: 3,
      background: '#000',
      noise: { type: 'gaussian', mean: 128, sigma: 60 },
    },
  })
    .jpeg()
    .toBuffer(),
})

const words = async (page: Page) => (await page.locator('main').innerText()).replaceAll('\u00a0', ' ')

describe('the place of a well', () => {
  test('is drawn, tells what does not fit and what to do, on phone and desk', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'technician')
    const well = await wellPath(page, site, 'camp kitchen')
    await page.goto(`${site.url}${well}`)
    expect(await page.locator('section:has(> #place)').innerText()).toContain('Does not fit')
    await page.getByRole('link', { name: 'Ties, drawing and photos' }).click()
    await page.waitForURL(/\/place$/)
    const said = await words(page)
    expect(said).toContain('The ties do not fit each other: the one from')
    expect(said).toContain('Measure those ties again')
    expect(await page.locator('.place-drawing svg .place-mark').count()).toBe(3)
    expect(await page.locator('.place-head').count()).toBe(1)
    await expectAccessible(page)
    await page.goto(`${site.url}${well}/place/new`)
    await expectAccessible(page)
    await page.goto(`${site.url}${well}/find`)
    expect(await words(page)).toContain('The record does not fit together')
    await expectAccessible(page)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('is measured without script, comes back filled in when refused, and is corrected with a reason', async () => {
    const { page, context } = await openPage(browser, { script: false })
    await signIn(page, site, 'installer')
    const well = await wellPath(page, site, 'quince row')
    await page.goto(`${site.url}${well}/place/new`)
    const fill = async (values: Record<string, string>) => {
      for (const [name, value] of Object.entries(values)) await page.locator(`[name=${name}]`).fill(value)
    }
    await fill({ mark1Name: 'door corner', mark1Tape: '5 m', mark2Name: 'gate post', mark2Tape: 'five' })
    await page.getByRole('button', { name: 'Save the place' }).click()
    expect(await page.locator('.error-summary').innerText()).toContain('There is a problem')
    expect(await page.locator('[name=mark1Name]').inputValue()).toBe('door corner')
    expect(await page.locator('[name=mark2Tape]').inputValue()).toBe('five')
    await page.locator('[name=mark2Tape]').fill('5 m')
    await page.locator('details:has([name=mark2ToFirst]) summary').click()
    await fill({ mark2ToFirst: '8 m', cover: '1 ft' })
    await page.setInputFiles('[name=photoMark2]', await photo(60))
    await page.setInputFiles('[name=photoSketch]', {
      name: 'sketch.jpg',
      mimeType: 'image/jpeg',
      buffer: Buffer.from('no picture'),
    })
    await page.getByRole('button', { name: 'Save the place' }).click()
    await page.waitForURL(/\/place\?saved=yes/)
    expect(await page.locator('.place-photos figcaption').allInnerTexts()).toEqual(['The mark: gate post'])
    expect(await words(page)).toContain('Not every photo could be kept')
    expect(await words(page)).toContain('nothing recorded tells which. Say on which side the well lies.')
    expect(await page.locator('.place-head').count()).toBe(2)
    await page.getByRole('link', { name: 'Correct it' }).click()
    expect(await page.locator('[name=mark2ToFirst]').inputValue()).toBe('8 m')
    await page.locator('[name=side][value=left]').check()
    await page.getByRole('button', { name: 'Store the correction' }).click()
    expect(await page.locator('.error-summary').innerText()).toContain('why the line is corrected')
    await page.fill('[name=reason]', 'Looked again: left of the wall.')
    await page.getByRole('button', { name: 'Store the correction' }).click()
    await page.waitForURL(/saved=corrected/)
    expect(await words(page)).toMatch(/The ties put the head within \d+ in, on the hand that was noted/)
    expect(await page.locator('.place-head').count()).toBe(1)
    await context.close()
  })

  test('takes the device’s position with its accuracy, keeps the draft, and offers it to the register', async () => {
    const { page, context, complaints } = await openPage(browser)
    await context.grantPermissions(['geolocation'], { origin: site.url })
    await context.setGeolocation({ latitude: 44.15, longitude: -121.3, accuracy: 4.2 })
    await signIn(page, site, 'installer')
    const well = await wellPath(page, site, 'pear block north')
    await page.goto(`${site.url}${well}/place/new`)
    await page.getByRole('button', { name: 'Use this phone’s position' }).click()
    await page.getByText('good to ±14 ft').waitFor()
    await expect.poll(() => page.locator('[name=fixLat]').inputValue()).toBe('44.150000')
    await page.getByRole('button', { name: 'Keep this position' }).click()
    await page.reload()
    await page.getByText('What you typed earlier on this device was put back').waitFor()
    expect(await page.locator('[name=fixLon]').inputValue()).toBe('-121.300000')
    await page.setInputFiles('[name=photoHead]', await photo(2400))
    await page.getByText(/Made smaller: \d/).waitFor()
    await page.getByRole('button', { name: 'Save the place' }).click()
    await page.waitForURL(/saved=yes/)
    expect(await page.locator('.place-photos figcaption').allInnerTexts()).toEqual(['The head'])
    await page.getByRole('button', { name: /Put it into the register/ }).click()
    await page.waitForURL(/saved=adopted/)
    await page.goto(`${site.url}${well}`)
    expect(await words(page)).toContain('44.15000, -121.30000')
    expect(complaints).toEqual([])
    await context.close()
  })

  test('leads from where the device stands, honest about how good that is, and writes down that nobody found it', async () => {
    const { page, context, complaints } = await openPage(browser)
    await context.grantPermissions(['geolocation'], { origin: site.url })
    await signIn(page, site, 'technician')
    const well = await wellPath(page, site, 'camp kitchen')
    await page.goto(`${site.url}${well}/find`)
    const target = await page.locator('a[href^="geo:"]').first().getAttribute('href')
    const [latitude = 0, longitude = 0] = (target ?? '').replace('geo:', '').split(',').map(Number)
    await context.setGeolocation({ latitude: latitude - 0.001, longitude, accuracy: 9 })
    await page.getByRole('button', { name: 'Show the way from where I stand' }).click()
    await page.getByText('365 ft, north').waitFor()
    expect(await words(page)).toContain('This device is good to ±30 ft: within that, use the tapes.')
    await context.setGeolocation({ latitude: latitude - 0.00002, longitude, accuracy: 9 })
    await page.locator('.find-way', { hasText: 'of here: swing the tapes' }).waitFor()
    expect(await words(page)).toContain('it can bring you no closer')
    await page.fill('[name=note]', 'Gravel was dumped there.')
    await page.getByRole('button', { name: 'Not found' }).click()
    await page.waitForURL(/saved=not-found/)
    expect(await words(page)).toContain('Probe in rings around the spot')
    await expectAccessible(page)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('is read by its household, without the buttons of the desk', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'owner')
    await page.goto(`${site.url}/own`)
    await page.locator('main a[href^="/own/"]').first().click()
    await page.getByRole('link', { name: 'Where it is' }).click()
    await page.waitForURL(/\/find$/)
    // How a well is opened is for those who work on it.
    expect(await words(page)).toContain('Never open the well')
    expect(await words(page)).not.toContain('Before you open it')
    expect(await page.getByRole('button', { name: 'Not found' }).count()).toBe(0)
    await expectAccessible(page)
    await context.close()
  })
})

describe('plates', () => {
  test('are made, printed for several wells, and lead to the well', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'installer')
    await page.goto(`${site.url}/plates?q=camp`)
    for (const box of (await page.locator('[name=wells]').all()).slice(0, 3)) await box.check()
    await page.getByRole('button', { name: 'Show the plates' }).click()
    await page.getByRole('button', { name: 'Make what is missing' }).click()
    await page.locator('.plate').first().waitFor()
    expect(await page.locator('.plate').count()).toBe(3)
    await expectAccessible(page)
    await page.goto(`${site.url}${await wellPath(page, site, 'camp loop a')}/plates`)
    await expectAccessible(page)
    expect((await page.request.get(`${site.url}/p/AAAABBBBCCCCDDDD`)).status()).toBe(404)
    expect(complaints).toEqual([])
    await context.close()
  })
})
