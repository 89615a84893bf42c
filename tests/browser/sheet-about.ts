import type { Page } from 'playwright-core'

/** Fills in when the bottles were filled and how they travelled: in time and cold. */
export async function fillAbout(page: Page): Promise<void> {
  await page.fill('[name=sampleDate]', '2026-11-18')
  await page.fill('[name=sampleTime]', '09:40')
  await page.fill('[name=receivedDate]', '2026-11-18')
  await page.fill('[name=receivedTime]', '13:05')
  await page.fill('[name=receivedTemp]', '41')
  await page.selectOption('[name=pointKind]', 'Kitchen tap')
  await page.selectOption('[name=chlorinated]', 'no')
}
