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

const save = (page: Page) => page.getByRole('button', { name: 'Save the well' }).click()

describe('editing a well', () => {
  test('shows both values when somebody else was faster, and loses neither', async () => {
    const { page: mine, context, complaints } = await openPage(browser)
    await signIn(mine, site, 'installer')
    const path = await wellPath(mine, site, 'sorrel head')
    const theirs = await context.newPage()
    await mine.goto(`${site.url}${path}/edit`)
    await theirs.goto(`${site.url}${path}/edit`)
    await theirs.fill('[name=name]', 'Sorrel Spring')
    await save(theirs)
    await theirs.waitForURL(`${site.url}${path}`)
    await mine.fill('[name=name]', 'Sorrel Source')
    await mine.fill('[name=liftM]', '1.5 m')
    await save(mine)
    await mine.waitForSelector('.error-summary')
    await expect.poll(() => mine.evaluate(() => document.activeElement?.className)).toBe('error-summary')
    expect(await mine.inputValue('[name=name]')).toBe('Sorrel Source')
    expect(await mine.inputValue('[name=liftM]')).toBe('1.5 m')
    expect(await mine.locator('main').innerText()).toContain('Now stored: Sorrel Spring')
    await expectAccessible(mine)
    await save(mine)
    await mine.waitForURL(`${site.url}${path}`)
    expect(await mine.locator('h1').innerText()).toContain('Sorrel Source')
    expect(await mine.locator('#built').locator('..').innerText()).toContain('typed: 1.5 m')
    expect(complaints).toEqual([])
    await context.close()
  })

  test('works without script: refused with its sentence and everything typed, then stored', async () => {
    const { page, context } = await openPage(browser, { script: false })
    await signIn(page, site, 'installer')
    const path = await wellPath(page, site, 'old forge')
    await page.goto(`${site.url}${path}/edit`)
    const depth = await page.inputValue('[name=wellDepthM]')
    await page.fill('[name=intakeDepthM]', '')
    await page.fill('[name=visitDays]', 'when it rains')
    await save(page)
    await page.waitForSelector('.error-summary')
    expect(await page.locator('.error-summary a').innerText()).toContain('is no day of the week')
    expect(await page.inputValue('[name=visitDays]')).toBe('when it rains')
    await page.fill('[name=visitDays]', 'Tuesdays and Saturdays')
    await page.fill('[name=intakeDepthM]', '900')
    await page.fill('[name=notes]', 'Gate code with the neighbour')
    await save(page)
    await page.locator('.error-summary a', { hasText: 'The intake cannot be deeper than the well' }).waitFor()
    expect(await page.inputValue('[name=notes]')).toBe('Gate code with the neighbour')
    expect(await page.inputValue('[name=wellDepthM]')).toBe(depth)
    await page.fill('[name=intakeDepthM]', '')
    await save(page)
    await page.waitForURL(`${site.url}${path}`)
    expect(await page.locator('main').innerText()).toContain('Gate code with the neighbour')
    expect(await page.locator('main').innerText()).toContain('Owner’s wish: only on Tuesday or Saturday.')
    await context.close()
  })
})

test('wells are ticked, given a duty of the library without script, and stand in the due list', async () => {
  const { page, context } = await openPage(browser, { script: false })
  await signIn(page, site, 'installer')
  await page.goto(`${site.url}/wells?q=larch`)
  const boxes = page.locator('main table input[type=checkbox]')
  await boxes.nth(0).check()
  await boxes.nth(1).check()
  await page.getByRole('button', { name: 'Give those chosen a duty' }).click()
  await page.selectOption('[name=template]', 'wider-water-panel')
  await page.getByRole('button', { name: 'Fill in the form' }).click()
  await expect.poll(() => page.inputValue('[name=everyMonths]')).toBe('36')
  expect(await page.locator('main').innerText()).toContain('New Hampshire')
  await page.fill('[name=name]', 'Winter lid check')
  await page.fill('[name=everyMonths]', '2')
  await page.fill('[name=lastDoneOn]', '2026-09-01')
  await page.getByRole('button', { name: 'Give them this duty' }).click()
  await page.getByText('Winter lid check: given to 2 wells.').waitFor()
  await page.goto(`${site.url}/?duty=winter-lid-check`)
  expect(await page.locator('main table tbody tr').count()).toBe(2)
  expect(await page.locator('main').innerText()).toContain('19 days past')
  await context.close()
})

test('the due list says so when a filter finds nothing, and when a date cannot be read', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'technician')
  await page.goto(`${site.url}/?to=2001-01-01`)
  expect(await page.locator('main').innerText()).toContain('Nothing here with this filter')
  await page.goto(`${site.url}/?from=03/04/2025`)
  expect(await page.locator('#from-error').innerText()).toContain('can be 3 Apr 2025 or 4 Mar 2025')
  await expectAccessible(page)
  await context.close()
})

test('a group is paged through to its end, each item once', async () => {
  const { page, context } = await openPage(browser, { width: 1280 })
  await signIn(page, site, 'technician')
  await page.goto(`${site.url}/?group=past`)
  const count = Number(/\((\d+)\)/.exec(await page.locator('#group-past').innerText())?.[1])
  const seen: string[] = []
  for (;;) {
    seen.push(
      ...(await page
        .locator('input[name=ids]')
        .evaluateAll((all) => all.map((one) => one.getAttribute('value') ?? ''))),
    )
    const next = page.getByRole('link', { name: 'Next 50' })
    if ((await next.count()) === 0) break
    const before = page.url()
    await next.click()
    await page.waitForURL((url) => url.href !== before)
  }
  expect(seen).toHaveLength(count)
  expect(new Set(seen).size).toBe(count)
  expect(count).toBeGreaterThan(50)
  await context.close()
})

test('charts stay whole at 320 px: no label is cut off, and each has its table', async () => {
  const { page, context } = await openPage(browser, { width: 320 })
  await signIn(page, site, 'technician')
  await page.goto(`${site.url}${await wellPath(page, site, 'mabe meadow')}`)
  const cut = await page.locator('.chart svg[role=img]:visible').evaluateAll((pictures) =>
    pictures.flatMap((picture) => {
      const frame = picture.getBoundingClientRect()
      return [...picture.querySelectorAll('text')]
        .filter((label) => {
          const box = label.getBoundingClientRect()
          return box.left < frame.left - 1 || box.right > frame.right + 1
        })
        .map((label) => label.textContent)
    }),
  )
  expect(cut).toEqual([])
  const pictures = await page.locator('.chart svg[role=img]:visible').count()
  expect(pictures).toBeGreaterThan(1)
  expect(await page.locator('.chart details table').count()).toBe(pictures)
  const small = await page
    .locator('.chart svg[role=img]:visible text')
    .first()
    .evaluate((label) => label.getBoundingClientRect().height)
  expect(small).toBeGreaterThan(10)
  await context.close()
})
