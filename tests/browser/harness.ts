import { type ChildProcess, spawn } from 'node:child_process'
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { createRequire } from 'node:module'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core'
import { expect } from 'vitest'
import { type Db, openDb } from '@/lib/records/db'
import { migrate } from '@/lib/records/migrate'
import { loadDemo } from '@/seed'
import { makeDemoSignIns } from '@/seed/sign-ins'

/** The day of every browser test: the demo fleet ends on it and the server believes it is today. */
export const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'

export type Person = { role: string; email: string; password: string }
export type Site = {
  url: string
  people: Person[]
  file: string
  /** Ends the server, as a phone without signal finds it; `resume` starts it over the same data unless it runs. */
  pause(): Promise<void>
  resume(): Promise<void>
  stop(): Promise<void>
}

/** How long anything is waited for, ms: no measure of speed, only the end of what will never come. */
const PATIENCE_MS = 90_000
const READY_MS = 300_000
const LAUNCH_MS = 300_000

/** How sites are served from here on: with the proxy of the build, as always, or without. */
export const served = { proxy: true }

/**
 * A production server over a database of its own: empty, or with the demo fleet and its sign-ins. `prepare` puts more
 * into it before the server opens it, and answers who else can sign in. Without its proxy, the server must keep everybody
 * out all the same.
 */
export async function startSite(
  fill: 'empty' | 'demo',
  prepare: (db: Db) => Promise<Person[]> = async () => [],
): Promise<Site> {
  const data = mkdtempSync(join(tmpdir(), 'wellround-site-'))
  const file = join(data, 'wellround.db')
  await migrate(file)
  let people: Person[] = []
  if (fill === 'demo') {
    const db = await openDb(file)
    await loadDemo(db, AT, TODAY)
    people = [...(await makeDemoSignIns(db, AT)), ...(await prepare(db))]
    await db.close()
  }
  const port = await freePort()
  const url = `http://localhost:${port}`
  const root = served.proxy ? process.cwd() : withoutProxy()
  const serve = async () => {
    const child = spawn(process.execPath, ['node_modules/next/dist/bin/next', 'start', '-p', String(port)], {
      cwd: root,
      env: {
        ...process.env,
        NODE_ENV: 'production',
        PORT: String(port),
        WELLROUND_DATA: data,
        WELLROUND_TODAY: TODAY,
        WELLROUND_ZONE: 'UTC',
        // Every ten minutes of the real clock it would write mails into whatever is being tried.
        WELLROUND_REMIND: 'off',
        // A phone that finds a slow server is not to take it for none: see app/_offline/worker.
        WELLROUND_PATIENCE: String(READY_MS / 1000),
      },
      stdio: ['ignore', 'ignore', 'inherit'],
    })
    await untilReady(url, child)
    return child
  }
  let server = await serve()
  const pause = async () => {
    const ended = new Promise((done) => server.once('exit', done))
    if (hasEnded(server)) return
    server.kill('SIGTERM')
    await ended
  }
  return {
    url,
    people,
    file,
    pause,
    async resume() {
      if (hasEnded(server)) server = await serve()
    },
    async stop() {
      await pause()
      removeFolder(data)
      if (root !== process.cwd()) removeFolder(root)
    },
  }
}

/** Removes a folder into which a browser that is just ending may still be writing. */
export const removeFolder = (path: string): void =>
  rmSync(path, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 })

const hasEnded = (server: ChildProcess) => server.exitCode !== null || server.signalCode !== null

/** A copy of the build that knows no proxy, in a folder of its own; everything else is the program as it is. */
function withoutProxy(): string {
  const root = mkdtempSync(join(tmpdir(), 'wellround-bare-'))
  for (const name of readdirSync('.').filter((each) => !['.next', '.git', 'data'].includes(each)))
    symlinkSync(join(process.cwd(), name), join(root, name))
  cpSync('.next', join(root, '.next'), {
    recursive: true,
    filter: (path) => !path.startsWith(join('.next', 'cache')),
  })
  const list = join(root, '.next', 'server', 'functions-config-manifest.json')
  const { functions, ...rest } = JSON.parse(readFileSync(list, 'utf8')) as {
    functions: Record<string, unknown>
  }
  if (!functions['/_middleware']) throw new Error('the build has no proxy to take away')
  const { '/_middleware': _, ...others } = functions
  writeFileSync(list, JSON.stringify({ ...rest, functions: others }))
  return root
}

/** The server answers, and has made a page: the first one takes longest, and a phone waits for none longer than its patience. */
async function untilReady(url: string, server: ChildProcess): Promise<void> {
  const end = Date.now() + READY_MS
  while (Date.now() < end) {
    if (hasEnded(server)) throw new Error(`the server ended: ${server.exitCode ?? server.signalCode}`)
    const answers = await Promise.all(
      ['/health', '/sign-in'].map((path) => fetch(url + path, { redirect: 'manual' }).catch(() => null)),
    )
    if (answers[0]?.ok && answers[1] && answers[1].status < 400) return
    await new Promise((done) => setTimeout(done, 200))
  }
  throw new Error(`the server did not answer within ${READY_MS / 1000} s`)
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer()
    probe.once('error', reject)
    probe.listen(0, 'localhost', () => {
      const address = probe.address()
      probe.close(() =>
        typeof address === 'object' && address ? resolve(address.port) : reject(new Error('no port')),
      )
    })
  })
}

/**
 * The packaged Chromium of the lock file on Linux, elsewhere the one on the PATH. The packaged one unpacks into
 * the temp folder and takes any that lies there, whatever its version: it gets a new folder each time. 'webgl' draws
 * maps in software, which costs every other page time.
 */
export async function launchBrowser(graphics: 'plain' | 'webgl' = 'plain'): Promise<Browser> {
  return withChromium(graphics, async (options, tidy) => {
    const browser = await chromium.launch(options)
    browser.once('disconnected', tidy)
    return browser
  })
}

/** A browser that keeps what it holds in `folder` after it is closed, as a phone does. */
export async function launchPhone(folder: string): Promise<BrowserContext> {
  return withChromium('plain', async (options, tidy) => {
    const context = await chromium.launchPersistentContext(folder, {
      ...options,
      viewport: { width: 390, height: 844 },
      locale: 'en-US',
    })
    context.once('close', tidy)
    inItsTime(context, true)
    return context
  })
}

type Options = { executablePath: string; args?: string[]; timeout: number }

async function withChromium<T>(
  graphics: 'plain' | 'webgl',
  launch: (options: Options, tidy: () => void) => Promise<T>,
): Promise<T> {
  if (process.platform !== 'linux' || process.arch !== 'x64')
    return launch({ executablePath: browserOnPath(), timeout: LAUNCH_MS }, () => undefined)
  const home = mkdtempSync(join(tmpdir(), 'wellround-chromium-'))
  const before = process.env.TMPDIR
  process.env.TMPDIR = home
  try {
    const { default: packaged } = await import('@sparticuz/chromium')
    const executablePath = await packaged.executablePath()
    const args = [...ARGS, ...(graphics === 'webgl' ? SOFTWARE_GL : ['--disable-gpu'])]
    return await launch({ executablePath, args, timeout: LAUNCH_MS }, () => removeFolder(home))
  } finally {
    if (before === undefined) delete process.env.TMPDIR
    else process.env.TMPDIR = before
  }
}

const SOFTWARE_GL = ['--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader']
const ARGS = ['--no-sandbox', '--headless=shell', '--no-first-run', '--disable-background-networking']

function browserOnPath(): string {
  for (const name of ['chromium', 'chromium-browser', 'google-chrome', 'chrome']) {
    for (const folder of (process.env.PATH ?? '').split(delimiter)) {
      const file = join(folder, process.platform === 'win32' ? `${name}.exe` : name)
      if (existsSync(file)) return file
    }
  }
  throw new Error('the browser tests need Chromium or Chrome on the PATH')
}

/**
 * Makes every page of a context wait as long as a slow machine needs, and be used only once its script has taken over: a
 * press before that is answered by the browser alone, as without script. What people do before then is tried in
 * `early.test.ts`, which opens its pages with `waitUntil`.
 */
function inItsTime(context: BrowserContext, scripted: boolean): void {
  context.setDefaultTimeout(PATIENCE_MS)
  if (!scripted) return
  const heed = (page: Page) => {
    const { goto, reload } = { goto: page.goto.bind(page), reload: page.reload.bind(page) }
    page.goto = async (url, options) => {
      const answer = await goto(url, options)
      if (!options?.waitUntil) await alive(page)
      return answer
    }
    page.reload = async (options) => {
      const answer = await reload(options)
      if (!options?.waitUntil) await alive(page)
      return answer
    }
  }
  for (const page of context.pages()) heed(page)
  context.on('page', heed)
}

/** React leaves its mark on the elements it has taken over. What comes without script, or is no page of ours, need not wait. */
export async function alive(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const main = document.querySelector('script') ? document.querySelector('main') : null
    return !main || Object.keys(main).some((key) => key.startsWith('__react'))
  })
}

/** What a page complained about: script errors and refused content. Must stay empty. */
export type Complaints = string[]

export async function openPage(
  browser: Browser,
  options: { width?: number; scheme?: 'light' | 'dark'; script?: boolean } = {},
): Promise<{ page: Page; context: BrowserContext; complaints: Complaints }> {
  const context = await browser.newContext({
    viewport: { width: options.width ?? 390, height: 844 },
    colorScheme: options.scheme ?? 'light',
    javaScriptEnabled: options.script ?? true,
    locale: 'en-US',
  })
  inItsTime(context, options.script ?? true)
  const page = await context.newPage()
  const complaints: Complaints = []
  page.on('pageerror', (error) => complaints.push(error.message))
  page.on('console', (message) => {
    // A 404 that a test asks for on purpose is told as "Failed to load resource".
    if (message.type() === 'error' && !message.text().startsWith('Failed to load'))
      complaints.push(message.text())
  })
  return { page, context, complaints }
}

export async function signIn(page: Page, site: Site, role: string): Promise<void> {
  const person = site.people.find((one) => one.role === role)
  if (!person) throw new Error(`the demo has no ${role}`)
  await page.goto(`${site.url}/sign-in`)
  await page.fill('[name=email]', person.email)
  await page.fill('[name=password]', person.password)
  await Promise.all([
    page.waitForURL((url) => !url.pathname.startsWith('/sign-in')),
    page.click('main button[type=submit]'),
  ])
}

/** The path of the first well that the search finds by `words`. */
export async function wellPath(page: Page, site: Site, words: string): Promise<string> {
  await page.goto(`${site.url}/wells?q=${encodeURIComponent(words)}`)
  const href = await page.locator('main table a[href^="/wells/"]').first().getAttribute('href')
  if (!href) throw new Error(`no well is found by ${words}`)
  return href
}

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

/** Violations of WCAG 2.2 A and AA that axe finds, target size among them, one line each. */
export async function axe(page: Page): Promise<string[]> {
  // Run in the page's own world by the debugger, so that the content rules of the site stay in force.
  await page.evaluate(axeSource)
  return page.evaluate(async () => {
    const run = (
      globalThis as unknown as { axe: { run(context: unknown, options: unknown): Promise<AxeResult> } }
    ).axe.run
    type AxeResult = { violations: { id: string; nodes: { target: unknown; failureSummary?: string }[] }[] }
    const { violations } = await run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
      rules: { 'target-size': { enabled: true } },
    })
    return violations.flatMap(({ id, nodes }) =>
      nodes.map((n) => `${id}: ${JSON.stringify(n.target)} ${n.failureSummary ?? ''}`),
    )
  })
}

/**
 * Waits until colours that change gradually have arrived: a busy machine measures them half-way otherwise. Two seconds
 * are enough for any; a change that is overtaken by the next one may never be told as finished.
 */
async function settled(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const frame = () => new Promise((done) => requestAnimationFrame(done))
    const still = async () => {
      await frame()
      await frame()
      await Promise.allSettled(document.getAnimations().map((animation) => animation.finished))
    }
    await Promise.race([still(), new Promise((done) => setTimeout(done, 2000))])
  })
}

/** At three widths and in both schemes: no violation, and nothing wider than the screen. */
export async function expectAccessible(page: Page): Promise<void> {
  for (const scheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme: scheme })
    for (const width of [320, 390, 1280]) {
      await page.setViewportSize({ width, height: 844 })
      await settled(page)
      expect(await axe(page), `${page.url()} at ${width} px, ${scheme}`).toEqual([])
      const wide = await page.evaluate(() => document.documentElement.scrollWidth)
      expect(wide, `${page.url()} at ${width} px is ${wide} px wide`).toBeLessThanOrEqual(width)
    }
  }
  await page.emulateMedia({ colorScheme: 'light' })
  await page.setViewportSize({ width: 390, height: 844 })
}
