/**
 * What the visit form costs on a slow phone with a slow line, with signal and without: the constants of Lighthouse's
 * "slow 4G" (150 ms there and back, 1.6 Mbit/s, a processor four times slower), five runs, medians.
 */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { BrowserContext, CDPSession, Page } from 'playwright-core'
import { launchBrowser, launchPhone, type Site, signIn, startSite, wellPath } from '../browser/harness'
import { weigh } from '../setup/weigh'

const RUNS = 5
const LINE = {
  offline: false,
  latency: 150,
  downloadThroughput: (1.6 * 1024 * 1024) / 8,
  uploadThroughput: (0.75 * 1024 * 1024) / 8,
}
const SLOWER = 4

type Figure = { name: string; value: number; unit: string }
type Vitals = { lcpMs: number; inpMs: number; cls: number }

/** Largest paint, slowest answer to a tap or key, shift of the layout, and weight of script; builds first where it must. */
export async function benchSlow(): Promise<Figure[]> {
  execFileSync(process.execPath, ['-e', "import('./lib/cli/build.mjs').then((build) => build.ensureBuilt())"])
  const site = await startSite('demo')
  try {
    return [...(await withSignal(site)), ...(await withoutSignal(site))]
  } finally {
    await site.stop()
  }
}

async function withSignal(site: Site): Promise<Figure[]> {
  const browser = await launchBrowser()
  const fresh = async () => {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: 'en-US' })
    return { context, page: await context.newPage() }
  }
  const { context: first, page: door } = await fresh()
  await signIn(door, site, 'technician')
  const path = `${await wellPath(door, site, 'Orchard')}/visit`
  const cookies = await first.cookies()
  const runs: Vitals[] = []
  for (let i = 0; i < RUNS; i += 1) {
    const { context, page } = await fresh()
    await context.addCookies(cookies)
    const debug = await slowed(context, page)
    await debug.send('Network.enable')
    await debug.send('Network.emulateNetworkConditions', LINE)
    runs.push(await vitals(page, site.url + path))
    await context.close()
  }
  // Without the worker: what it fetches for later, and what it answers itself, is no weight of the page.
  const context = await browser.newContext({ serviceWorkers: 'block', locale: 'en-US' })
  await context.addCookies(cookies)
  const page = await context.newPage()
  const form = await weigh(context, page, site.url + path)
  const due = await weigh(context, page, `${site.url}/`)
  const own = await weigh(context, page, `${site.url}/unsent`)
  await browser.close()
  return [
    ...medians('visit form, slow 4G', runs),
    { name: 'visit form: script, compressed', value: form.script / 1024, unit: 'KiB' },
    { name: 'visit form: all, compressed', value: form.total / 1024, unit: 'KiB' },
    { name: 'due list: script, compressed', value: due.script / 1024, unit: 'KiB' },
    { name: 'due list: all, compressed', value: due.total / 1024, unit: 'KiB' },
    { name: 'pages without signal, once: script, compressed', value: own.script / 1024, unit: 'KiB' },
  ]
}

/** The same form as the phone shows it by itself, the server gone. */
async function withoutSignal(site: Site): Promise<Figure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'wellround-slow-'))
  const phone = await launchPhone(folder)
  try {
    const page = await phone.newPage()
    await signIn(page, site, 'technician')
    const well = await wellPath(page, site, 'Orchard')
    await page.goto(site.url + well)
    await page.waitForFunction(async () => {
      await navigator.serviceWorker.ready
      return navigator.serviceWorker.controller !== null
    })
    await page.click('text=Take this well with you')
    await page.waitForSelector('text=On this phone since')
    await site.pause()
    const runs: Vitals[] = []
    for (let i = 0; i < RUNS; i += 1) {
      const tab = await phone.newPage()
      await slowed(phone, tab)
      runs.push(await vitals(tab, `${site.url}${well}/visit`))
      await tab.close()
    }
    return medians('visit form without signal', runs)
  } finally {
    await phone.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

async function slowed(context: BrowserContext, page: Page): Promise<CDPSession> {
  const debug = await context.newCDPSession(page)
  await debug.send('Emulation.setCPUThrottlingRate', { rate: SLOWER })
  return debug
}

/** Opens the form, types and taps as somebody at the pit does, and reads what the browser measured. */
async function vitals(page: Page, address: string): Promise<Vitals> {
  await page.addInitScript(WATCH)
  await page.goto(address, { waitUntil: 'load' })
  await page.waitForSelector('#visit')
  // Until the page answers to taps by its script, and the last large paint is known: the first tap ends its search.
  await page.waitForTimeout(3000)
  await page.locator('[name^="duty:"]').first().click()
  await page.locator('[name=staticLevel]').click()
  await page.keyboard.type("6' 3", { delay: 60 })
  await page.locator('[name=note]').click()
  await page.keyboard.type('Lid under leaves', { delay: 60 })
  await page.locator('#visit details summary').first().click()
  await page.waitForTimeout(500)
  return page.evaluate(() => (globalThis as unknown as { vitals: Vitals }).vitals)
}

/** As web-vitals counts them, for a short stay: the last largest paint, the slowest of few interactions, all shifts. */
const WATCH = `
  globalThis.vitals = { lcpMs: NaN, inpMs: 0, cls: 0 }
  const watch = (type, take, more = {}) =>
    new PerformanceObserver((list) => list.getEntries().forEach(take)).observe({ type, buffered: true, ...more })
  watch('largest-contentful-paint', (entry) => { vitals.lcpMs = entry.startTime })
  watch('layout-shift', (entry) => { if (!entry.hadRecentInput) vitals.cls += entry.value })
  watch('event', (entry) => {
    if (entry.interactionId) vitals.inpMs = Math.max(vitals.inpMs, entry.duration)
  }, { durationThreshold: 16 })
`

function medians(named: string, runs: readonly Vitals[]): Figure[] {
  return [
    { name: `${named}: largest paint (LCP)`, value: median(runs.map(({ lcpMs }) => lcpMs)), unit: 'ms' },
    { name: `${named}: slowest answer (INP)`, value: median(runs.map(({ inpMs }) => inpMs)), unit: 'ms' },
    { name: `${named}: shift of the layout (CLS)`, value: median(runs.map(({ cls }) => cls)), unit: '' },
  ]
}

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN
