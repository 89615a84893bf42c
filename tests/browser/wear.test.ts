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

describe('wear and pump of a well', () => {
  test('tells when the cartridge is due and why, with its chart and table, on phone and desk', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'technician')
    const well = await wellPath(page, site, 'lower bench 2')
    await page.goto(`${site.url}${well}`)
    const short = await page.locator('section:has(> #wear)').innerText()
    expect(short).toContain('Change sediment cartridge: by what was measured')
    await page.getByRole('link', { name: 'Cartridge, brushes, pump and lift' }).click()
    await page.waitForURL(/\/wear$/)
    const words = (await page.locator('main').innerText()).replaceAll('\u00a0', ' ')
    for (const part of [
      'The cartridge reaches its terminal drop of 20.0 psi about',
      '8 times in 10 between',
      'costs least, a late day counted 3 times an early one',
      "This well's own cartridges suggest",
      'It is an offer',
      'Pump or well?',
      'Suction lift is least in',
      'common practice, no published source',
      'lock out and prove dead',
    ]) {
      expect(words).toContain(part)
    }
    await page.getByText('The same as a table').first().click()
    expect(await page.locator('#cartridge ~ figure tbody tr').count()).toBeGreaterThan(0)
    await expectAccessible(page)
    const cut = await page.locator('svg.chart-wide text').evaluateAll(
      (texts) =>
        texts.filter((text) => {
          const frame = text.closest('svg')?.getBoundingClientRect()
          const box = text.getBoundingClientRect()
          return frame ? box.left < frame.left - 1 || box.right > frame.right + 1 : true
        }).length,
    )
    expect(cut).toBe(0)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('asks for the least brush length, and draws every brush once a duty has it', async () => {
    const { page, context, complaints } = await openPage(browser, { width: 1280 })
    await signIn(page, site, 'installer')
    const well = await wellPath(page, site, 'milking parlour')
    await page.goto(`${site.url}${well}/wear`)
    const brushes = page.locator('section:has(> #brushes)')
    expect(await brushes.innerText()).toContain('No duty of this well names the least length')
    await page.goto(`${site.url}${well}/duties/new`)
    await page.fill('[name=name]', 'Change brush set')
    await page.getByLabel(/^Wear: something/).check()
    await page.fill('[name=brushLimit]', '0.3 in')
    await page.fill('[name=lastDoneOn]', '2020-12-10')
    await page.getByRole('button', { name: 'Add the duty' }).click()
    await page.waitForURL(`${site.url}${well}`)
    await page.goto(`${site.url}${well}/wear`)
    expect(await brushes.innerText()).toContain('brush 2')
    expect(await brushes.innerText()).toMatch(
      /The shortest brush reaches its least length of .* about \w+ \d+, 20\d\d, 8 times in 10/,
    )
    expect(await brushes.locator('svg.chart-wide').isVisible()).toBe(true)
    await expectAccessible(page)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('works without script, says what to enter, and does not exist for an owner', async () => {
    const { page, context } = await openPage(browser, { script: false })
    await signIn(page, site, 'technician')
    const well = await wellPath(page, site, 'ridge hut')
    await page.goto(`${site.url}${well}/wear`)
    const words = await page.locator('main').innerText()
    expect(words).toContain('How much suction lift is left cannot be said. Enter a level at rest')
    expect(words).toContain('the level while pumping')
    await context.clearCookies()
    await signIn(page, site, 'owner')
    const answer = await page.request.get(`${site.url}${well}/wear`)
    expect(answer.status()).toBe(404)
    expect(await answer.text()).not.toContain('Suction lift is')
    await context.close()
  })
})
