import type { BrowserContext, Page } from 'playwright-core'

/** What a page drew over the line, compressed as sent, bytes. */
export type Weight = { script: number; total: number; files: number }

/** Opens an address with nothing kept from before, and weighs what comes until the line is still. */
export async function weigh(context: BrowserContext, page: Page, address: string): Promise<Weight> {
  const debug = await context.newCDPSession(page)
  await debug.send('Network.enable')
  await debug.send('Network.setCacheDisabled', { cacheDisabled: true })
  const kinds = new Map<string, string>()
  const weight: Weight = { script: 0, total: 0, files: 0 }
  debug.on('Network.responseReceived', ({ requestId, type }) => kinds.set(requestId, type))
  debug.on('Network.loadingFinished', ({ requestId, encodedDataLength }) => {
    weight.files += 1
    weight.total += encodedDataLength
    if (kinds.get(requestId) === 'Script') weight.script += encodedDataLength
  })
  await page.goto(address, { waitUntil: 'networkidle' })
  await debug.detach()
  return weight
}
