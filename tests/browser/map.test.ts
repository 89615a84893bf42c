import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { OUTFIT } from '@/lib/access/viewer'
import { seededStream } from '@/lib/domain/stats'
import { commitBatch } from '@/lib/records/batches'
import type { Db } from '@/lib/records/db'
import { bareWell } from '@/lib/records/well-fields'
import { expectAccessible, launchBrowser, openPage, type Site, signIn, startSite } from './harness'

const MANY = 10_000

let browser: Browser
let small: Site
let large: Site
beforeAll(async () => {
  browser = await launchBrowser('webgl')
  small = await startSite('demo')
  large = await startSite('demo', manyWells)
})
afterAll(async () => {
  await browser?.close()
  await small?.stop()
  await large?.stop()
})

/** Ten thousand wells over some forty kilometres, from fixed dice. */
async function manyWells(db: Db): Promise<[]> {
  const dice = seededStream(11)
  for (let from = 0; from < MANY; from += 2000) {
    const wells = Array.from({ length: 2000 }, (_, i) => ({
      row: from + i,
      fields: {
        ...bareWell(`M${String(from + i).padStart(5, '0')}`),
        area: `Area ${i % 20}`,
        latitude: 44 + dice() * 0.4,
        longitude: -121.5 + dice() * 0.5,
      },
    }))
    const plan = {
      what: 'mixed' as const,
      fileName: `many ${from}`,
      fileSha256: String(from),
      updateExisting: false,
      wells,
      duties: [],
      entries: [],
    }
    const outcome = await commitBatch(db, OUTFIT, plan, '2026-11-20T12:00:00.000Z')
    if (outcome.kind === 'refused') throw new Error(JSON.stringify(outcome.problems[0]))
  }
  return []
}

const shown = (page: Page) => page.locator('figure.fleet-map[data-state=shown]').waitFor()

describe('the map', () => {
  test('draws the fleet from its own server alone, with a list of the same content', async () => {
    const { page, context, complaints } = await openPage(browser, { width: 1280 })
    const hosts = new Set<string>()
    page.on('request', (request) => {
      if (request.url().startsWith('http')) hosts.add(new URL(request.url()).origin)
    })
    await signIn(page, small, 'technician')
    await page.goto(`${small.url}/map`)
    await shown(page)
    const points = (await (await page.request.get(`${small.url}/api/map`)).json()) as Record<
      string,
      unknown
    >[]
    expect(Object.keys(points[0] ?? {}).sort()).toEqual(['id', 'label', 'latitude', 'longitude', 'status'])
    expect(await page.locator('main tbody tr').count()).toBe(points.length)
    for (const { label } of points)
      expect(await page.locator('main tbody th', { hasText: `${label},` }).count(), String(label)).toBe(1)
    // Tab reaches it, and the keys move it: the way of whoever has no mouse.
    await page.locator('.map-frame canvas').focus()
    await page.keyboard.press('+')
    await page.keyboard.press('ArrowRight')
    await expectAccessible(page)
    expect([...hosts]).toEqual([small.url])
    expect(complaints).toEqual([])
    await context.close()
  })

  test('gathers ten thousand wells, goes closer, and lists them page by page', async () => {
    const { page, context, complaints } = await openPage(browser, { width: 1280 })
    await signIn(page, large, 'technician')
    await page.goto(`${large.url}/map`)
    await shown(page)
    expect(await page.locator('figure.fleet-map').getAttribute('data-wells')).toBe(String(MANY + 64))
    expect(await page.locator('main tbody tr').count()).toBe(100)
    const box = page.locator('.map-frame canvas')
    const before = await page.locator('.maplibregl-ctrl-scale').innerText()
    await page.locator('.maplibregl-ctrl-zoom-in').click()
    await page.waitForFunction(
      (old) => document.querySelector('.maplibregl-ctrl-scale')?.textContent !== old,
      before,
    )
    expect((await box.screenshot()).length).toBeGreaterThan(5000)
    await page.getByRole('link', { name: 'More wells' }).click()
    await page.waitForURL(/page=2/)
    expect(await page.locator('#list').innerText()).toContain('from number 101')
    expect(complaints).toEqual([])
    await context.close()
  })

  test('is a list without script, nearest first from a place that was typed', async () => {
    const { page, context } = await openPage(browser, { script: false })
    await signIn(page, small, 'technician')
    await page.goto(`${small.url}/map`)
    await page.selectOption('[name=area]', 'Orchard Bench')
    await page.fill('[name=from]', '44.15, -121.3')
    await page.getByRole('button', { name: 'Show' }).click()
    await page.waitForURL(/from=44/)
    const away = await page.locator('td[data-label=Away]').allInnerTexts()
    const miles = away.map((text) => Number.parseFloat(text))
    expect(miles.length).toBeGreaterThan(5)
    expect(miles).toEqual([...miles].sort((a, b) => a - b))
    await page.fill('[name=from]', 'the yard')
    await page.getByRole('button', { name: 'Show' }).click()
    await page.getByText('The place must be latitude and longitude').first().waitFor()
    expect(await page.locator('[name=from]').inputValue()).toBe('the yard')
    await context.close()
  })

  test('takes tiles from the one host that an installer named, and pages may load from no other', async () => {
    const { page, context, complaints } = await openPage(browser, { width: 1280 })
    await signIn(page, small, 'installer')
    await page.goto(`${small.url}/settings/map`)
    await page.fill('[name=url]', 'https://tiles.example/{z}/{x}.png')
    await page.getByRole('button', { name: 'Save' }).click()
    expect(await page.locator('.error-summary').innerText()).toContain('{z}, {x} and {y}')
    expect(await page.locator('[name=url]').inputValue()).toBe('https://tiles.example/{z}/{x}.png')
    await page.fill('[name=url]', 'https://tiles.example/{z}/{x}/{y}.png')
    await page.fill('[name=attribution]', 'Invented maps')
    await page.getByRole('button', { name: 'Save' }).click()
    await page.getByText('Saved. Open the map anew').waitFor()
    await expectAccessible(page)
    let asked = 0
    await context.route('https://tiles.example/**', (route) => {
      asked += 1
      return route.fulfill({
        contentType: 'image/png',
        body: ONE_POINT,
        headers: { 'Access-Control-Allow-Origin': '*' },
      })
    })
    const answer = await page.goto(`${small.url}/map`)
    const policy = answer?.headers()['content-security-policy'] ?? ''
    expect(policy).toContain("img-src 'self' data: blob: https://tiles.example;")
    expect(policy).toContain("connect-src 'self' https://tiles.example;")
    expect(policy).not.toContain('*')
    await shown(page)
    expect(await page.locator('figure.fleet-map figcaption').innerText()).toBe('Map: Invented maps')
    await expect.poll(() => asked).toBeGreaterThan(0)
    expect(complaints).toEqual([])
    await page.goto(`${small.url}/settings/map`)
    await page.fill('[name=url]', '')
    await page.fill('[name=attribution]', '')
    await page.getByRole('button', { name: 'Save' }).click()
    await page.getByText('Saved: plain ground').waitFor()
    await context.close()
  })
})

describe('where the browser cannot draw', () => {
  test('the page says so, and the list is there', async () => {
    const plain = await launchBrowser()
    const { page, context } = await openPage(plain)
    await signIn(page, small, 'technician')
    await page.addInitScript(() => {
      HTMLCanvasElement.prototype.getContext = () => null
    })
    await page.goto(`${small.url}/map`)
    await page.getByText('This browser cannot draw the map here').waitFor()
    expect(await page.locator('main tbody tr').count()).toBe(64)
    await context.close()
    await plain.close()
  })
})

/** A picture of one grey point. */
const ONE_POINT = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==',
  'base64',
)
