import { readFileSync } from 'node:fs'
import { request as httpRequest } from 'node:http'
import Database from 'better-sqlite3'
import { strFromU8, unzipSync } from 'fflate'
import type { Browser, BrowserContext } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { launchBrowser, openPage, type Site, signIn, startSite } from './harness'
import { PAGES } from './role-table'

let browser: Browser
let site: Site
let desk: BrowserContext
const NOBODY = '0190a000-0000-7000-8000-000000000001'
/** Pages that a phone shows by itself, without a number that would be used again: see below. */
const PHONE = ['/unsent', '/sw.js']
/** Addresses that name no thing: every installer can open them. */
const PLAIN = Object.keys(PAGES).filter(
  (route) =>
    !route.includes('[') &&
    !PHONE.includes(route) &&
    !route.startsWith('/api/') &&
    PAGES[route]?.[4] === 'page',
)

beforeAll(async () => {
  browser = await launchBrowser()
  site = await startSite('demo')
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'installer')
  desk = context
})
afterAll(async () => {
  await browser?.close()
  await site?.stop()
})

const raw = (path: string, init: RequestInit = {}) =>
  fetch(`${site.url}${path}`, { redirect: 'manual', ...init })

test('every page carries one number on all its scripts, another each time, and is kept nowhere', async () => {
  const numbers = new Set<string>()
  for (const route of PLAIN) {
    const answer = await desk.request.get(`${site.url}${route}`, { maxRedirects: 0 })
    const headers = answer.headers()
    const policy = headers['content-security-policy'] ?? ''
    const number = /script-src 'self' 'nonce-([0-9a-f]{32})' 'strict-dynamic'/.exec(policy)?.[1] ?? ''
    expect(number, route).not.toBe('')
    expect(policy).toMatch(/object-src 'none'; base-uri 'none'.*frame-ancestors 'none'/)
    numbers.add(number)
    const scripts = [...(await answer.text()).matchAll(/<script\b[^>]*>/g)].map(([tag]) => tag)
    for (const tag of scripts) expect(tag, route).toContain(`nonce="${number}"`)
    expect(headers['cache-control'], route).toContain('no-store')
    expect(headers['x-content-type-options'], route).toBe('nosniff')
    expect(headers['content-type'], route).toMatch(/^text\/(html|plain); charset=utf-8$/i)
    expect(headers['referrer-policy'], route).toBe('same-origin')
  }
  expect(numbers.size).toBe(PLAIN.length)
})

test('what a phone shows by itself runs only files of this site, holds nothing between its tags, and is kept by no cache', async () => {
  for (const route of PHONE) {
    const answer = await raw(route)
    expect(answer.status, route).toBe(200)
    const policy = answer.headers.get('content-security-policy') ?? ''
    expect(policy, route).toMatch(/script-src 'self'; style-src 'self';.*object-src 'none'; base-uri 'none'/)
    expect(policy, route).not.toMatch(/unsafe/)
    expect(answer.headers.get('cache-control'), route).toContain('no-')
    if (route === '/sw.js') continue
    const text = await answer.text()
    const scripts = [...text.matchAll(/<script\b([^>]*)>([^<]*)</g)]
    expect(scripts.length).toBeGreaterThan(0)
    for (const [, attributes, between] of scripts) {
      expect(attributes).toMatch(/ src="\/offline\//)
      expect(between).toBe('')
    }
    expect(text).not.toMatch(/<style|\sstyle=|\son\w+=/)
  }
})

test('TRACE is refused, from a page of this site too, and sends nothing back', async () => {
  const senders: Record<string, string>[] = [{}, { origin: site.url }]
  for (const headers of senders) {
    const { status, text } = await trace({ ...headers, 'x-canary': 'CANARY-TRACE' })
    expect(status).toBeGreaterThanOrEqual(400)
    expect(text).not.toContain('CANARY-TRACE')
  }
})

/** fetch cannot send this method. */
function trace(headers: Record<string, string>): Promise<{ status: number; text: string }> {
  return new Promise((done, fail) => {
    httpRequest(`${site.url}/sign-in`, { method: 'TRACE', headers }, (answer) => {
      let text = JSON.stringify(answer.headers)
      answer.on('data', (piece) => {
        text += String(piece)
      })
      answer.on('end', () => done({ status: answer.statusCode ?? 0, text }))
    })
      .on('error', fail)
      .end()
  })
}

test('everything leaves as one archive for an installer, and for nobody else', async () => {
  const answer = await desk.request.get(`${site.url}/api/export/everything.zip`)
  expect(answer.headers()['content-type']).toBe('application/zip')
  expect(answer.headers()['content-disposition']).toMatch(
    /^attachment; filename="wellround-\d{4}-\d\d-\d\d\.zip"$/,
  )
  const found = unzipSync(new Uint8Array(await answer.body()))
  const { files } = JSON.parse(strFromU8(found['manifest.json'] ?? new Uint8Array())) as {
    files: { path: string; rows?: number }[]
  }
  expect(files.find(({ path }) => path === 'tables/Well.jsonl')?.rows).toBe(64)
  expect((await raw('/api/export/everything.zip')).status).toBe(404)
  for (const role of ['owner', 'technician'] as const) {
    const { page, context } = await openPage(browser)
    await signIn(page, site, role)
    expect((await context.request.get(`${site.url}/api/export/everything.zip`)).status(), role).toBe(404)
    await context.close()
  }
})

test('no other site may read an answer, whoever asks', async () => {
  for (const path of [
    '/',
    '/sign-in',
    '/health',
    '/api/export/wells.csv',
    '/api/attachments/x',
    '/nowhere',
  ]) {
    for (const origin of ['https://evil.example', 'null']) {
      const { headers } = await raw(path, { headers: { Origin: origin } })
      for (const name of ['access-control-allow-origin', 'access-control-allow-credentials'])
        expect(headers.get(name), `${path} ${origin}`).toBeNull()
    }
  }
})

test('forged headers of a proxy open nothing and lead nowhere else', async () => {
  const forged = {
    Host: 'evil.example',
    'X-Forwarded-Host': 'evil.example',
    'X-Forwarded-Proto': 'https',
    'X-Forwarded-For': '127.0.0.1',
    'X-Real-IP': '127.0.0.1',
    'X-Middleware-Subrequest': 'proxy:proxy:proxy:proxy:proxy',
    'X-Wellround-Path': '//evil.example',
    'Content-Security-Policy': "script-src 'unsafe-inline'",
  }
  for (const path of ['/', '/wells', '/settings', '/own', '/account']) {
    const answer = await raw(path, { headers: forged })
    expect(answer.status, path).toBe(307)
    const to = answer.headers.get('location') ?? ''
    expect(to, path).toMatch(/^\/sign-in/)
    expect(to).not.toContain('evil')
    expect(answer.headers.get('content-security-policy')).not.toContain('unsafe-inline')
  }
})

test('nothing of the workshop lies about, and nothing is listed', async () => {
  const paths = [
    '/.git/HEAD',
    '/.env',
    '/package.json',
    '/prisma/schema.prisma',
    '/data/wellround.db',
    '/data/secret',
    '/files/',
    '/_next/',
    '/_next/static/',
    '/_next/static/../../package.json',
    '/..%2f..%2fpackage.json',
    '/__nextjs_original-stack-frame',
    '/_next/mcp',
    '/_next/image?url=http%3A%2F%2F169.254.169.254%2F&w=64&q=75',
    '/api/auth/sign-up/email',
    '/api/auth/get-session',
  ]
  // A slash at the end is taken away first: what counts is where that leads.
  for (const path of paths)
    expect((await raw(path, { redirect: 'follow' })).status, path).toBeGreaterThanOrEqual(400)
  const page = await (await raw('/sign-in')).text()
  const script = /\/_next\/static\/[^"]+\.js/.exec(page)?.[0] ?? ''
  expect(script).not.toBe('')
  expect((await raw(`${script}.map`)).status).toBe(404)
})

test('the session cookie is hidden from scripts, and its value stands in no page', async () => {
  const [cookie] = (await desk.cookies()).filter(({ name }) => name.endsWith('wellround'))
  expect(cookie).toMatchObject({ httpOnly: true, sameSite: 'Lax', path: '/' })
  const value = decodeURIComponent(cookie?.value ?? '')
  expect(value.length).toBeGreaterThan(32)
  for (const route of PLAIN) {
    const said = await (await desk.request.get(`${site.url}${route}`)).text()
    expect(said.includes(value.split('.')[0] ?? ''), route).toBe(false)
  }
})

test('a session cookie with one letter changed is nobody’s', async () => {
  const [cookie] = (await desk.cookies()).filter(({ name }) => name.endsWith('wellround'))
  const value = cookie?.value ?? ''
  // Not the very last letter of the signature: two of its six bits say nothing, and one letter in sixteen stands for the same.
  for (const at of [0, 5, Math.floor(value.length / 2), value.length - 8]) {
    const changed = `${value.slice(0, at)}${value[at] === 'A' ? 'B' : 'A'}${value.slice(at + 1)}`
    const answer = await raw('/wells', { headers: { Cookie: `${cookie?.name}=${changed}` } })
    expect(answer.headers.get('location'), String(at)).toContain('/sign-in')
  }
})

test('a session that somebody was handed is not the one they go on with', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'technician')
  const handed = (await context.cookies()).filter(({ name }) => name.endsWith('wellround'))
  await context.clearCookies()
  await page.goto(`${site.url}/sign-in`)
  await context.addCookies(handed)
  const owner = site.people.find((person) => person.role === 'owner')
  await page.fill('[name=email]', owner?.email ?? '')
  await page.fill('[name=password]', owner?.password ?? '')
  await page.locator('main button[type=submit]').click()
  await page.waitForURL(/\/own/)
  const old = handed.map(({ name, value }) => `${name}=${value}`).join('; ')
  expect((await raw('/account', { headers: { Cookie: old } })).headers.get('location')).toContain('/sign-in')
  await context.close()
})

test('a cookie that was copied is refused at once on every page after its person signed out', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'installer')
  const copied = (await context.cookies()).map(({ name, value }) => `${name}=${value}`).join('; ')
  expect((await raw('/wells', { headers: { Cookie: copied } })).status).toBe(200)
  await page.goto(`${site.url}/account`)
  await page.getByRole('button', { name: 'Sign out', exact: true }).click()
  await page.waitForURL(/\/sign-in/)
  for (const route of PLAIN) {
    const wanted = PAGES[route]?.[0] === 'page' ? [200] : [307]
    expect(wanted, route).toContain((await raw(route, { headers: { Cookie: copied } })).status)
  }
  expect((await raw('/api/export/wells.csv', { headers: { Cookie: copied } })).status).toBe(404)
  await context.close()
})

test('the answer for another’s well is that for none, letter for letter', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'owner')
  const db = new Database(site.file, { readonly: true })
  const foreign = String(
    db
      .prepare(
        'SELECT "id" FROM "Well" WHERE "ownerId" NOT IN (SELECT "ownerId" FROM "Membership") AND "struck" = 0 LIMIT 1',
      )
      .pluck()
      .get(),
  )
  db.close()
  // What differs by chance or by the address asked for is taken out.
  const plain = async (path: string, id: string) => {
    const answer = await page.request.get(`${site.url}${path}`)
    const said = (await answer.text()).replaceAll(id, 'ID').replace(/[0-9a-f]{32}/g, 'NUMBER')
    return { status: answer.status(), said: said.replace(/"b":"[^"]*"|requestId[^,]*/g, '') }
  }
  for (const path of ['/own/ID', '/own/ID/samples/new', '/own/past/ID', '/wells/ID', '/api/attachments/ID']) {
    const [theirs, none] = [
      await plain(path.replace('ID', foreign), foreign),
      await plain(path.replace('ID', NOBODY), NOBODY),
    ]
    expect(theirs.status, path).toBe(404)
    expect(theirs, path).toEqual(none)
  }
  await context.close()
})

test('reading changes nothing: every table has the same rows after every page was opened', async () => {
  const rows = () => {
    const db = new Database(site.file, { readonly: true })
    const tables = db.prepare<[], string>("SELECT name FROM sqlite_master WHERE type = 'table'").pluck().all()
    const all = tables
      .filter((name) => name !== 'Session')
      .map((name) => JSON.stringify(db.prepare(`SELECT * FROM "${name}"`).all()))
    db.close()
    return all
  }
  const before = rows()
  for (const route of PLAIN) await desk.request.get(`${site.url}${route}`)
  expect(rows()).toEqual(before)
})

test('a hundred malformed bodies are each answered, and leave the server well', async () => {
  const manifest = JSON.parse(readFileSync('.next/server/server-reference-manifest.json', 'utf8')) as {
    node: Record<string, { filename: string }>
  }
  const [id = ''] =
    Object.entries(manifest.node).find(([, { filename }]) => filename.includes('sign-in/actions')) ?? []
  const bodies = [
    '',
    '[',
    '["$1"]',
    '["$F1"]',
    '["$@0"]',
    '["$B1"]',
    '["$n99999999999999999999"]',
    '[{"__proto__":{"x":1}}]',
    `[${'['.repeat(2000)}`,
    `"${'a'.repeat(100_000)}"`,
  ]
  for (let i = 0; i < 100; i += 1) {
    const answer = await raw('/sign-in', {
      method: 'POST',
      headers: {
        'Next-Action': i % 3 === 0 ? id : `${i}`.padStart(42, '0'),
        Origin: site.url,
        'Content-Type': i % 2 ? 'text/plain;charset=UTF-8' : 'multipart/form-data; boundary=x',
      },
      body: bodies[i % bodies.length] ?? '',
    })
    expect(answer.status, String(i)).toBeGreaterThanOrEqual(200)
    await answer.text()
  }
  expect((await raw('/health')).status).toBe(200)
  expect(({} as Record<string, unknown>).x).toBeUndefined()
})
