import Database from 'better-sqlite3'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { expectAccessible, launchBrowser, openPage, type Site, signIn, startSite } from './harness'

let browser: Browser
let site: Site
let round = ''
beforeAll(async () => {
  browser = await launchBrowser()
  site = await startSite('demo')
})
afterAll(async () => {
  await browser?.close()
  await site?.stop()
})

const words = async (page: Page) => (await page.locator('main').innerText()).replaceAll('\u00a0', ' ')
const labels = async (page: Page) =>
  (await page.locator('.stop-card h3 a').allInnerTexts()).map((label) => label.trim())

describe('a round', () => {
  test('is planned from what falls due, on phone and desk, with reasons for and against', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'installer')
    await page.goto(`${site.url}/rounds`)
    expect(await words(page)).toContain('To follow from rounds')
    await expectAccessible(page)
    await page.getByRole('link', { name: 'Plan a round' }).click()
    await page.waitForURL(/\/rounds\/plan/)
    await page.fill('[name=from]', '2026-11-23')
    await page.fill('[name=end]', '13:00')
    await page.getByRole('button', { name: 'Propose the stops' }).click()
    await page.waitForURL(/from=2026-11-23/)
    const said = await words(page)
    expect(said).toContain('past on the first day')
    expect(said).toContain('Left out, and why')
    expect(said).toContain('snow on the track')
    await expectAccessible(page)
    const ticks = page.locator('[name^="stop:2026-11-23:"]')
    expect(await ticks.count()).toBeGreaterThan(3)
    await ticks.first().uncheck()
    await page.locator('[name="add:2026-11-23"]').fill('W999')
    await page.getByRole('button', { name: 'Make this round' }).click()
    expect(await page.locator('.error-summary').innerText()).toContain('No well in use is called W999')
    expect(await ticks.first().isChecked()).toBe(false)
    const chosen = await page.locator('[name^="stop:2026-11-23:"]:checked').count()
    await page.locator('[name="add:2026-11-23"]').fill('')
    await page.locator('[name="name:2026-11-23"]').fill('Monday morning')
    await page.getByRole('button', { name: 'Make this round' }).click()
    await page.waitForURL(/did=planned/)
    round = new URL(page.url()).pathname
    expect(await words(page)).toContain('Monday morning')
    expect(await labels(page)).toHaveLength(chosen)
    await expectAccessible(page)
    expect(complaints).toEqual([])
    await context.close()
  })

  test('says what a move costs before it is made, and the times after it agree', async () => {
    const { page, context } = await openPage(browser, { script: false })
    await signIn(page, site, 'installer')
    await page.goto(site.url + round)
    const driving = async () => minutes(await page.locator('dt:has-text("Driving") + dd').innerText())
    const before = await labels(page)
    const drove = await driving()
    const first = page.locator('.stop-card').first()
    await first.locator('summary').click()
    const options = await first.locator('select[name=to] option').allInnerTexts()
    expect(options).toHaveLength(before.length - 1)
    const dear = options.findIndex((text) => /\+\d+ min driving/.test(text))
    const option = options[dear] ?? ''
    const cost = Number(/\+(\d+) min driving/.exec(option)?.[1])
    expect(cost).toBeGreaterThan(0)
    await first.locator('select[name=to]').selectOption({ index: dear })
    await first.getByRole('button', { name: /^Move/ }).click()
    await page.waitForURL(/did=moved/)
    const after = await labels(page)
    expect(after.indexOf(before[0] ?? '')).toBe(Number(option.split(':')[0]) - 1)
    expect(Math.abs((await driving()) - drove - cost)).toBeLessThanOrEqual(1)
    await page.getByRole('button', { name: /^Put in the reckoned order/ }).click()
    await page.waitForURL(/did=ordered/)
    expect(Math.abs((await driving()) - drove)).toBeLessThanOrEqual(1)
    await context.close()
  })

  test('has the work of a stop changed in place without script: refused, too late, and stored', async () => {
    const { page, context } = await openPage(browser, { script: false })
    await signIn(page, site, 'installer')
    await page.goto(site.url + round)
    const before = await labels(page)
    const card = page.locator('.stop-card').first()
    await card.getByRole('link', { name: /^Change the work/ }).click()
    await page.waitForURL(/\/work$/)
    const form = page.url()
    await page.locator('[name^="duty:"]:checked').first().uncheck()
    const ticked = await page.locator('[name^="duty:"]:checked').count()
    await page.fill('[name=minutes]', 'an hour')
    await page.fill('[name=note]', 'Bring the long ladder.')
    await page.getByRole('button', { name: 'Save the work' }).click()
    await page.locator('.error-summary').waitFor()
    expect(await page.locator('.error-summary').innerText()).toContain('The minutes must be a whole number')
    expect(await page.locator('[name=minutes]').inputValue()).toBe('an hour')
    expect(await page.locator('[name=note]').inputValue()).toBe('Bring the long ladder.')
    expect(await page.locator('[name^="duty:"]:checked').count()).toBe(ticked)

    const other = await openPage(browser)
    await signIn(other.page, site, 'installer')
    await other.page.goto(form)
    await expectAccessible(other.page)
    await other.page.fill('[name=note]', 'Ring first.')
    await other.page.getByRole('button', { name: 'Save the work' }).click()
    await other.page.waitForURL(/did=work/)
    await other.page.getByText('Note: Ring first.').waitFor()
    await other.context.close()

    await page.fill('[name=minutes]', '75')
    await page.getByRole('button', { name: 'Save the work' }).click()
    await page.locator('.error-summary', { hasText: 'somebody else changed this stop' }).waitFor()
    expect(await page.locator('.error-summary').innerText()).toContain('the note “Ring first.”')
    expect(await page.locator('[name=note]').inputValue()).toBe('Bring the long ladder.')
    await page.getByRole('button', { name: 'Save the work' }).click()
    await page.waitForURL(/did=work/)
    expect(await words(page)).toContain('The work of the stop was changed')
    expect(await words(page)).toMatch(/Home at \d\d:\d\d instead of \d\d:\d\d/)
    expect(await labels(page)).toEqual(before)
    const after = await card.innerText()
    expect(after).toContain('Note: Bring the long ladder.')
    expect(after.replaceAll('\u00a0', ' ')).toContain('work 1 h 15 min')
    expect(await card.locator('li strong').count()).toBe(ticked)
    await card.getByRole('link', { name: /^Change the work/ }).click()
    await page.waitForURL(/\/work$/)
    expect(await page.locator('[name=minutes]').inputValue()).toBe('75')
    await page.locator('[name^="duty:"]:not(:checked)').first().check()
    await page.fill('[name=minutes]', '')
    await page.getByRole('button', { name: 'Save the work' }).click()
    await page.waitForURL(/did=work/)
    await context.close()
  })

  test('prints a block a stop, with the way in, what to beware of, and room to write', async () => {
    const { page, context } = await openPage(browser)
    await signIn(page, site, 'technician')
    await page.goto(`${site.url}${round}/sheet`)
    const said = await words(page)
    expect(said).toContain('On the truck')
    expect(said).toContain('Way in:')
    expect(said).toContain('What was left or tried')
    const count = (await labelsOf(page)).length
    expect(await page.locator('section.stop').count()).toBe(count)
    await expectAccessible(page)
    await page.emulateMedia({ media: 'print' })
    expect(await page.locator('nav').first().isVisible()).toBe(false)
    await context.close()
  })

  test('is driven by the technician: stops end in each way, and what is left stays in sight', async () => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, 'technician')
    await page.goto(site.url + round)
    await page.getByRole('button', { name: 'Start the round' }).click()
    await page.waitForURL(/did=out/)
    expect(await page.getByRole('button', { name: /Take off the round/ }).count()).toBe(0)

    const [done = -1, partly = -1] = placesWithWork()
    const [lost = -1, barred = -1] = [0, 1, 2, 3].filter((place) => place !== done && place !== partly)
    await close(page, done)
    await expectAccessible(page)
    await page.getByRole('link', { name: /Done or partly/ }).click()
    await page.waitForURL(/\/visit\?stop=/)
    await expectAccessible(page)
    expect(await page.locator('[name^="duty:"]:checked').count()).toBeGreaterThan(0)
    await page.getByRole('button', { name: 'Save and close the stop' }).click()
    await page.waitForURL(/closed=/)
    expect(await page.locator('.stop-card').nth(done).innerText()).toContain('Done')

    await close(page, partly)
    await page.getByRole('link', { name: /Done or partly/ }).click()
    await page.waitForURL(/\/visit\?stop=/)
    await page.locator('[name^="duty:"]:checked').first().uncheck()
    await page.locator('[name=note]').fill('Only looked in.')
    await page.getByRole('button', { name: 'Save and close the stop' }).click()
    expect(await page.locator('.error-summary').innerText()).toContain('Not ticked')
    expect(await page.locator('[name=note]').inputValue()).toBe('Only looked in.')
    await page.locator('[name=stopOutcome][value=partly]').check()
    await page.fill('[name=stopSaid]', 'dark before all was done')
    await page.getByRole('button', { name: 'Save and close the stop' }).click()
    await page.waitForURL(/closed=/)
    expect(await page.locator('.stop-card').nth(partly).innerText()).toContain('dark before all was done')

    for (const [place, outcome, said] of [
      [lost, 'not-found', 'probed around the birch'],
      [barred, 'no-access', 'bridge closed'],
    ] as const) {
      await close(page, place)
      await page.getByRole('button', { name: 'Close the stop' }).click()
      expect(await page.locator('.error-summary').innerText()).toContain('Choose what happened')
      await page.locator(`[name=stopOutcome][value=${outcome}]`).check()
      await page.fill('[name=stopSaid]', said)
      await page.getByRole('button', { name: 'Close the stop' }).click()
      await page.waitForURL(/closed=/)
      expect(await page.locator('.stop-card').nth(place).innerText()).toContain(said)
    }
    await page.locator('.stop-card').nth(barred).locator('h3 a').click()
    await page.waitForURL(/\/wells\//)
    const well = await words(page)
    expect(well).toContain('To follow from rounds')
    expect(well).toContain('No access: bridge closed')
    await page.goto(site.url + round)
    await page.getByRole('button', { name: /^Close the round/ }).click()
    await page.waitForURL(/did=closed/)
    expect(await words(page)).toContain('1 done · 1 partly done · 1 not found · 1 no access')
    await expectAccessible(page)
    expect(complaints).toEqual([])
    await context.close()
  })
})

test('the yard is set by the installer, and a slip comes back filled in', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'installer')
  await page.goto(`${site.url}/settings/yard`)
  await expectAccessible(page)
  await page.fill('[name=speedKmH]', 'fast')
  await page.getByRole('button', { name: 'Save' }).click()
  expect(await page.locator('.error-summary').innerText()).toContain('mean speed')
  expect(await page.locator('[name=speedKmH]').inputValue()).toBe('fast')
  await context.close()
})

const labelsOf = async (page: Page) => page.locator('section.stop h2').allInnerTexts()

/** Where, counted from 0, the stops lie at which a visit ticks work: a step of an open chain is none. */
function placesWithWork(): number[] {
  const db = new Database(site.file, { readonly: true })
  const stops = db.prepare('SELECT "duties" FROM "Stop" WHERE "roundId" = ? ORDER BY "position"').pluck()
  const places = stops.all(round.split('/').at(-1)).flatMap((duties, place) => {
    const planned: { ticked: boolean }[] = JSON.parse(String(duties))
    return planned.some(({ ticked }) => ticked) ? [place] : []
  })
  db.close()
  return places
}

async function close(page: Page, place: number): Promise<void> {
  await page.goto(site.url + round)
  await page.locator('.stop-card').nth(place).getByRole('link', { name: 'Close this stop' }).click()
  await page.waitForURL(/\/stops\//)
}

/** "1 h 4 min" as 64. */
function minutes(text: string): number {
  const [, hours = '0', rest = '0'] = /^(?:(\d+) h)? ?(?:(\d+) min)?$/.exec(text.trim()) ?? []
  return Number(hours) * 60 + Number(rest)
}
