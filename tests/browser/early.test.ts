import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { alive, launchBrowser, openPage, type Site, signIn, startSite, wellPath } from './harness'

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

/** A phone whose line brings the page long before its script: nothing of that comes until it is let through. */
async function holdScript(context: BrowserContext): Promise<() => void> {
  let letThrough = () => {}
  const open = new Promise<void>((done) => {
    letThrough = done
  })
  await context.route('**/_next/static/**/*.js*', async (route) => {
    await open
    // Refused where the page that asked has been left meanwhile: nobody waits for it any more.
    await route.continue().catch(() => undefined)
  })
  return letThrough
}

const draft = (page: Page) => page.evaluate(() => Object.values(localStorage).join())

test('what is typed before the script has come is kept from then on, and wins over what was kept before', async () => {
  const { page, context, complaints } = await openPage(browser)
  await signIn(page, site, 'technician')
  const form = `${site.url}${await wellPath(page, site, 'weir house')}/visit`
  let letThrough = await holdScript(context)
  await page.goto(form, { waitUntil: 'commit' })
  await page.fill('[name=note]', 'typed early')
  await page.fill('[name=flow]', '9 gpm')
  letThrough()
  await alive(page)
  await expect.poll(() => draft(page)).toContain('typed early')
  expect(await page.inputValue('[name=note]')).toBe('typed early')

  letThrough = await holdScript(context)
  await page.reload({ waitUntil: 'commit' })
  await page.fill('[name=note]', 'typed later')
  letThrough()
  await page.getByText('was put back').waitFor()
  expect(await page.inputValue('[name=flow]')).toBe('9 gpm')
  expect(await page.inputValue('[name=note]')).toBe('typed later')
  await expect.poll(() => draft(page)).toContain('typed later')
  expect(complaints).toEqual([])
  await context.close()
})

test('a form that is sent before the script has come is answered as without script, filled in', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'technician')
  const path = await wellPath(page, site, 'stone bridge')
  const letThrough = await holdScript(context)
  await page.goto(`${site.url}${path}/visit`, { waitUntil: 'commit' })
  await page.fill('[name=flow]', 'nine')
  await page.getByRole('button', { name: 'Save the visit' }).click({ noWaitAfter: true })
  await page.waitForSelector('.error-summary')
  expect(await page.inputValue('[name=flow]')).toBe('nine')
  letThrough()
  await alive(page)
  expect(await page.inputValue('[name=flow]')).toBe('nine')
  await page.fill('[name=flow]', '9 gpm')
  await page.getByRole('button', { name: 'Save the visit' }).click()
  await page.waitForURL(/saved=/)
  await page.getByRole('status').filter({ hasText: 'Flow 9' }).first().waitFor()
  await context.close()
})

test('buttons that only script can serve are not there before it', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'installer')
  const path = await wellPath(page, site, 'sorrel head')
  const letThrough = await holdScript(context)
  await page.goto(site.url + path, { waitUntil: 'commit' })
  await page.locator('.log-line').last().waitFor({ state: 'attached' })
  const closer = page.getByRole('button', { name: /Read off values/ }).first()
  expect(await closer.count()).toBe(0)
  letThrough()
  await closer.click()
  await page.locator('.recharts-symbols').first().waitFor()
  await context.close()
})
