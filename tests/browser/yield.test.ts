import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { expectAccessible, launchBrowser, openPage, type Site, signIn, startSite } from './harness'

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

async function yieldOf(page: Page, words: string): Promise<string> {
  await page.goto(`${site.url}/wells?q=${encodeURIComponent(words)}`)
  const href = await page.locator('main table a[href^="/wells/"]').first().getAttribute('href')
  if (!href) throw new Error(`no well is found by ${words}`)
  return `${site.url}${href}/yield`
}

describe('the fleet by yield', () => {
  test('puts the clogged well first, says which calls hold, and leads to its page', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'technician')
    await page.getByRole('navigation').getByRole('link', { name: 'Yield' }).click()
    await page.waitForURL(/\/yield$/)
    const first = page.locator('main tbody tr').first()
    expect(await first.innerText()).toContain('Iron Spring 1')
    expect(await first.innerText()).toContain('The well is losing capacity')
    expect(await first.locator('svg.spark').getAttribute('aria-label')).toContain('part of its baseline')
    expect(await page.locator('main').innerText()).toMatch(/1 of 64 wells is called .* holds for the fleet/)
    await expectAccessible(page)
    await first.getByRole('link').first().click()
    await page.waitForURL(/\/wells\/.*\/yield$/)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('is filtered by cause, area and calls, without script too, and pages to its end', async () => {
    const { page, context } = await openPage(browser, { script: false })
    await signIn(page, site, 'installer')
    for (const [cause, ...wells] of [
      ['water-table', 'Pear Block South'],
      ['pump', 'Dairy Road 11', 'Lower Bench 2'],
      ['unclear', 'Ridge Hut'],
    ] as const) {
      await page.goto(`${site.url}/yield?cause=${cause}`)
      expect(await page.locator('main tbody tr').allInnerTexts()).toEqual(
        wells.map((well) => expect.stringContaining(well)),
      )
    }
    await page.selectOption('[name=cause]', '')
    await page.selectOption('[name=called]', '1')
    await page.getByRole('button', { name: 'Filter' }).click()
    await page.waitForURL(/called=1/)
    expect(await page.locator('main tbody tr').count()).toBe(1)
    await page.goto(`${site.url}/yield?area=Nowhere`)
    await page.getByText('No well here with this filter').waitFor()
    await page.goto(`${site.url}/yield`)
    let seen = 0
    for (let pages = 0; pages < 5; pages += 1) {
      seen += await page.locator('main tbody tr').count()
      const more = page.getByRole('link', { name: /^Next/ })
      if ((await more.count()) === 0) break
      const before = page.url()
      await more.click()
      await page.waitForURL((url) => url.href !== before)
    }
    expect(seen).toBe(64)
    await context.close()
  })
})

describe("a well's yield", () => {
  test('tells verdict, dates, evidence and table of a clogging well, in the units of the viewer', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'technician')
    await page.goto(await yieldOf(page, 'iron spring 1'))
    const words = await page.locator('main').innerText()
    for (const part of [
      'The well is losing capacity',
      'reached about',
      '8 times in 10 between',
      'gal/min per ft',
      'over 99 %',
      'Method:',
    ]) {
      expect(words).toContain(part)
    }
    await page.getByText('The same as a table').first().click()
    expect(await page.locator('main figure').first().locator('tbody tr').count()).toBeGreaterThan(15)
    await expectAccessible(page)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('draws both charts on one time axis with their events, and cuts no label off', async () => {
    const { page, context } = await openPage(browser, { width: 390 })
    await signIn(page, site, 'installer')
    await page.goto(await yieldOf(page, 'iron spring 2'))
    expect(await page.locator('main').innerText()).toContain(
      'The baseline began anew when the well was rehabilitated',
    )
    const drawn = await page.locator('svg.chart-narrow').evaluateAll((charts) =>
      charts.map((chart) => {
        const frame = chart.getBoundingClientRect()
        const events = [...chart.querySelectorAll('.chart-event')].map((line) => line.getAttribute('x1'))
        const cut = [...chart.querySelectorAll('text')].filter((text) => {
          const box = text.getBoundingClientRect()
          return box.left < frame.left - 1 || box.right > frame.right + 1 || box.top < frame.top - 1
        })
        return { events, cut: cut.map((text) => text.textContent) }
      }),
    )
    expect(drawn).toHaveLength(2)
    expect(drawn[0]?.events.length).toBeGreaterThan(0)
    expect(drawn[1]?.events).toEqual(drawn[0]?.events)
    for (const { cut } of drawn) expect(cut).toEqual([])
    await expectAccessible(page)
    await context.close()
  })

  test('shows flow where that is all there is, and claims no cause from it', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'technician')
    await page.goto(await yieldOf(page, 'ridge hut'))
    const words = await page.locator('main').innerText()
    expect(words).toContain('Cannot tell yet')
    expect(words).toContain('Flow alone cannot tell')
    expect(words).toContain('not established')
    await expectAccessible(page)
    await context.close()
  })

  test('names a reading that was mended, with its reason', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'technician')
    await page.goto(await yieldOf(page, 'stone bridge'))
    expect(await page.locator('#mended + p + ul').innerText()).toMatch(/taken as feet|taken as gallons/)
    await context.close()
  })

  test('prints on two sheets at most, without navigation', async () => {
    const { page, context } = await openPage(browser, { width: 1280 })
    await signIn(page, site, 'technician')
    await page.goto(await yieldOf(page, 'iron spring 1'))
    const sheets = (await page.pdf({ format: 'Letter' })).toString('latin1').match(/\/Type\s*\/Page\b/g)
    expect(sheets?.length).toBeGreaterThan(0)
    expect(sheets?.length).toBeLessThanOrEqual(2)
    await page.emulateMedia({ media: 'print' })
    expect(await page.locator('nav').first().isVisible()).toBe(false)
    expect(await page.locator('svg.chart-wide').first().isVisible()).toBe(true)
    await context.close()
  })

  test('stands in a sentence on the page of the well and in a word on the list', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'technician')
    const address = await yieldOf(page, 'lower bench 2')
    expect(await page.locator('main tbody tr').first().innerText()).toContain('The pump gives less')
    await page.goto(address.replace(/\/yield$/, ''))
    expect(await page.locator('section:has(> #yield)').innerText()).toContain('The pump gives less')
    await page.getByRole('link', { name: /The years, the evidence/ }).click()
    await page.waitForURL(address)
    await context.close()
  })

  test('does not exist for an owner, of their own well or another, nor does the fleet', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'installer')
    const addresses = [
      await yieldOf(page, 'old forge'),
      await yieldOf(page, 'high saddle'),
      `${site.url}/yield`,
    ]
    await context.clearCookies()
    await signIn(page, site, 'owner')
    for (const address of addresses) {
      const answer = await page.request.get(address)
      expect(answer.status(), address).toBe(404)
      expect(await answer.text()).not.toContain('capacity')
    }
    await context.close()
  })
})
