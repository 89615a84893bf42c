import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { weigh } from '../setup/weigh'
import { launchBrowser, openPage, type Site, signIn, startSite, wellPath } from './harness'

/**
 * What a first visit may cost on a slow phone: Alex Russell, "The Performance Inequality Gap, 2024", three seconds on a
 * typical phone and line: 365 KiB of script, 730 KiB in all. For the form at the pit our own bound is 170 KiB.
 */
const KIB = 1024

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

test('the form at the pit, and the first page, stay light', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'technician')
  const well = await wellPath(page, site, 'Orchard')
  const form = await weigh(context, page, `${site.url}${well}/visit`)
  expect(form.files).toBeGreaterThan(5)
  expect(form.script / KIB).toBeLessThanOrEqual(170)
  expect(form.total / KIB).toBeLessThanOrEqual(730)
  const first = await weigh(context, page, `${site.url}/`)
  expect(first.script / KIB).toBeLessThanOrEqual(365)
  expect(first.total / KIB).toBeLessThanOrEqual(730)
  await context.close()
})
