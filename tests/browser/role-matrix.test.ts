import { existsSync, readFileSync } from 'node:fs'
import Database from 'better-sqlite3'
import type { Browser, BrowserContext } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { OUTFIT } from '@/lib/access/viewer'
import { createUser } from '@/lib/records/accounts'
import { attach } from '@/lib/records/attachments'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { savePart } from '@/lib/records/parts'
import { makePlates, platesOfWell } from '@/lib/records/plates'
import { record } from '@/lib/records/record'
import { PDF } from '../setup/hostile-files'
import { launchBrowser, openPage, type Person, type Site, signIn, startSite, TODAY } from './harness'
import { ACTIONS, APART, PAGES, ROLES, type Role } from './role-table'

const AT = '2026-11-20T12:00:00.000Z'
const MANIFESTS = '.next'
const NOBODY = '0190a000-0000-7000-8000-000000000001'

let browser: Browser
let site: Site
/** What stands in the place of each parameter, and words of the well and household that no stranger may read. */
let params: Record<string, string> = {}
let canaries: string[] = []
const contexts = new Map<Role, BrowserContext>()

beforeAll(async () => {
  browser = await launchBrowser()
  site = await startSite('demo', prepare)
  for (const role of ROLES) {
    const { page, context } = await openPage(browser)
    if (role !== 'anonymous') await signIn(page, site, role)
    contexts.set(role, context)
  }
})
afterAll(async () => {
  await browser?.close()
  await site?.stop()
})

/** A second household's account, a part and a file, so that every kind of thing exists that somebody could ask for. */
async function prepare(db: Db): Promise<Person[]> {
  const one = <T>(sql: string, ...values: string[]) => db.sqlite.prepare(sql).get(...values) as T
  const { ownerId } = one<{ ownerId: string }>('SELECT "ownerId" FROM "Membership"')
  const well = one<{ id: string; name: string }>(
    `SELECT w."id", w."name" FROM "Well" w JOIN "Entry" e ON e."wellId" = w."id" AND e."kind" = 'sample'
     WHERE w."ownerId" = ? LIMIT 1`,
    ownerId,
  )
  const { id: entryId } = one<{ id: string }>(
    'SELECT "id" FROM "Entry" WHERE "wellId" = ? AND "kind" = \'sample\' LIMIT 1',
    well.id,
  )
  const { id: other } = one<{ id: string }>(
    'SELECT o."id" FROM "Owner" o JOIN "Well" w ON w."ownerId" = o."id" WHERE o."id" <> ? LIMIT 1',
    ownerId,
  )
  const fields = {
    kind: 'pump',
    model: null,
    size: null,
    fittedOn: null,
    warrantyUntil: null,
    removedOn: null,
    notes: null,
    beside: false,
  }
  const part = await savePart(db, OUTFIT, well.id, null, fields, AT)
  const file = await attach(db, OUTFIT, entryId, { name: 'sheet.pdf', bytes: PDF }, AT)
  if (part.kind !== 'stored' || file.kind !== 'stored') throw new Error(`${part.kind}, ${file.kind}`)
  const positive = {
    id: newId(),
    wellId: well.id,
    visitId: newId(),
    occurredOn: TODAY,
    occurredTime: null,
    byName: 'Maren',
    supersedes: null,
    withdraws: null,
    payload: {
      kind: 'sample',
      sampledAt: `${TODAY}T08:00`,
      receivedAt: `${TODAY}T10:00`,
      results: [{ analyte: 'E. coli', result: 'Present', unit: 'per 100 mL' }],
    },
  }
  const sent = await record(db, OUTFIT, [positive], AT, TODAY)
  if (sent.kind !== 'stored') throw new Error(sent.kind)
  const household = one<{ name: string }>('SELECT "name" FROM "Owner" WHERE "id" = ?', ownerId)
  const roundId = newId()
  db.sqlite
    .prepare(
      `INSERT INTO "Round" ("id","name","day","startAt","endAt","roadFactor","speedKmH","createdAt")
       VALUES (?,'Matrix round',?,'08:00','17:00',1.35,50,?)`,
    )
    .run(roundId, TODAY, AT)
  const stopId = newId()
  db.sqlite
    .prepare('INSERT INTO "Stop" ("id","roundId","position","wellId","minutes") VALUES (?,?,1,?,30)')
    .run(stopId, roundId, well.id)
  params = {
    roundId,
    stopId,
    wellId: well.id,
    entryId,
    partId: part.id,
    attachmentId: file.row.id,
    ownerId,
    dutyId: one<{ id: string }>('SELECT "id" FROM "Duty" WHERE "wellId" = ? AND "retired" = 0', well.id).id,
    batchId: one<{ id: string }>('SELECT "id" FROM "Batch" LIMIT 1').id,
    token: NOBODY,
    uploadId: NOBODY,
    jobId: NOBODY,
    modelId: one<{ id: string }>('SELECT "id" FROM "PumpModel" LIMIT 1').id,
    what: 'pump',
    kind: 'recovery',
    key: 'bacteria',
    itemId: one<{ id: string }>('SELECT "id" FROM "StockItem" LIMIT 1').id,
    file: 'wells.csv',
    code: await plateOf(db, well.id),
  }
  canaries = [well.name, household.name, file.row.sha256]
  const stranger = {
    name: 'Stranger',
    email: 'stranger@elsewhere.example',
    password: 'a stone in every shoe',
  }
  const made = await createUser(db, OUTFIT, { ...stranger, role: 'owner', ownerId: other }, AT)
  if (made !== 'created') throw new Error(made)
  return [{ role: 'stranger', ...stranger }]
}

/** A plate that counts, of the well that the household may see. */
async function plateOf(db: Db, wellId: string): Promise<string> {
  await makePlates(db, OUTFIT, [wellId], AT)
  const [plate] = platesOfWell(db, OUTFIT, wellId)
  if (!plate) throw new Error('no plate was made')
  return plate.code
}

const addressOf = (route: string): string =>
  route.replace(/\[(\w+)\]/g, (_, name: string) => {
    const value = params[name]
    if (value === undefined) throw new Error(`no value for [${name}] of ${route}`)
    return value
  })

const manifest = (name: string): unknown => JSON.parse(readFileSync(`${MANIFESTS}/${name}`, 'utf8'))

test('every route of the build has its row, and every row its route', () => {
  const routes = Object.values(manifest('app-path-routes-manifest.json') as Record<string, string>)
  expect([...new Set(routes)].sort()).toEqual([...Object.keys(PAGES), ...APART].sort())
})

test('the words that a stranger must not read do stand on the well’s own page', async () => {
  const page = await contexts.get('installer')?.request.get(`${site.url}${addressOf('/wells/[wellId]')}`)
  const said = (await page?.text()) ?? ''
  for (const word of canaries.slice(0, 2)) expect(said).toContain(word)
})

describe.each(ROLES)('%s', (role) => {
  test.each(Object.keys(PAGES))('at %s', async (route) => {
    const request = contexts.get(role)?.request
    if (!request) throw new Error(`nobody is signed in as ${role}`)
    const wanted = PAGES[route]?.[ROLES.indexOf(role)]
    const url = `${site.url}${addressOf(route)}`
    const answer = await request.get(url, { maxRedirects: 0 })
    const leadsTo = answer.headers().location ?? ''
    const got =
      answer.status() === 404
        ? 'absent'
        : answer.status() >= 300 && answer.status() < 400
          ? leadsTo.includes('/sign-in')
            ? 'door'
            : 'away'
          : answer.ok()
            ? 'page'
            : `status ${answer.status()}`
    expect(got, `${url} leads to "${leadsTo}"`).toBe(wanted)
    if (role !== 'anonymous' && role !== 'stranger') return
    // Nor by the ways in which pages ask for each other's content.
    const others = [
      await request.get(url, { maxRedirects: 0, headers: { RSC: '1' } }),
      await request.get(`${url}?_rsc=1abcd`, {
        maxRedirects: 0,
        headers: { RSC: '1', 'Next-Router-Prefetch': '1' },
      }),
      await request.get(url, {
        maxRedirects: 0,
        headers: { 'x-middleware-subrequest': 'proxy:proxy:proxy' },
      }),
      await request.head(url, { maxRedirects: 0 }),
    ]
    for (const each of [answer, ...others]) {
      const said = `${await each.text()} ${JSON.stringify(each.headers())}`
      for (const canary of canaries) expect(said.includes(canary), `${url} tells "${canary}"`).toBe(false)
      expect(each.status(), url).toBeLessThan(500)
    }
  })
})

describe('actions', () => {
  type Reference = { filename: string; exportedName: string; workers: Record<string, unknown> }
  const references = () =>
    Object.entries(
      (manifest('server/server-reference-manifest.json') as { node: Record<string, Reference> }).node,
    )

  test('every action of the build has its row, and every row its action', () => {
    const names = references().map(([, { filename, exportedName }]) => `${filename}#${exportedName}`)
    expect(names.sort()).toEqual(Object.keys(ACTIONS).sort())
  })

  test.each(Object.entries(ACTIONS))('%s asks %s who is there', (name, asks) => {
    const [file = '', exported = ''] = name.split('#')
    expect(existsSync(file), file).toBe(true)
    const source = readFileSync(file, 'utf8')
    const from = source.indexOf(`export async function ${exported}(`)
    expect(from, name).toBeGreaterThan(-1)
    const body = source.slice(from, source.indexOf('\n}\n', from))
    if (asks === 'nobody') expect(file).toContain('app/(door)/')
    else expect(body).toContain(`await ${asks}(`)
    if (asks === 'roundOpened')
      expect(source).toMatch(/function roundOpened\([^{]*\{[^}]*\}> \{\s+const viewer = await deskViewer\(\)/)
    // A page's own way of asking asks in its turn.
    if (asks === 'modelAsked')
      expect(source).toMatch(/function modelAsked\([^{]*\{\s+const viewer = await deskViewer\(\)/)
    if (asks === 'settingEditor')
      expect(source).toMatch(/function settingEditor\(\) \{\s+const viewer = await deskViewer\(\)/)
  })

  test('called directly by anybody outside the desk, none changes a row', async () => {
    const before = rowCounts()
    for (const role of ['anonymous', 'stranger'] as const) {
      for (const [id, { filename, exportedName, workers }] of references()) {
        // What a person does to their own account is theirs to do.
        if (ACTIONS[`${filename}#${exportedName}`] === 'signedInViewer' && role !== 'anonymous') continue
        const route =
          Object.keys(workers)[0]
            ?.replace(/^app/, '')
            .replace(/\/\([a-z]+\)/g, '')
            .replace(/\/page$/, '') ?? '/'
        const url = `${site.url}${addressOf(route === '' ? '/' : route)}`
        for (const data of ['[]', `["${params.wellId}",{"typed":{},"errors":{}},"$K1"]`]) {
          const answer = await contexts.get(role)?.request.post(url, {
            maxRedirects: 0,
            headers: { 'Next-Action': id, Origin: site.url, 'Content-Type': 'text/plain;charset=UTF-8' },
            data,
          })
          const said = (await answer?.text()) ?? ''
          for (const canary of canaries)
            expect(said.includes(canary), `${filename} tells "${canary}"`).toBe(false)
          // What is no proper call is answered, and takes nobody's time as a fault in the log.
          expect.soft(answer?.status(), `${filename}#${exportedName} for ${role}`).toBeLessThan(500)
        }
      }
    }
    expect(rowCounts()).toEqual(before)
  })
})

/** Rows of every table but the sessions, which a signed-in person's own request may touch, and the questions put to devices. */
function rowCounts(): Record<string, number> {
  const db = new Database(site.file, { readonly: true })
  const tables = db.prepare("SELECT name FROM sqlite_master WHERE type = 'table'").pluck().all().map(String)
  const counts = Object.fromEntries(
    tables
      .filter((name) => name !== 'Session' && name !== 'Verification')
      .map((name) => [name, Number(db.prepare(`SELECT COUNT(*) FROM "${name}"`).pluck().get())]),
  )
  db.close()
  return counts
}
