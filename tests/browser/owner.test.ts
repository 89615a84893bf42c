import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
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

test('from a printed card to the first lab sheet, at 390 px', async () => {
  const desk = await openPage(browser)
  await signIn(desk.page, site, 'installer')
  await desk.page.goto(`${site.url}/households`)
  await expectAccessible(desk.page)
  await desk.page.locator('tbody th a').first().click()
  await desk.page.waitForURL(/\/households\/./)
  await desk.page.fill('[name=forName]', 'Ada Orchard')
  await desk.page.getByRole('button', { name: 'Make the card' }).click()
  const code = await desk.page.locator('.code-large').innerText()
  await expectAccessible(desk.page)

  const { page, context, complaints } = await openPage(browser)
  await page.goto(`${site.url}/sign-in`)
  await page.getByRole('link', { name: 'Begin with its code' }).click()
  await page.waitForURL(/\/join/)
  await expectAccessible(page)
  await page.fill('[name=code]', 'ABCD-ABCD-ABCD-ABCD')
  await page.fill('[name=name]', 'Ada Orchard')
  await page.fill('[name=email]', 'ada@orchard.example')
  await page.fill('[name=password]', 'cold clear water every day')
  await page.getByRole('button', { name: 'Make my account' }).click()
  await page.waitForSelector('.error-summary')
  expect(await page.inputValue('[name=email]')).toBe('ada@orchard.example')
  await page.fill('[name=code]', code.toLowerCase().replaceAll('-', ' '))
  await page.fill('[name=password]', 'cold clear water every day')
  await page.getByRole('button', { name: 'Make my account' }).click()
  await page.waitForURL(/\/own$/)
  await expectAccessible(page)

  await page.locator('main h2 a').first().click()
  await page.waitForURL(/\/own\/./)
  const own = page.url()
  const name = await page.locator('h1').innerText()
  await expectAccessible(page)
  await page.getByRole('link', { name: 'What to do if' }).click()
  await page.waitForURL(/what-if/)
  await expectAccessible(page)
  await page.goto(`${own}/reading`)
  await expectAccessible(page)
  await page.fill('[name=note]', 'The gate code is new: ring the bell')
  await page.getByRole('button', { name: 'Save' }).click()
  await page.waitForURL(/saved=yes/)
  expect(await page.locator('main').innerText()).toContain('ring the bell')

  await page.goto(`${own}/samples/new`)
  await page.getByText('You have the results as a table?').click()
  await expectAccessible(page)
  await page.fill(
    '[name=pasted]',
    'Total Coliform\tPresent\tper 100 mL\nE. coli\tAbsent\tper 100 mL\nNitrate as N\t1.2\tmg/L',
  )
  await page.getByRole('button', { name: 'Read the table into rows' }).click()
  await page.waitForFunction(() => document.body.innerText.includes('3 rows were read'))
  await page.fill('[name=sampleDate]', '2026-11-18')
  await page.fill('[name=sampleTime]', '08:30')
  await page.fill('[name=receivedDate]', '2026-11-18')
  await page.fill('[name=receivedTime]', '11:00')
  await page.locator('button[value=save]').click()
  await page.waitForURL(/\/samples\/[0-9a-f-]{36}/)
  const verdict = await page.locator('section[aria-labelledby=verdict]').innerText()
  expect(verdict).toMatch(/Above a limit|exceeds|above/i)
  expect(verdict).not.toMatch(/\bsafe\b/i)
  // The warning stands on each of its sheets, not on the well's page alone.
  expect(await page.locator('.chain-banner').count()).toBe(1)
  await expectAccessible(page)
  await page.goto(own)
  // A bad result of the household's own counts at once.
  expect(await page.locator('.chain-banner').innerText()).toMatch(/not cleared|Do not drink|Boil/i)
  expect(complaints).toEqual([])

  await desk.page.goto(`${site.url}/water`)
  const open = desk.page.getByRole('row').filter({ hasText: 'Not cleared' }).filter({ hasText: name })
  expect(await open.innerText()).toContain('Bacteria')
  await context.close()
  await desk.context.close()
})

test('a used card, and a stranger’s well, lead nowhere', async () => {
  const desk = await openPage(browser)
  await signIn(desk.page, site, 'installer')
  await desk.page.goto(`${site.url}/wells`)
  const addresses = await desk.page
    .locator('tbody a[href^="/wells/"]')
    .evaluateAll((links) => links.map((link) => link.getAttribute('href') ?? ''))
  const ids = [...new Set(addresses.map((href) => href.split('/')[2] ?? ''))]
  expect(ids.length).toBeGreaterThan(20)

  const { page, context } = await openPage(browser)
  await signIn(page, site, 'owner')
  await page.goto(`${site.url}/own`)
  const mine = await page
    .locator('main h2 a')
    .evaluateAll((links) => links.map((link) => link.getAttribute('href')?.split('/')[2] ?? ''))
  const foreign = ids.filter((id) => !mine.includes(id)).slice(0, 12)
  expect(foreign.length).toBe(12)
  const nowhere = '0190a000-0000-7000-8000-000000000001'
  const absent = await page.request.get(`${site.url}/own/${nowhere}`)
  for (const id of foreign) {
    for (const path of [`/own/${id}`, `/own/${id}/samples/new`, `/own/${id}/reading`, `/own/${id}/what-if`]) {
      const answer = await page.request.get(`${site.url}${path}`)
      expect(answer.status(), path).toBe(absent.status())
    }
    expect((await page.request.get(`${site.url}/wells/${id}`)).status()).toBe(404)
  }
  expect(absent.status()).toBe(404)
  await context.close()
  await desk.context.close()
})
