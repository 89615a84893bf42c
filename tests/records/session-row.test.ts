import { createHmac } from 'node:crypto'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest'
import { createFirstInstaller } from '@/lib/records/accounts'
import { authOf } from '@/lib/records/auth'
import { type Db, openDb } from '@/lib/records/db'
import { migrate } from '@/lib/records/migrate'
import { authSecret } from '@/lib/records/secret'
import { sessionRowOf } from '@/lib/records/session-row'
import { signIn } from '@/lib/records/sessions'

const PERSON = { name: 'Ada', email: 'ada@example.org', password: 'gravel sock and twine' }
let folder: string
let db: Db
let token: string
let signature: string

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'session-row-'))
  await migrate(join(folder, 'wellround.db'))
  db = await openDb(join(folder, 'wellround.db'))
  await createFirstInstaller(db, PERSON, '2026-03-27T09:00:00.000Z')
  const outcome = await signIn(db, PERSON.email, PERSON.password, new Headers())
  if (outcome.kind !== 'signed-in') throw new Error(`expected to be signed in, got ${outcome.kind}`)
  ;[token = '', signature = ''] = outcome.cookies[0]?.value.split('.') ?? []
})

afterEach(() => vi.useRealTimers())

afterAll(async () => {
  await db.close()
  await rm(folder, { recursive: true })
})

const asked = (cookie: string) => new Headers({ cookie })
const whole = () => encodeURIComponent(`${token}.${signature}`)

/** The id of the session by our own look-up, and by that of the library which wrote it. */
async function both(cookie: string): Promise<[string | null, string | null]> {
  const ours = await sessionRowOf(db, asked(cookie))
  const auth = await authOf(db)
  const theirs = await auth.api.getSession({
    headers: asked(cookie),
    query: { disableCookieCache: true, disableRefresh: true },
  })
  return [ours?.id ?? null, theirs?.session.id ?? null]
}

test('the session of a cookie is the one that the library finds, with its person', async () => {
  const { id } = await db.prisma.session.findFirstOrThrow()
  for (const cookie of [
    `wellround=${whole()}`,
    `other=1; wellround=${whole()}; more=2`,
    `wellround=${token}.${signature}`,
    ` wellround=${whole()} ;x=`,
  ]) {
    expect(await both(cookie), cookie).toEqual([id, id])
  }
  expect(await sessionRowOf(db, asked(`wellround=${whole()}`))).toMatchObject({
    ...{ name: 'Ada', email: PERSON.email, role: 'installer', units: 'us', disabled: 0 },
  })
})

test('a cookie that is missing, bare, cut, signed by others or for something else finds nobody, here and there', async () => {
  const signed = (text: string, secret: string) => createHmac('sha256', secret).update(text).digest('base64')
  const secret = await authSecret(dirname(db.file))
  const flipped = (signature.startsWith('A') ? 'B' : 'A') + signature.slice(1)
  for (const value of [
    '',
    token,
    `${token}.`,
    `.${signature}`,
    `${token}.${signature.slice(1)}`,
    `${token}.${flipped}`,
    `${token}x.${signature}`,
    `${token}.${signed(token, `${secret}x`)}`,
    `${token}.${'!'.repeat(43)}=`,
    `nobody.${signed('nobody', secret)}`,
  ]) {
    expect(await both(`wellround=${encodeURIComponent(value)}`), value).toEqual([null, null])
  }
  expect(await both('')).toEqual([null, null])
  expect(await both(`wellround2=${whole()}`)).toEqual([null, null])
  expect(await sessionRowOf(db, asked('wellround=%E0%A4%A')), 'a broken escape').toBeNull()
})

test('a session that has run out is nobody’s, and is gone from the table', async () => {
  const { expiresAt } = await db.prisma.session.findFirstOrThrow()
  vi.useFakeTimers({ toFake: ['Date'] })
  vi.setSystemTime(expiresAt.getTime())
  expect(await sessionRowOf(db, asked(`wellround=${whole()}`)), 'in its last millisecond').not.toBeNull()
  vi.setSystemTime(expiresAt.getTime() + 1)
  expect(await sessionRowOf(db, asked(`wellround=${whole()}`))).toBeNull()
  expect(await db.prisma.session.count()).toBe(0)
})
