import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Db } from '@/lib/records/db'
import { launchBrowser, openPage, type Person, type Site, signIn, startSite } from './harness'

/** What breaks out of markup, attributes, scripts, styles, templates and addresses, where it is taken for more than words. */
const EVIL = [
  '<script>window.hit=1</script>',
  '<img src=x onerror=window.hit=2>',
  '"><svg onload=window.hit=3>',
  "' onmouseover='window.hit=4' autofocus onfocus='window.hit=5",
  '</script><script>window.hit=6</script>',
  '</title></textarea></style><script>window.hit=7</script>',
  '{{constructor.constructor("window.hit=8")()}}\u0024{window.hit=9}',
  '[x](javascript:window.hit=10)',
  '<a href="javascript:window.hit=11">',
  '<iframe srcdoc="<script>parent.hit=12</script>">',
  '<link rel=stylesheet href=//evil.example/x.css>',
  '\u2028\u2029<!--<base href=//evil.example/>-->&lt;b&gt;',
].join(' ')

let browser: Browser
let site: Site
let wellId = ''
beforeAll(async () => {
  browser = await launchBrowser()
  site = await startSite('demo', prepare)
})
afterAll(async () => {
  await browser?.close()
  await site?.stop()
})

/** Puts the words wherever people type some, past every form. */
async function prepare(db: Db): Promise<Person[]> {
  const { id } = db.sqlite
    .prepare(
      'SELECT w."id" FROM "Well" w JOIN "Membership" m ON m."ownerId" = w."ownerId" JOIN "Entry" e ON e."wellId" = w."id" AND e."kind" = \'sample\' LIMIT 1',
    )
    .get() as { id: string }
  wellId = id
  const put = (table: string, columns: readonly string[], where = '') =>
    db.sqlite
      .prepare(`UPDATE "${table}" SET ${columns.map((column) => `"${column}" = ?`).join(', ')} ${where}`)
      .run(...columns.map((column) => `${column} ${EVIL}`))
  const ofWell = `WHERE "id" = '${wellId}'`
  put('Well', ['name', 'area', 'access', 'gateCode', 'hazards', 'notes', 'suctionFittings'], ofWell)
  put('Owner', ['name', 'phone', 'notes'], `WHERE "id" = (SELECT "ownerId" FROM "Well" ${ofWell})`)
  put('User', ['name'])
  put('Part', ['model', 'size', 'notes'], `WHERE "wellId" = '${wellId}'`)
  put('StockItem', ['model'])
  put('Round', ['name', 'notes'])
  const entry = db.sqlite.prepare('SELECT * FROM "Entry" WHERE "wellId" = ? LIMIT 1').get(wellId) as Record<
    string,
    unknown
  >
  const words = { kind: 'note', text: EVIL.slice(0, 900) }
  const copy = {
    ...entry,
    id: NOTE,
    kind: 'note',
    byName: EVIL,
    payload: JSON.stringify(words),
    supersedes: null,
    withdraws: null,
  }
  db.sqlite
    .prepare(
      `INSERT INTO "Entry" (${Object.keys(copy)
        .map((name) => `"${name}"`)
        .join(',')}) VALUES (${Object.keys(copy)
        .map(() => '?')
        .join(',')})`,
    )
    .run(...Object.values(copy))
  db.sqlite
    .prepare(
      'INSERT INTO "Setting" ("key","value") VALUES (\'outfit\', ?) ON CONFLICT("key") DO UPDATE SET "value" = excluded."value"',
    )
    .run(JSON.stringify({ name: EVIL, contact: EVIL }))
  return []
}
const NOTE = '0190a000-0000-7000-8000-00000000feed'

const OF_WELL = [
  '',
  '/edit',
  '/visit',
  '/water',
  '/wear',
  '/yield',
  '/place',
  '/find',
  '/supply',
  '/tests',
  '/plates',
  '/samples/new',
  '/duties/new',
  '/sale',
]
const DESK = [
  '/',
  '/wells',
  '/water',
  '/yield',
  '/map',
  '/rounds',
  '/stock',
  '/import',
  '/households',
  '/settings',
  '/reminders',
  '/from-owners',
  '/account',
  '/due/sheet',
  '/plates',
  '/models',
  '/export',
]

/** Everything a page asked for, and what it complained about: both are told of afterwards. */
async function walk(
  page: Page,
  paths: readonly string[],
): Promise<{ elsewhere: string[]; hits: string[]; without: string[] }> {
  const elsewhere: string[] = []
  const hits: string[] = []
  const without: string[] = []
  page.on('request', (request) => {
    const { protocol, origin } = new URL(request.url())
    if (protocol.startsWith('http') && origin !== site.url) elsewhere.push(request.url())
  })
  page.on('dialog', (dialog) => {
    hits.push(`${page.url()} says ${dialog.message()}`)
    void dialog.dismiss()
  })
  for (const path of paths) {
    const answer = await page.goto(`${site.url}${path}`, { waitUntil: 'load' })
    expect(answer?.status(), path).toBe(200)
    await page.waitForSelector('main h1')
    const hit = await page.evaluate(() => (globalThis as { hit?: number }).hit ?? 0)
    if (hit !== 0) hits.push(`${path} ran ${hit}`)
    const made = await page
      .locator('main script, main iframe, main [onerror], main [onload], [href^="javascript:"], base')
      .count()
    if (made !== 0) hits.push(`${path} holds ${made} made of words`)
    // One press from every page.
    if ((await page.getByRole('button', { name: 'Sign out', exact: true }).count()) !== 1) without.push(path)
  }
  return { elsewhere, hits, without }
}

test.each([
  ['installer', [...DESK, ...OF_WELL]],
  ['owner', ['own', '/ask', '/reading', '/tank', '/samples/new', '/find', '/what-if']],
] as const)(
  'words that look like markup, templates or script stand as words on every page of the %s, run nothing and ask no other host; from every page one can sign out',
  async (role, paths) => {
    const { page, context, complaints } = await openPage(browser)
    await signIn(page, site, role)
    const all =
      role === 'owner'
        ? ['/own', `/own/${wellId}`, ...paths.slice(1).map((path) => `/own/${wellId}${path}`), '/account']
        : paths.map((path) =>
            (OF_WELL as readonly string[]).includes(path) ? `/wells/${wellId}${path}` : path,
          )
    const { elsewhere, hits, without } = await walk(page, all)
    expect(hits).toEqual([])
    expect(elsewhere).toEqual([])
    expect(without).toEqual([])
    // Among the complaints would be every try that the content policy had to stop.
    expect(complaints).toEqual([])
    await page.goto(`${site.url}${role === 'owner' ? '/own' : `/wells/${wellId}`}`)
    const shown = await page.locator('main').innerText()
    for (const word of ['<script>window.hit=1</script>', '{{constructor', '&lt;b&gt;'])
      expect(shown).toContain(word)
    await context.close()
  },
)

test('a file for spreadsheets holds the words as they are', async () => {
  const { page, context } = await openPage(browser)
  await signIn(page, site, 'installer')
  const csv = await (await context.request.get(`${site.url}/api/export/wells.csv`)).text()
  expect(csv).toContain('<script>window.hit=1</script> <img src=x onerror=window.hit=2>')
  await context.close()
})
