import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import writeExcelFile from 'write-excel-file/node'
import { expectAccessible, launchBrowser, openPage, type Site, startSite } from './harness'

const FOLDER = mkdtempSync(join(tmpdir(), 'wellround-import-'))
const PASSWORD = 'plain-words-for-a-test-9'
let browser: Browser
let site: Site
beforeAll(async () => {
  browser = await launchBrowser()
  site = await startSite('empty')
})
afterAll(async () => {
  await browser?.close()
  await site?.stop()
  rmSync(FOLDER, { recursive: true, force: true })
})

/** An outfit's own sheet as such sheets are: title rows, 40 columns, days written day first, notes to self. */
async function outfitSheet(): Promise<string> {
  const head = [
    'Well no.',
    'Customer',
    'Tel',
    'Depth',
    'Filter last changed',
    'Filter every (months)',
    'Brushes last checked',
    'Remarks',
  ]
  const blank = Array.from({ length: 40 - head.length }, (_, i) => `Column ${i + 9}`)
  const rows = [
    ['A-1', 'Orla Finch', '555-0201', '16.5', '13/06/2026', '3', '03/02/2026', 'gate code on card'],
    ['A-2', 'Orla Finch', '555-0201', '14', '28/10/2026', '6', '14/05/2026', ''],
    ['B-7', 'Mill Lane Nursery', '555-0202', '18', '', '', '19/09/2025', 'dog'],
  ].map((row) => [...row, ...blank.map(() => '')])
  const cell = (value: string) => ({ value, type: String as StringConstructor })
  const table = [
    ['Wells we look after, 2026'],
    ['(ask Pat before changing anything)'],
    [...head, ...blank],
    ...rows,
  ]
  const file = join(FOLDER, 'our wells.xlsx')
  await writeExcelFile(table.map((row) => row.map(cell))).toFile(file)
  return file
}

async function upload(page: Page, kind: string, file: string): Promise<void> {
  await page.goto(`${site.url}/import`)
  await page.check(`input[name=kind][value=${kind}]`)
  await page.setInputFiles('input[name=file]', file)
  await page.getByRole('button', { name: 'Look at the file' }).click()
  await page.waitForURL(/\/import\/[0-9a-f]{32}/)
}

const columnOf = async (page: Page, heading: string) => {
  const id = await page.getByLabel(heading, { exact: true }).getAttribute('id')
  if (!id) throw new Error(`no column ${heading}`)
  return id.slice(1)
}

async function check(page: Page): Promise<string> {
  const before = page.url()
  await page.getByRole('button', { name: 'Check the file' }).click()
  await page.waitForURL((url) => url.href !== before)
  return page.locator('main').innerText()
}

async function runImport(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Import', exact: true }).click()
  await page.waitForURL(/\/import\/job\//)
  await page.getByRole('link', { name: 'See what is due' }).waitFor()
}

test('from the first run to a due list: the outfit brings the spreadsheet that it has', async () => {
  const { page, complaints } = await openPage(browser, { width: 1280 })
  await page.goto(site.url)
  await page.waitForURL(/\/first-run/)
  await expectAccessible(page)
  await page.fill('[name=name]', 'Pat')
  await page.fill('[name=email]', 'pat@example.test')
  for (const box of await page.locator('input[type=password]').all()) await box.fill(PASSWORD)
  await page.locator('main button[type=submit]').click()
  await page.waitForURL((url) => !url.pathname.startsWith('/first-run'))
  expect(await page.locator('main').innerText()).toMatch(/import/i)
  await expectAccessible(page)

  await page.goto(`${site.url}/import`)
  await expectAccessible(page)
  await upload(page, 'wells', await outfitSheet())
  await expectAccessible(page)
  const set = async (heading: string, field: string) =>
    page.selectOption(`#f${await columnOf(page, heading)}`, field)
  await set('Well no.', 'well')
  await set('Customer', 'owner')
  await set('Tel', 'phone')
  await set('Depth', 'well_depth')
  await set('Filter last changed', 'duty:Change sediment cartridge:last_done')
  await set('Filter every (months)', 'duty:Change sediment cartridge:every_months')
  await set('Brushes last checked', 'duty:Check motor brushes:last_done')
  const asked = await check(page)
  expect(asked).toContain('In which unit is "Depth"?')
  expect(asked).toContain('In "Brushes last checked", what comes first')
  await page.selectOption(`[name=u${await columnOf(page, 'Depth')}]`, 'ft')
  for (const heading of ['Brushes last checked', 'Filter last changed']) {
    const order = page.locator(`[name=d${await columnOf(page, heading)}]`)
    if ((await order.count()) > 0) await order.selectOption('dmy')
  }
  const checked = await check(page)
  expect(checked).toContain('3 new wells')
  await expectAccessible(page)
  await runImport(page)
  await expectAccessible(page)
  await page.getByRole('link', { name: 'See what is due' }).click()
  await page.waitForURL(`${site.url}/`)
  const due = await page.locator('main').innerText()
  expect(due).toContain('A-1')
  // 13 June + 3 months, worked by hand.
  expect(due).toContain('Due Sep 13, 2026: every 3 months, last done Jun 13, 2026')
  expect(complaints).toEqual([])
})

test('a public table of real wells and water levels comes in, comes in twice without doubling, and goes out again', async () => {
  const { page, complaints } = await openPage(browser, { width: 1280 })
  await page.goto(`${site.url}/sign-in`)
  await page.fill('[name=email]', 'pat@example.test')
  await page.fill('[name=password]', PASSWORD)
  await page.locator('main button[type=submit]').click()
  await page.waitForURL((url) => !url.pathname.startsWith('/sign-in'))

  // Depth to water in six real wells: US Geological Survey (public domain) and DINOloket of TNO,
  // Geological Survey of the Netherlands; 1,841 readings, feet and metres by row.
  const real = 'tests/published/data/trend/depth_open.csv'
  const mapAndCheck = async () => {
    await upload(page, 'visits', real)
    const set = async (heading: string, field: string) =>
      page.selectOption(`#f${await columnOf(page, heading)}`, field)
    await set('site', 'well')
    await set('date', 'date')
    await set('depth_to_water', 'static_level')
    await check(page)
    await page.selectOption(
      `[name=u${await columnOf(page, 'depth_to_water')}]`,
      `col:${await columnOf(page, 'unit')}`,
    )
    await page.selectOption(`#f${await columnOf(page, 'unit')}`, 'skip')
    await page.check('[name=missing]')
    return check(page)
  }
  const first = await mapAndCheck()
  expect(first).toContain('6 new wells')
  expect(first).toContain('1,841 new logbook lines')
  await runImport(page)
  expect(await page.locator('main').innerText()).toContain('1,841')

  await page.goto(`${site.url}/wells?q=USGS-402333111513401`)
  await page.locator('main table a[href^="/wells/"]').first().click()
  await page.waitForURL(/\/wells\/[0-9a-f-]{36}/)
  expect(await page.locator('main').innerText()).toContain('299 readings at rest')

  const second = await mapAndCheck()
  expect(second).toContain('1,841 logbook lines are there already')
  expect(second).not.toContain('new')

  await page.goto(`${site.url}/import`)
  await page.getByRole('link', { name: /Take this import back.*depth_open/ }).click()
  await expectAccessible(page)
  await page.getByRole('button', { name: 'Take the import back' }).click()
  await page.getByText(/was taken back on/).waitFor()
  await page.goto(`${site.url}/wells?q=USGS`)
  expect(await page.locator('main table tbody tr').count()).toBe(0)
  expect(complaints).toEqual([])
})

test('a file with faults is refused whole, with every fault by its row and column', async () => {
  const { page } = await openPage(browser)
  await page.goto(`${site.url}/sign-in`)
  await page.fill('[name=email]', 'pat@example.test')
  await page.fill('[name=password]', PASSWORD)
  await page.locator('main button[type=submit]').click()
  await page.waitForURL((url) => !url.pathname.startsWith('/sign-in'))
  await page.goto(`${site.url}/import`)
  await page.check('input[name=kind][value=visits]')
  await page.setInputFiles('input[name=file]', {
    name: 'faults.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(
      'well;date;flow_gal_per_min\nA-1;2026-05-32;4\nA-1;2026-05-12;many\nNobody;2026-05-12;5\n',
    ),
  })
  await page.getByRole('button', { name: 'Look at the file' }).click()
  await page.waitForURL(/\/import\/[0-9a-f]{32}/)
  const said = await check(page)
  expect(said).toContain('3 problems keep the file from being stored')
  expect(said).toContain('2026-05-32')
  expect(said).toContain('many')
  expect(said).toContain('Nobody')
  expect(await page.getByRole('button', { name: 'Import', exact: true }).count()).toBe(0)
  await expectAccessible(page)
})
