import type { Browser } from 'playwright-core'
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

const wordsOf = (text: string) => text.replaceAll('\u00a0', ' ')

describe('supply of a well', () => {
  test('tells when the water runs short, why, and what would mend it, on phone and desk', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'technician')
    const well = await wellPath(page, site, 'quince row')
    await page.goto(`${site.url}${well}`)
    expect(await page.locator('section:has(> #supply)').innerText()).toContain('Runs short this year')
    await page.getByRole('link', { name: 'How long the water lasts' }).click()
    await page.waitForURL(/\/supply$/)
    const words = wordsOf(await page.locator('main').innerText())
    for (const part of [
      'the first on Aug',
      'First short day',
      'weeks the tank gives out',
      'What would mend it',
      'A bigger tank',
      'Ends it',
      'How sure this is',
      'FAO 56',
      'invented for this demo',
      'common practice, no published source',
    ]) {
      expect(words).toContain(part)
    }
    await page.getByText('The same as a table').first().click()
    expect(await page.locator('figure tbody tr').count()).toBe(53)
    await expectAccessible(page)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('tries a bigger tank without script and stores nothing', async () => {
    const { page, context, complaints } = await openPage(browser, { width: 320, script: false })
    await signIn(page, site, 'technician')
    const well = await wellPath(page, site, 'quince row')
    await page.goto(`${site.url}${well}/supply`)
    await page.fill('[name=tank]', '4000')
    await page.fill('[name=demand]', 'much')
    await page.getByRole('button', { name: 'Reckon it' }).click()
    await page.waitForURL(/tank=4000/)
    expect(await page.locator('#demand-error').innerText()).toContain('per cent')
    expect(await page.inputValue('[name=demand]')).toBe('much')
    expect(await page.locator('section:has(> #lasts)').innerText()).toContain('Not short in a usual year')
    expect(await page.locator('section:has(> #as-is)').innerText()).toContain('Runs short this year')
    await page.goto(`${site.url}${well}/supply`)
    expect(await page.locator('section:has(> #lasts)').innerText()).toContain('Runs short this year')
    expect(complaints).toEqual([])
    await context.close()
  })

  test('takes facts without script, comes back filled in, and names what is missing', async () => {
    const { page, context, complaints } = await openPage(browser, { width: 390, script: false })
    await signIn(page, site, 'installer')
    const well = await wellPath(page, site, 'pear block north')
    await page.goto(`${site.url}${well}/supply`)
    expect(await page.locator('main').innerText()).toContain('Nobody wrote down yet')
    await page.getByRole('link', { name: 'State what drives the pump' }).click()
    await page.waitForURL(/\/supply\/facts$/)
    await page.fill('[name=sunValues]', '1 2 3')
    await page.fill('[name=houseDaily]', '200')
    await page.getByRole('button', { name: 'Save the supply facts' }).click()
    expect(await page.locator('#drive-error').innerText()).toContain('Choose what drives the pump')
    expect(await page.locator('#sunValues-error').innerText()).toContain('twelve numbers')
    expect(await page.inputValue('[name=houseDaily]')).toBe('200')
    await page.check('[name=drive][value=sun]')
    await page.fill('[name=panel]', '3 W')
    await page.fill('[name=sunValues]', '')
    await page.getByRole('button', { name: 'Save the supply facts' }).click()
    await page.waitForURL(/\/supply$/)
    expect(await page.locator('section:has(> #missing)').innerText()).toContain(
      'cannot be lifted by panels of that power',
    )
    await page.goto(`${site.url}${well}/supply/facts`)
    await page.fill('[name=panel]', '180')
    await page.getByRole('button', { name: 'Save the supply facts' }).click()
    await page.waitForURL(/\/supply$/)
    expect(await page.locator('main').innerText()).toContain('This is an assumption')
    expect(complaints).toEqual([])
    await context.close()
  })

  test('shows both where two people edit at once, and stores neither unasked', async () => {
    const one = await openPage(browser)
    await signIn(one.page, site, 'installer')
    const well = await wellPath(one.page, site, 'packing shed')
    const two = await one.context.newPage()
    await one.page.goto(`${site.url}${well}/supply/facts`)
    await two.goto(`${site.url}${well}/supply/facts`)
    await two.fill('[name=houseDaily]', '300')
    await two.getByRole('button', { name: 'Save the supply facts' }).click()
    await two.waitForURL(/\/supply$/)
    await one.page.fill('[name=houseDaily]', '400')
    await one.page.getByRole('button', { name: 'Save the supply facts' }).click()
    await one.page.getByText('Now stored: 300').waitFor()
    expect(await one.page.inputValue('[name=houseDaily]')).toBe('400')
    await one.page.getByRole('button', { name: 'Save the supply facts' }).click()
    await one.page.waitForURL(/\/supply$/)
    await one.page.goto(`${site.url}${well}/supply/facts`)
    expect(await one.page.inputValue('[name=houseDaily]')).toBe('400')
    await expectAccessible(one.page)
    await one.page.goto(`${site.url}${await wellPath(one.page, site, 'cider house')}/supply`)
    expect(await one.page.locator('main').innerText()).toContain('Nobody wrote down yet')
    await expectAccessible(one.page)
    expect(one.complaints).toEqual([])
    await one.context.close()
  })
})
