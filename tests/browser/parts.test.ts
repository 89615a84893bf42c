import type { Browser, Page } from 'playwright-core'
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

const plain = (text: string) => text.replaceAll('\u00a0', ' ')

const inPlace = (page: Page, kind: string) =>
  page
    .locator('section:has(> .group-head > #parts) > .table-frame tbody tr')
    .filter({ has: page.getByRole('rowheader', { name: kind, exact: true }) })

describe('the register of parts', () => {
  test('takes in the pump that a visit fits, ends the one before, and gives it back when the line is withdrawn', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'installer')
    const well = await wellPath(page, site, 'pear block north')

    // The model knows its warranty: refused once with what was typed, then kept.
    await page.goto(`${site.url}/models`)
    await page.getByRole('link', { name: /^Bench Piston 5/ }).click()
    await page.waitForURL(/models\/pump\/[0-9a-f-]+$/)
    await page.fill('[name=warrantyMonths]', 'two years')
    await page.getByRole('button', { name: 'Save the model' }).click()
    await page.locator('#warrantyMonths-error').waitFor()
    expect(await page.inputValue('[name=warrantyMonths]')).toBe('two years')
    await page.fill('[name=warrantyMonths]', '30 months')
    await page.getByRole('button', { name: 'Save the model' }).click()
    await page.waitForURL(/\/models$/)

    await page.goto(`${site.url}${well}/parts/new`)
    await expectAccessible(page)
    await page.getByRole('button', { name: 'Add the part' }).click()
    await page.getByText('Choose what kind of part this is').first().waitFor()
    await page.goto(`${site.url}${well}/visit`)
    await page.fill('[name=date]', '2026-11-18')
    await page.fill('[name=otherWork]', 'New pump')
    await page.selectOption('[name=partKind1]', 'pump')
    await page.fill('[name=partModel1]', 'Bench Piston 5 (invented)')
    await page.getByRole('button', { name: 'Save the visit' }).click()
    await page.waitForURL(/saved=/)
    const said = page.getByRole('status').filter({ hasText: 'Saved: the visit' })
    await said.waitFor()
    expect(plain(await said.innerText())).toMatch(
      /Register of parts: pump Bench Piston 5 \(invented\) entered, warranty until May 18, 2029; the one of .+ is marked as taken out/,
    )
    expect(await inPlace(page, 'pump').count()).toBe(1)
    expect(plain(await inPlace(page, 'pump').innerText())).toContain('Nov 18, 2026')
    await page.getByText(/^Earlier parts \(/).click()
    await page.getByText(/^pump \(/).click()
    await page.getByText('until Nov 18, 2026').first().waitFor()
    await page.getByText(/^Change record/).click()
    await page
      .getByText(/part taken out by a visit: pump Larkspur/)
      .first()
      .waitFor()
    await expectAccessible(page)

    await inPlace(page, 'pump')
      .getByRole('link', { name: /^Correct/ })
      .click()
    await page.waitForURL(/\/correct$/)
    await page.goto(page.url().replace(/correct$/, 'withdraw'))
    await page.fill('[name=reason]', 'wrong well')
    await page.getByRole('button', { name: 'Withdraw the line' }).click()
    await page.waitForURL(/withdrawn=/)
    await inPlace(page, 'pump').filter({ hasText: 'Larkspur D24' }).waitFor()
    expect(await inPlace(page, 'pump').count()).toBe(1)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('leaves a newer part that was written by hand, and says so', async () => {
    const { page, context, complaints } = await openPage(browser, { width: 320, script: false })
    await signIn(page, site, 'installer')
    const well = await wellPath(page, site, 'quince row')
    await page.goto(`${site.url}${well}/parts/new`)
    await page.selectOption('[name=kind]', 'lamp')
    await page.fill('[name=model]', '40 W, 33 in')
    await page.fill('[name=fittedOn]', '2026-11-15')
    await page.check('[name=beside]')
    await page.fill('[name=warrantyUntil]', '2020-01-01')
    await page.getByRole('button', { name: 'Add the part' }).click()
    await page.getByText('A warranty cannot end before').first().waitFor()
    expect(await page.isChecked('[name=beside]')).toBe(true)
    await page.uncheck('[name=beside]')
    await page.fill('[name=warrantyUntil]', '2027-11-15')
    await page.getByRole('button', { name: 'Add the part' }).click()
    await page.waitForURL(`${site.url}${well}`)

    await page.goto(`${site.url}${well}/visit`)
    await page.fill('[name=date]', '2026-11-10')
    await page.fill('[name=otherWork]', 'New lamp')
    await page.selectOption('[name=partKind1]', 'lamp')
    await page.getByRole('button', { name: 'Save the visit' }).click()
    await page.waitForURL(/saved=/)
    expect(plain(await page.locator('main').innerText())).toContain(
      'lamp entered as an earlier one: one of Nov 15, 2026 is in its place and stays as it is',
    )
    expect(plain(await inPlace(page, 'lamp').innerText())).toContain('Nov 15, 2026')
    expect(complaints).toEqual([])
    await context.close()
  })
})

test('says before the tap what of the demo’s shelf and models leaves with it', async () => {
  const { page, context, complaints } = await openPage(browser)
  await signIn(page, site, 'installer')
  await page.goto(`${site.url}/import`)
  await page.getByRole('link', { name: /^Take this import back/ }).click()
  await page.waitForURL(/\/import\/undo\//)
  const words = plain(await page.locator('main').innerText())
  expect(words).toContain('These leave with it:')
  expect(words).toContain('20 in, 5 micron, cartridge model')
  await expectAccessible(page)
  expect(complaints).toEqual([])
  await context.close()
})
