import { randomUUID } from 'node:crypto'
import { mkdtempSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'
import type { BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { diceFrom } from '../sim/dice'
import { launchPhone, removeFolder } from './harness'

/** As many as the project asks for; a page that is killed once is not used again. */
const KILLS = 100
/** From the tap to the end of the page, ms, at the least to begin with. */
const SPREAD_MS = 80
/** By how much later or earlier the next page is killed, so that the kills stay about the write however slow the machine is by then. */
const LATER = 1.15
const PHOTO_BYTES = 400_000

const folder = mkdtempSync(join(tmpdir(), 'wellround-taps-'))
/** Visits of which a page had shown that they are saved. */
const shown = new Set<string>()
let server: Server
let url = ''
let phone: BrowserContext

beforeAll(async () => {
  const bundle = await build({
    entryPoints: ['tests/setup/tap-page.ts'],
    bundle: true,
    minify: true,
    write: false,
    format: 'iife',
    define: { 'process.env.NODE_ENV': '"production"' },
  })
  const script = bundle.outputFiles[0]?.text ?? ''
  server = createServer((request, response) => {
    const { pathname, searchParams } = new URL(request.url ?? '/', 'http://localhost')
    if (pathname === '/shown') shown.add(searchParams.get('id') ?? '')
    if (pathname === '/') response.setHeader('Content-Type', 'text/html; charset=utf-8')
    // The server of the outfit is not reached: every batch meets a fault, and what was kept stays kept.
    if (pathname.startsWith('/api/')) response.statusCode = 503
    response.end(pathname === '/' ? pageOf(searchParams.get('id') ?? '', script) : '')
  })
  await new Promise<void>((done) => server.listen(0, 'localhost', done))
  url = `http://localhost:${(server.address() as AddressInfo).port}`
  phone = await launchPhone(folder)
})
afterAll(async () => {
  await phone?.close()
  server?.close()
  removeFolder(folder)
})

const pageOf = (id: string, script: string) => `<!doctype html><title>Tap</title>
<form><input name="visitId" value="${id}"><input name="note" value="note of ${id}">
<input type="file" name="photo"><button>Save</button></form><output></output><script>${script}</script>`

async function opened(): Promise<{ id: string; page: Page }> {
  const id = randomUUID()
  const page = await phone.newPage()
  await page.goto(`${url}/?id=${id}`)
  return { id, page }
}
const TAP = "document.querySelector('button').click()"

/** How long the page takes here from the tap to the word, in ms, unhurt. */
async function usualMs(): Promise<number> {
  const { page } = await opened()
  const from = performance.now()
  await page.evaluate(TAP)
  await page.waitForFunction("document.querySelector('output').textContent !== ''")
  const ms = performance.now() - from
  await page.close()
  return ms
}

/** Taps, and kills the process of the page so many ms later: nothing of it runs on, as when a phone ends a tab. */
async function tapAndKill(afterMs: number): Promise<string> {
  const { id, page } = await opened()
  const debug = await phone.newCDPSession(page)
  const crashed = new Promise((done) => page.once('crash', done))
  // Neither this nor the end below is answered by a page that is gone.
  void debug.send('Runtime.evaluate', { expression: TAP }).catch(() => undefined)
  await new Promise((done) => setTimeout(done, afterMs))
  void debug.send('Page.crash').catch(() => undefined)
  await crashed
  await page.close()
  return id
}

type Kept = { id: string; state: string; typed: Record<string, string> }

/** What lies in the phone's store, read by a browser that was started anew over the same profile. */
async function reopened(): Promise<{ items: Kept[]; photos: { visit: string; size: number }[] }> {
  await phone.close()
  phone = await launchPhone(folder)
  const page = await phone.newPage()
  await page.goto(`${url}/?id=${randomUUID()}`)
  return page.evaluate(
    () =>
      new Promise((resolve, reject) => {
        const open = indexedDB.open('wellround')
        open.onerror = () => reject(open.error)
        open.onsuccess = () => {
          const tx = open.result.transaction(['items', 'photos'])
          const items = tx.objectStore('items').getAll()
          const photos = tx.objectStore('photos').getAll()
          tx.oncomplete = () =>
            resolve({
              items: items.result,
              photos: photos.result.map(({ visit, bytes }) => ({ visit, size: bytes.byteLength })),
            })
        }
      }),
  )
}

test('of a hundred pages killed between tap and write none had called saved what is not there', async () => {
  await usualMs()
  let spread = Math.max(SPREAD_MS, 2 * (await usualMs()))
  const dice = diceFrom(12)
  const taps: string[] = []
  for (let i = 0; i < KILLS; i += 1) {
    const id = await tapAndKill(dice.uniform(0, spread))
    taps.push(id)
    spread = shown.has(id) ? spread / LATER : spread * LATER
  }
  const told = new Set(shown)
  const { items, photos } = await reopened()
  const kept = new Map(items.map((item) => [item.id, item]))

  const falsely = taps.filter((id) => told.has(id) && !kept.has(id))
  expect(falsely).toEqual([])
  for (const id of taps) {
    const item = kept.get(id)
    // Whole with its photo, or not at all.
    expect(photos.filter(({ visit }) => visit === id)).toEqual(item ? [{ visit: id, size: PHOTO_BYTES }] : [])
    if (item) expect(item.typed.note).toBe(`note of ${id}`)
  }
  // The kills fell on both sides of the write, or this says nothing.
  expect(taps.filter((id) => !kept.has(id)).length).toBeGreaterThan(0)
  expect(taps.filter((id) => told.has(id)).length).toBeGreaterThan(0)
})
