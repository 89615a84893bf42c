import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs'
import { connect } from 'node:net'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import Database from 'better-sqlite3'
import type { Browser, BrowserContext } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { OUTFIT } from '@/lib/access/viewer'
import { FILE_BYTES_MAX } from '@/lib/domain/limits'
import { attach } from '@/lib/records/attachments'
import type { Db } from '@/lib/records/db'
import { LINES_AN_HOUR } from '@/lib/records/security-log'
import { DATA_FOLDER } from '../security/tables'
import { PDF } from '../setup/hostile-files'
import { launchBrowser, openPage, type Person, type Site, signIn, startSite } from './harness'
import { PAGES, ROLES } from './role-table'

const notes = mkdtempSync(join(tmpdir(), 'wellround-connections-'))
const CONNECTIONS = join(notes, 'list')
let browser: Browser
let site: Site
let desk: BrowserContext
let household: BrowserContext
let attachmentId = ''

beforeAll(async () => {
  browser = await launchBrowser()
  const before = process.env.NODE_OPTIONS
  Object.assign(process.env, {
    CONNECTIONS,
    NODE_OPTIONS: `${before ?? ''} --import=${join(process.cwd(), 'tests', 'setup', 'connections.mjs')}`,
  })
  try {
    site = await startSite('demo', prepare)
  } finally {
    delete process.env.CONNECTIONS
    if (before === undefined) delete process.env.NODE_OPTIONS
    else process.env.NODE_OPTIONS = before
  }
  desk = await entered('installer')
  household = await entered('owner')
})
afterAll(async () => {
  await browser?.close()
  await site?.stop()
  rmSync(notes, { recursive: true, force: true })
})

async function prepare(db: Db): Promise<Person[]> {
  const { id } = db.sqlite.prepare('SELECT "id" FROM "Entry" WHERE "kind" = \'sample\' LIMIT 1').get() as {
    id: string
  }
  const name = 'a"; x=y\r\nSet-Cookie: evil=1\r\n\r\n ünder.pdf'
  const file = await attach(db, OUTFIT, id, { name, bytes: PDF }, '2026-11-20T12:00:00.000Z')
  if (file.kind !== 'stored') throw new Error(file.kind)
  attachmentId = file.row.id
  return []
}

async function entered(role: string): Promise<BrowserContext> {
  const { page, context } = await openPage(browser)
  await signIn(page, site, role)
  return context
}

type Line = { what: string; by: string | null; about?: string }
const log = (): Line[] =>
  readFileSync(join(dirname(site.file), 'security.log'), 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Line)
const raw = (path: string, init: RequestInit = {}) =>
  fetch(`${site.url}${path}`, { redirect: 'manual', ...init })
const INSIDE = /node_modules|\.next[/\\]|SQLITE|SqliteError|Prisma|\bat \w+.*:\d+:\d+|wellround\.db/

test('every answer says what it is, with its character set, and that nobody is to guess', async () => {
  const page = await (await raw('/sign-in')).text()
  const script = /\/_next\/static\/[^"]+\.js/.exec(page)?.[0] ?? ''
  const style = /\/_next\/static\/[^"]+\.css/.exec(page)?.[0] ?? ''
  const wanted: Record<string, RegExp> = {
    '/sign-in': /^text\/html; charset=utf-8$/i,
    '/nowhere': /^text\/html; charset=utf-8$/i,
    '/health': /^text\/plain; charset=utf-8$/i,
    '/sw.js': /^text\/javascript; charset=utf-8$/i,
    '/api/export/wells.csv': /^text\/csv; charset=utf-8$/i,
    '/api/map': /^application\/json/,
    '/api/v1/me': /^application\/json/,
    '/api/export/nothing.csv': /^text\/plain; ?charset=utf-8$/i,
    [`/api/attachments/${attachmentId}`]: /^application\/pdf$/,
    [script]: /javascript/,
    [style]: /^text\/css/,
  }
  for (const [path, type] of Object.entries(wanted)) {
    expect(path).not.toBe('')
    const answer = await desk.request.get(`${site.url}${path}`)
    const headers = answer.headers()
    expect(headers['content-type'], path).toMatch(type)
    expect(headers['x-content-type-options'], path).toBe('nosniff')
    expect(headers['cross-origin-resource-policy'], path).toBe('same-origin')
    if (!path.startsWith('/_next/static/')) {
      expect(headers['cache-control'], path).toMatch(/no-store/)
      expect(headers['content-security-policy'], path).toMatch(/frame-ancestors 'none'/)
    }
  }
})

test('what is denied to somebody who is signed in stands in the security log, address by address', async () => {
  const before = log().filter(({ what }) => what === 'denied').length
  const absent = Object.keys(PAGES).filter(
    (route) => !route.includes('[') && PAGES[route]?.[ROLES.indexOf('owner')] === 'absent',
  )
  expect(absent.length).toBeGreaterThan(25)
  for (const route of absent)
    expect((await household.request.get(`${site.url}${route}`)).status(), route).toBe(404)
  const denied = log().filter(({ what }) => what === 'denied')
  expect(denied.length - before).toBe(absent.length)
  for (const { by } of denied) expect(by).toMatch(/^[0-9a-f-]{36}$/)
  const said = denied.map(({ about }) => about)
  for (const route of absent) expect(said, route).toContain(route)
  expect((await household.request.get(`${site.url}/api/export/wells.csv`)).status()).toBe(404)
  expect(log().at(-1)).toMatchObject({ what: 'denied', about: 'export.run' })
})

test('forged origins, unknown and malformed calls and bodies are answered, say nothing of the inside and are noted; a flood is counted', async () => {
  const manifest = JSON.parse(readFileSync('.next/server/server-reference-manifest.json', 'utf8')) as {
    node: Record<string, { filename: string }>
  }
  const [known = ''] =
    Object.entries(manifest.node).find(([, { filename }]) => filename.includes('sign-in/actions')) ?? []
  const post = (headers: Record<string, string>, body: string, path = '/sign-in') =>
    raw(path, { method: 'POST', headers: { Origin: site.url, ...headers }, body })
  const answers = [
    await post({ Origin: 'https://evil.example' }, 'x'),
    await post({ 'Next-Action': 'no such call' }, '[]'),
    await post({ 'Next-Action': 'f'.repeat(42), 'Content-Type': 'text/plain;charset=UTF-8' }, '[]'),
    await post({ 'Next-Action': known, 'Content-Type': 'text/plain;charset=UTF-8' }, '["$@0"'),
    await post({}, 'y'.repeat(70_000)),
    await post({ 'Next-Action': known, 'Content-Type': 'multipart/form-data; boundary=x' }, 'not a form'),
  ]
  for (const answer of answers) {
    expect(answer.status).toBeGreaterThanOrEqual(400)
    const said = await answer.text()
    expect(said).not.toMatch(INSIDE)
    expect(said).not.toContain(process.cwd())
  }
  const batch = await desk.request.post(`${site.url}/api/v1/batches`, {
    headers: { Origin: site.url, 'Content-Type': 'application/json' },
    data: '{"not":"a batch"}',
  })
  expect(batch.status()).toBe(400)
  // What a form of any site may send without asking is no batch.
  for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data']) {
    const simple = await desk.request.post(`${site.url}/api/v1/batches`, {
      headers: { Origin: site.url, 'Content-Type': type },
      data: '{"version":1,"user":"x","items":[]}',
    })
    expect(simple.status(), type).toBe(400)
  }
  const seen = () => new Set(log().map(({ what }) => what))
  for (const what of ['origin-refused', 'call-refused', 'body-refused']) expect(seen(), what).toContain(what)
  expect(
    log().filter(({ what, about }) => what === 'call-refused' && about === 'action').length,
  ).toBeGreaterThan(0)
  for (let n = 0; n < LINES_AN_HOUR.unknown + 20; n += 1) await post({ Origin: 'https://evil.example' }, 'x')
  expect(log().filter(({ what }) => what === 'origin-refused')).toHaveLength(LINES_AN_HOUR.unknown)
})

test('a table of 24 MB comes in, a larger one is refused in words, and of what is far larger nothing is kept', async () => {
  const { page, context } = await openPage(browser, { script: false })
  // Fifty megabytes go through the browser's own door: a slow machine takes its time.
  page.setDefaultTimeout(180_000)
  page.setDefaultNavigationTimeout(180_000)
  try {
    await signIn(page, site, 'installer')
    const send = async (bytes: number) => {
      const rows = Math.floor(bytes / LINE)
      const line = (n: number) => `W-${n},a note`.padEnd(LINE - 1)
      const content = ['well,notes', ...Array.from({ length: rows }, (_, n) => line(n))].join('\n')
      await page.goto(`${site.url}/import`)
      await page.setInputFiles('input[name=file]', {
        name: 'large.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from(content),
      })
      await page.getByRole('button', { name: 'Look at the file' }).click()
    }
    await send(24 * 1024 * 1024)
    await page.waitForURL(/\/import\/[0-9a-f]{32}/)
    await send(FILE_BYTES_MAX + 300_000)
    await page.getByText('The file is larger than 25 MB. Split it in parts.').first().waitFor()
    const kept = readdirSync(join(dirname(site.file), 'uploads')).length
    const cookies = (await context.cookies()).map(({ name, value }) => `${name}=${value}`).join('; ')
    expect(await flood(cookies)).toMatch(/ 413 /)
    expect(await flood(cookies, true)).toMatch(/ [45]\d\d /)
    expect(readdirSync(join(dirname(site.file), 'uploads')).length).toBe(kept)
    expect((await raw('/health')).status).toBe(200)
  } finally {
    await context.close()
  }
}, 420_000)

/** Few rows that are long with blanks: what is asked is how much may be sent, and not how fast it is checked. */
const LINE = 24_000
const LARGE = 128 * 1024 * 1024

/** Sends 128 MB, with their length said or in pieces without. Answers the first line of the answer. */
function flood(cookie: string, inPieces = false): Promise<string> {
  const { port, host } = new URL(site.url)
  const piece = Buffer.alloc(64 * 1024, 'x')
  const framed = inPieces ? Buffer.concat([Buffer.from('10000\r\n'), piece, Buffer.from('\r\n')]) : piece
  return new Promise((done) => {
    let status = ''
    let left = LARGE / piece.length
    const socket = connect(Number(port), 'localhost')
    const pump = () => {
      while (left > 0) {
        left -= 1
        if (left === 0 && inPieces) socket.write('0\r\n\r\n')
        else if (!socket.write(framed)) return
      }
    }
    socket.on('connect', () => {
      socket.write(
        [
          'POST /import HTTP/1.1',
          `Host: ${host}`,
          `Origin: ${site.url}`,
          `Cookie: ${cookie}`,
          'Content-Type: multipart/form-data; boundary=x',
          'Connection: close',
          inPieces ? 'Transfer-Encoding: chunked' : `Content-Length: ${LARGE}`,
          '\r\n',
        ].join('\r\n'),
      )
      pump()
    })
    socket.on('drain', pump)
    socket.on('data', (data) => {
      if (status === '') status = data.toString('latin1').split('\r\n')[0] ?? ''
      socket.destroy()
    })
    socket.on('error', () => done(status))
    socket.on('close', () => done(status))
  })
}

test('a request that says two lengths, or a line within a header, is refused', async () => {
  const { port, host } = new URL(site.url)
  const ask = (head: string, body = '') =>
    new Promise<string>((done) => {
      let said = ''
      const socket = connect(Number(port), 'localhost', () =>
        socket.write(
          `POST /sign-in HTTP/1.1\r\nHost: ${host}\r\nConnection: close\r\n${head}\r\n\r\n${body}`,
        ),
      )
      socket.on('data', (data) => {
        said += data.toString('latin1')
      })
      socket.on('error', () => done(said))
      socket.on('close', () => done(said))
    })
  for (const head of [
    'Content-Length: 5\r\nTransfer-Encoding: chunked',
    'Content-Length: 5\r\nContent-Length: 6',
    'Transfer-Encoding: chunked, identity\r\nContent-Length: 3',
    'X-A: b\rContent-Length: 3',
  ]) {
    const said = await ask(head, '0\r\n\r\nGET /health HTTP/1.1\r\n\r\n')
    // Either the server's own 400, or nothing at all; never an answer to the request within.
    expect(said, head).toMatch(/^(?:HTTP\/1\.1 400 |$)/)
    expect(said, head).not.toMatch(/\bok$/)
  }
})

test('reading changes nothing, whoever reads: every table holds what it held', async () => {
  const technician = await entered('technician')
  const rows = () => {
    const db = new Database(site.file, { readonly: true })
    const names = db.prepare<[], string>("SELECT name FROM sqlite_master WHERE type = 'table'").pluck().all()
    const all = names
      .filter((name) => name !== 'Session')
      .map((name) => `${name} ${JSON.stringify(db.prepare(`SELECT * FROM "${name}"`).all())}`)
    db.close()
    return all
  }
  const before = rows()
  const plain = Object.keys(PAGES).filter((route) => !route.includes('['))
  for (const { request } of [desk, technician, household])
    for (const route of plain) await request.get(`${site.url}${route}`, { maxRedirects: 0 })
  for (const route of plain) await raw(route)
  expect(rows()).toEqual(before)
  await technician.close()
})

test('of two people who ask in turns each gets their own', async () => {
  const names = { desk: 'maren@fernhollow.example', household: 'ferdy@sorrel.example' }
  for (let n = 0; n < 20; n += 1) {
    const [one, two] = await Promise.all([
      desk.request.get(`${site.url}/account`),
      household.request.get(`${site.url}/account`),
    ])
    const [ours, theirs] = [await one.text(), await two.text()]
    expect(ours.includes(names.desk) && !ours.includes(names.household), String(n)).toBe(true)
    expect(theirs.includes(names.household) && !theirs.includes(names.desk), String(n)).toBe(true)
  }
})

test('a file is served under a name that adds no line to the answer', async () => {
  const answer = await desk.request.get(`${site.url}/api/attachments/${attachmentId}?filename=evil.html`)
  const headers = answer.headers()
  expect(headers['content-disposition']).toMatch(
    /^attachment; filename="[A-Za-z0-9 ._-]+"; filename\*=UTF-8''[A-Za-z0-9%._~!-]+$/,
  )
  expect(headers['content-disposition']).not.toContain('html')
  expect(headers['set-cookie']).toBeUndefined()
})

test('the worker of the phone takes no messages, whatever they say', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'installer')
  await page.goto(`${site.url}/`)
  const heard = await page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready
    const says = (message: unknown) =>
      new Promise((done) => {
        const { port1, port2 } = new MessageChannel()
        port1.onmessage = ({ data }) => done(data)
        active?.postMessage(message, [port2])
        setTimeout(() => done('silence'), 1500)
      })
    const urlsToCache = ['/wells', '/account']
    const answers = [
      await says({ type: 'CACHE_URLS', payload: { urlsToCache } }),
      await says({ type: 'SKIP_WAITING' }),
      await says({ __proto__: null, type: null }),
    ]
    const kept: string[] = []
    for (const name of await caches.keys())
      for (const { url } of await (await caches.open(name)).keys()) kept.push(new URL(url).pathname)
    return { answers, kept }
  })
  expect(heard.answers).toEqual(['silence', 'silence', 'silence'])
  expect(heard.kept.length).toBeGreaterThan(0)
  expect(heard.kept.filter((path) => !path.startsWith('/offline/'))).toEqual([])
  await context.close()
})

test('no connection was opened but to itself, and the data folder holds what is written down, for its owner only', async () => {
  const opened = existsSync(CONNECTIONS) ? readFileSync(CONNECTIONS, 'utf8').trim().split('\n') : []
  // After an action the framework asks its own server for the page that it leads to.
  expect(opened.filter((to) => to !== '' && to !== new URL(site.url).host)).toEqual([])
  const folder = dirname(site.file)
  const allowed = new RegExp(
    `^(?:${DATA_FOLDER.map(([name]) => name.replace('.', '\\.')).join('|')}|security\\.1\\.log|wellround\\.db-(?:wal|shm))$`,
  )
  const names = readdirSync(folder)
  expect(names.filter((name) => !allowed.test(name))).toEqual([])
  expect(names).toContain('security.log')
  for (const name of names) expect(statSync(join(folder, name)).mode & 0o077, name).toBe(0)
})
