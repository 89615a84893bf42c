import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { harmlessAfter, PDF, photo, refusedFiles } from '../setup/hostile-files'
import { expectAccessible, launchBrowser, openPage, type Site, signIn, startSite, wellPath } from './harness'
import { fillAbout } from './sheet-about'

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

/** Where pictures of the screens go, when somebody wants to look at them. */
async function picture(page: Page, name: string): Promise<void> {
  const folder = process.env.WELLROUND_PICTURES
  if (!folder) return
  mkdirSync(folder, { recursive: true })
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage: true })
}

const focused = (page: Page) => page.evaluate(() => document.activeElement?.getAttribute('name'))
const cell = (row: number, column: string) => `[name="r${row}:${column}"]`
const store = (page: Page) => page.getByRole('button', { name: 'Store the sheet' }).click()
const stored = (page: Page) => page.waitForURL((url) => /\/samples\/[0-9a-f-]{36}$/.test(url.pathname))

describe('a sheet typed on a phone', () => {
  test('goes from row to row by Enter and Tab, is stored, judged, and told in plain words', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'technician')
    const path = await wellPath(page, site, 'old forge')
    await page.goto(`${site.url}${path}`)
    await page.getByRole('link', { name: 'Log a lab sheet' }).click()
    await page.waitForURL(`${site.url}${path}/samples/new`)
    await picture(page, 'new-390-light')
    await fillAbout(page)
    await page.focus(cell(1, 'result'))
    await page.keyboard.type('Absent')
    await page.keyboard.press('Enter')
    await expect.poll(() => focused(page)).toBe('r2:result')
    await page.keyboard.type('Absent')
    await page.fill(cell(3, 'result'), '14.2')
    await page.fill(cell(3, 'unit'), 'mg/L as N')
    await page.fill(cell(5, 'result'), '<20')
    expect(await page.getAttribute(cell(3, 'unit'), 'list')).not.toBe(
      await page.getAttribute(cell(5, 'unit'), 'list'),
    )
    await page.fill(cell(5, 'unit'), 'µg/L')
    const count = await page.locator('.lab-row').count()
    await page.focus(cell(count, 'analyte'))
    await page.keyboard.type('Iron')
    await page.fill(cell(count, 'result'), '0.1')
    await page.fill(cell(count, 'unit'), 'mg/L')
    await page.focus(cell(count, 'method'))
    await page.keyboard.press('Tab')
    await expect.poll(() => focused(page)).toBe(`r${count + 1}:analyte`)
    await store(page)
    await stored(page)
    const main = await page.locator('main').innerText()
    expect(main).toContain('Above a limit')
    expect(main).toMatch(/Nitrate.*: above the limits of US EPA/)
    expect(main).toContain('Boiling does not take nitrate out of water')
    expect(main).toContain('the test could not see as little as the limit')
    expect(main.toLowerCase()).not.toMatch(/\bsafe\b/)
    await page.locator('.finding', { hasText: '14.2 mg/L as N' }).first().locator('summary').click()
    expect(await page.locator('main').innerText()).toContain('141.62(b)')
    await expectAccessible(page)
    await picture(page, 'sample-390-light')
    expect(complaints).toEqual([])
    await context.close()
  })

  test('keeps a half-typed sheet on the phone, rows added by hand among it, until it is stored', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'technician')
    const path = `${await wellPath(page, site, 'larch')}/samples/new`
    await page.goto(site.url + path)
    const count = await page.locator('.lab-row').count()
    await page.getByRole('button', { name: 'More rows' }).click()
    await page.fill(cell(count + 1, 'analyte'), 'Zinc')
    await page.fill(cell(count + 1, 'result'), '0.4')
    await page.fill('[name=pasted]', 'half a table')
    await page.reload()
    await page.getByText('What you typed earlier on this device was put back').waitFor()
    expect(await page.inputValue(cell(count + 1, 'analyte'))).toBe('Zinc')
    expect(await page.inputValue(cell(count + 1, 'result'))).toBe('0.4')
    expect(await page.inputValue('[name=pasted]')).toBe('half a table')
    await context.close()
  })
})

/** Invented. */
const TABLE = [
  'Sorrel Water Laboratory, sample S-118',
  'Parameter\tResult\tUnits\tRL\tQual',
  'Total Coliform\tAbsent\tP/A\t\t',
  'Nitrate as N\t1,2\tmg/L\t0,05\t',
  'Arsenic\t8\tmg/L\t\t',
  'Coliform\tAbsent\tP/A\t\t',
  'Unobtainium\t3\tmg/L\t\t',
].join('\n')

async function pasteAndAnswer(page: Page): Promise<void> {
  await fillAbout(page)
  await page.fill('[name=pasted]', TABLE)
  await page.getByRole('button', { name: 'Read the table into rows' }).click()
  await page.getByText('5 rows were read from the table').waitFor()
  expect(await page.inputValue('[name=note]')).toBe('Sorrel Water Laboratory, sample S-118')
  expect(await page.inputValue('[name=receivedTemp]')).toBe('41')
  await store(page)
  await page.waitForSelector('.error-summary')
  expect(await page.locator('.error-summary').innerText()).toContain('how this sheet writes numbers')
  await page.getByLabel('1.200,5: the comma marks decimals').check()
  await page.getByLabel('a thousandth of it: the unit was the smaller one').check()
  await page.locator('.question', { hasText: 'Does "coliform" mean' }).getByLabel('Total coliform').check()
  await page.getByLabel('"Unobtainium" is not a name known here').selectOption('open')
}

describe('a pasted table', () => {
  test('is shown as read, asked about, and stored as on the sheet', async () => {
    const { page, context, complaints } = await openPage(browser, { width: 1280 })
    await signIn(page, site, 'installer')
    await page.goto(`${site.url}${await wellPath(page, site, 'larch')}/samples/new`)
    await pasteAndAnswer(page)
    await picture(page, 'asked-1280-light')
    await expectAccessible(page)
    await picture(page, 'asked-390-light')
    await page.emulateMedia({ colorScheme: 'dark' })
    await picture(page, 'asked-390-dark')
    await page.setViewportSize({ width: 1280, height: 900 })
    await store(page)
    await stored(page)
    const written = await page.locator('#written').locator('..').innerText()
    for (const text of ['1,2', '0,05', 'Unobtainium', 'Arsenic: 0.008 mg/L', 'is not a test known here'])
      expect(written).toContain(text)
    expect(await page.locator('main').innerText()).toContain('Not tested for all that counts')
    await picture(page, 'sample-1280-dark')
    await page.emulateMedia({ colorScheme: 'light' })
    await picture(page, 'sample-1280-light')
    expect(complaints).toEqual([])
    await context.close()
  })

  test('does the same without script, and a refused file says why', async () => {
    const { page, context } = await openPage(browser, { script: false })
    await signIn(page, site, 'technician')
    await page.goto(`${site.url}${await wellPath(page, site, 'school yard')}/samples/new`)
    await page.getByRole('button', { name: 'More rows' }).click()
    await expect.poll(() => page.locator('.lab-row').count()).toBe(22)
    await pasteAndAnswer(page)
    await store(page)
    await stored(page)
    await page.setInputFiles('[name=file]', {
      name: 'sheet.jpg',
      mimeType: 'image/jpeg',
      buffer: Buffer.from('<script>'),
    })
    await page.getByRole('button', { name: 'Attach it' }).click()
    await page.waitForSelector('.error-summary')
    expect(await page.locator('#file-error').innerText()).toContain('not a photo')
    await page.setInputFiles('[name=file]', { name: 'sheet.pdf', mimeType: 'application/pdf', buffer: PDF })
    await page.getByRole('button', { name: 'Attach it' }).click()
    await page.getByText('The file is attached.').waitFor()
    await context.close()
  })
})

describe('the original sheet', () => {
  test('hangs on its line as a photo or a download, harmless whatever was sent, and is not there for others', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'technician')
    await page.goto(`${site.url}${await wellPath(page, site, 'mabe meadow')}/samples/new`)
    await fillAbout(page)
    await page.fill(cell(1, 'result'), 'Present')
    await store(page)
    await stored(page)
    const send = async (name: string, buffer: Buffer) => {
      await page.setInputFiles('[name=file]', { name, mimeType: 'image/jpeg', buffer })
      await page.getByRole('button', { name: 'Attach it' }).click()
    }
    for (const [, name, bytes] of (await refusedFiles()).filter(([, , each]) => each.length < 1_000_000)) {
      await send(name, bytes)
      await page.waitForSelector('.error-summary')
      await page.reload()
    }
    const [, name, bytes] = (await harmlessAfter())[0] ?? []
    await send(name ?? '', bytes ?? (await photo()))
    await page.getByText('The file is attached.').waitFor()
    await page.waitForFunction(
      () => (document.querySelector<HTMLImageElement>('.paper')?.naturalWidth ?? 0) > 0,
    )
    await send('sheet.pdf', PDF)
    await page.getByRole('link', { name: 'Download sheet.pdf' }).waitFor()
    const links = await page
      .locator('main a[href^="/api/attachments/"]')
      .evaluateAll((all) => all.map((a) => a.getAttribute('href') ?? ''))
    expect(links).toHaveLength(2)
    await expectAccessible(page)
    await picture(page, 'attached-390-light')
    const [image, pdf] = await Promise.all(links.map((link) => context.request.get(site.url + link)))
    expect(image?.headers()['content-type']).toBe('image/jpeg')
    expect(pdf?.headers()['content-disposition']).toMatch(/^attachment; filename="sheet.pdf"/)
    for (const answer of [image, pdf]) {
      expect(answer?.headers()['content-security-policy']).toContain('sandbox')
      expect(answer?.headers()['x-content-type-options']).toMatch(/^nosniff/)
      expect(answer?.headers()['cache-control']).toContain('no-store')
    }
    const outside = await browser.newContext()
    const { page: other, context: ownerContext } = await openPage(browser)
    await signIn(other, site, 'owner')
    const gone = await ownerContext.request.get(
      `${site.url}/api/attachments/019a0000-0000-7000-8000-000000000000`,
    )
    for (const link of links)
      for (const request of [outside.request, ownerContext.request]) {
        const answer = await request.get(site.url + link)
        expect([answer.status(), await answer.text()]).toEqual([gone.status(), await gone.text()])
      }
    expect(complaints).toEqual([])
    for (const each of [outside, ownerContext, context]) await each.close()
  })
})

test('the report prints with the name of the outfit, every limit and its source, without buttons and forms', async () => {
  const { page, context } = await openPage(browser, { width: 1280 })
  await signIn(page, site, 'installer')
  await page.goto(`${site.url}/settings`)
  const outfit = page.locator('section', { has: page.locator('#outfit') })
  await outfit.locator('[name=name]').fill('Fernhollow Wellwrights')
  await outfit.getByRole('button').click()
  await outfit.getByText('Saved').waitFor()
  await page.goto(`${site.url}${await wellPath(page, site, 'old forge')}`)
  await page.getByRole('link', { name: 'What this sheet says' }).first().click()
  await stored(page)
  await page.emulateMedia({ media: 'print' })
  expect(await page.locator('button:visible, input:visible, details:visible').count()).toBe(0)
  const paper = await page.locator('main').innerText()
  expect(paper).toContain('141.62(b)')
  expect(paper).toContain('Fernhollow Wellwrights')
  expect(paper).toContain('Water sample report · printed Nov 20, 2026')
  await picture(page, 'print')
  await context.close()
})

/** Worked by hand from the printed form: A 0.1505, B 2.0883, C 1.7761, D 1.5315, so pHs 8.2312 and 7.5 - pHs = -0.73. */
const SCALING = [
  'pH\t7.5\tstd units',
  'Total dissolved solids\t320\tmg/L',
  'Calcium\t150\tmg/L as CaCO3',
  'Alkalinity\t34\tmg/L as CaCO3',
  'Specific conductance\t400\tµS/cm',
].join('\n')

test('a sheet is held against itself, and its scale index waits for the temperature of the water', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'technician')
  await page.goto(`${site.url}${await wellPath(page, site, 'high saddle')}/samples/new`)
  await fillAbout(page)
  await page.fill('[name=pasted]', SCALING)
  await page.getByRole('button', { name: 'Read the table into rows' }).click()
  await page.getByText('5 rows were read from the table').waitFor()
  await store(page)
  await stored(page)
  const check = page.locator('section', { has: page.locator('#self') })
  expect(await check.innerText()).toContain('Look again')
  expect(await check.innerText()).not.toContain('Langelier')
  await page.fill('[name=temp]', 'warm')
  await page.getByRole('button', { name: 'Reckon' }).click()
  await page.waitForSelector('#temp-error')
  await page.fill('[name=temp]', '77')
  await page.getByRole('button', { name: 'Reckon' }).click()
  await page.waitForURL(/temp=77/)
  expect(await check.innerText()).toContain('Langelier, A-B-C-D form: -0.73')
  expect(await check.innerText()).toContain('Ryznar, with pHs from calcite solubility')
  await expectAccessible(page)
  await picture(page, 'checked-390-light')
  await context.close()
})

test('a corrected sheet keeps what it said before, and a withdrawn one counts for nothing', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'installer')
  await page.goto(`${site.url}${await wellPath(page, site, 'cider house')}/samples/new`)
  await fillAbout(page)
  await page.fill(cell(1, 'result'), 'Present')
  await store(page)
  await stored(page)
  const url = page.url().replace(/\?.*/, '')
  await page.getByRole('link', { name: 'Correct this sheet' }).click()
  await page.waitForURL(/\/correct$/)
  const text = await page.inputValue('[name=sampleResults]')
  await page.fill('[name=sampleResults]', text.replace('Present', 'Absent'))
  await page.fill('[name=reason]', 'misread')
  await page.locator('main button[type=submit]').first().click()
  await page.waitForURL(/corrected=/)
  await page.goto(url)
  const main = await page.locator('main').innerText()
  expect(main).toContain('Reason: misread')
  expect(main).toContain('Total coliform Present')
  expect(main).not.toContain('Above a limit')
  await page.goto(`${url.replace(/\/wells\/.*\/samples\//, '/entries/')}/withdraw`)
  await page.fill('[name=reason]', 'another well')
  await page.locator('main button[type=submit]').first().click()
  await page.waitForURL(/withdrawn=/)
  await page.goto(url)
  expect(await page.locator('main').innerText()).toContain('Withdrawn: this sheet counts for nothing')
  await expectAccessible(page)
  await context.close()
})

test('a positive is not taken back by a technician, and the refused form comes back filled in', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'technician')
  const path = await wellPath(page, site, 'cider house')
  await page.goto(`${site.url}${path}/samples/new`)
  await fillAbout(page)
  await page.fill(cell(1, 'result'), 'Present')
  await store(page)
  await stored(page)
  const url = page.url().replace(/\?.*/, '')
  await page.goto(`${url.replace(/\/wells\/.*\/samples\//, '/entries/')}/withdraw`)
  await page.fill('[name=reason]', 'another well')
  await page.locator('main button[type=submit]').first().click()
  await page.getByText('Only an installer does that').waitFor()
  expect(await page.inputValue('[name=reason]')).toBe('another well')
  await page.goto(url)
  expect(await page.locator('main').innerText()).toContain('Above a limit')
  await context.close()
})

test('a local limit is typed in with its source, wins in the verdict, is changed and removed', async () => {
  const { page, context, complaints } = await openPage(browser)
  await signIn(page, site, 'installer')
  const path = await wellPath(page, site, 'packing shed')
  await page.goto(`${site.url}${path}/samples/new`)
  await fillAbout(page)
  await page.fill(cell(5, 'result'), '7')
  await page.fill(cell(5, 'unit'), 'µg/L')
  await store(page)
  await stored(page)
  const sample = page.url()
  const arsenic = page.locator('.finding', { hasText: 'Arsenic' }).first()
  expect(await arsenic.innerText()).toContain('Meets this limit')
  await page.goto(`${site.url}/settings`)
  await page.getByRole('link', { name: 'Local limits' }).click()
  await page.getByRole('button', { name: 'Add the limit' }).click()
  await page.waitForSelector('.error-summary')
  await page.fill('[name=analyte]', 'Arsenic')
  await page.fill('[name=max]', '5')
  await page.fill('[name=unit]', 'µg/L')
  await page.fill('[name=source]', 'County well code, table 2 (invented)')
  await page.fill('[name=date]', '2024')
  await page.getByRole('button', { name: 'Add the limit' }).click()
  await page.getByText('The limit is added').waitFor()
  await expectAccessible(page)
  await picture(page, 'limits-390-light')
  await page.goto(sample)
  expect(await arsenic.innerText()).toContain('Above the limit')
  await arsenic.locator('summary').click()
  expect(await arsenic.innerText()).toContain('County well code, table 2 (invented)')
  await page.goto(`${site.url}/settings/limits`)
  await page.getByRole('link', { name: 'Change the limit for Arsenic' }).click()
  await page.waitForURL(/change=/)
  await page.fill('[name=max]', '20')
  await page.getByRole('button', { name: 'Change the limit' }).click()
  await page.getByText('Looser than the published limit').waitFor()
  await page.getByRole('button', { name: 'Remove the limit for Arsenic' }).click()
  await page.getByText('The limit is removed').waitFor()
  await page.goto(sample)
  expect(await arsenic.innerText()).toContain('Meets this limit')
  expect(complaints).toEqual([])
  await context.close()
})
