import { mkdtempSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, beforeEach, describe, expect, test } from 'vitest'
import { createFirstInstaller, createUser, setDisabled, setRole } from '@/lib/records/accounts'
import { type Db, openDb } from '@/lib/records/db'
import { migrate } from '@/lib/records/migrate'
import { noteSecurity } from '@/lib/records/security-log'
import { changePassword, signIn, signOut } from '@/lib/records/sessions'
import { bareWell } from '@/lib/records/well-fields'
import { createWell, visibleWell } from '@/lib/records/wells'
import { installer, owner } from '../setup/viewers'

const AT = '2026-11-20T12:00:00.000Z'
const WORDS = 'a long and quiet stream'
const opened: { db: Db; folder: string }[] = []
let db: Db

beforeEach(async () => {
  const folder = mkdtempSync(join(tmpdir(), 'wellround-log-'))
  await migrate(join(folder, 'wellround.db'))
  db = await openDb(join(folder, 'wellround.db'))
  opened.push({ db, folder })
})
afterAll(async () => {
  for (const { db: each, folder } of opened) {
    await each.close()
    rmSync(folder, { recursive: true, force: true })
  }
})

const file = () => join(dirname(db.file), 'security.log')
const text = () => readFileSync(file(), 'utf8')
const lines = () =>
  text()
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as { at: string; what: string; by: string | null; about?: string })
const idOf = async (email: string) => (await db.prisma.user.findUniqueOrThrow({ where: { email } })).id
const cookieOf = (cookies: readonly { name: string; value: string }[]) =>
  new Headers({ cookie: cookies.map(({ name, value }) => `${name}=${encodeURIComponent(value)}`).join('; ') })

describe('the security log', () => {
  test('has a line, in UTC and by id, for each sign-in, refusal, change of password, sign-out, role and denial', async () => {
    await createFirstInstaller(db, { name: 'Maren', email: 'maren@x.example', password: WORDS }, AT)
    const viewer = { ...installer, userId: await idOf('maren@x.example') }
    const joss = { name: 'Joss', email: 'joss@x.example', password: WORDS }
    await createUser(db, viewer, { ...joss, role: 'technician', ownerId: null }, AT)
    const other = await idOf('joss@x.example')
    await signIn(db, 'maren@x.example', 'not the words', new Headers())
    await signIn(db, 'nobody@nowhere.example', 'not the words', new Headers())
    const first = await signIn(db, 'maren@x.example', WORDS, new Headers())
    if (first.kind !== 'signed-in') throw new Error(first.kind)
    await changePassword(db, cookieOf(first.cookies), 'not the words', 'a far and windy hill')
    const changed = await changePassword(db, cookieOf(first.cookies), WORDS, 'a far and windy hill')
    if (changed.kind !== 'changed') throw new Error(changed.kind)
    await signOut(db, cookieOf(changed.cookies))
    await setRole(db, viewer, other, 'installer', AT)
    await setDisabled(db, viewer, other, true, AT)
    const well = await createWell(db, viewer, { ...bareWell('A-1'), ownerName: 'Finch' }, AT)
    if (well.kind !== 'stored') throw new Error(well.kind)
    const stranger = { ...owner('another'), userId: 'stranger-id' }
    expect(visibleWell(db, stranger, well.id)).toBeNull()
    expect(lines().map(({ what, by, about }) => [what, by, about])).toEqual([
      ['sign-in-refused', viewer.userId, 'password'],
      ['sign-in-refused', null, 'password'],
      ['signed-in', viewer.userId, 'password'],
      ['password-change-refused', viewer.userId, undefined],
      ['password-changed', viewer.userId, undefined],
      ['signed-out', viewer.userId, undefined],
      ['role-changed', viewer.userId, `${other} installer`],
      ['shut-out', viewer.userId, other],
      ['denied', 'stranger-id', `well ${well.id}`],
    ])
    for (const { at } of lines()) expect(at).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/)
    expect(text()).not.toMatch(/quiet stream|windy hill|not the words|nowhere|@x\.example|Maren|Joss/)
    expect(text()).not.toContain(decodeURIComponent(first.cookies[0]?.value ?? 'none').split('.')[0])
    expect(statSync(file()).mode & 0o777).toBe(0o600)
  })

  test('a session’s token is of chance, long, and another each time', async () => {
    await createFirstInstaller(db, { name: 'Maren', email: 'maren@x.example', password: WORDS }, AT)
    for (let i = 0; i < 6; i++) await signIn(db, 'maren@x.example', WORDS, new Headers())
    const tokens = (await db.prisma.session.findMany({ select: { token: true } })).map(({ token }) => token)
    expect(new Set(tokens).size).toBe(6)
    // 32 letters of 62: 190 bits.
    for (const token of tokens) expect(token).toMatch(/^[A-Za-z0-9]{32}$/)
    // Over six of them at least half of the 62 letters come up: 192 draws of a fair die miss that about never.
    expect(new Set(tokens.join('')).size).toBeGreaterThan(31)
  })

  test('notes who guesses on and is slowed', async () => {
    for (let i = 0; i < 7; i++) await signIn(db, 'guessed@x.example', 'no', new Headers())
    expect(lines().at(-1)?.what).toBe('sign-in-slowed')
  })

  test('keeps what is typed in one line, however it breaks and however long it is', () => {
    noteSecurity(db, {
      what: 'denied',
      by: 'x',
      about: `a\n{"what":"signed-in","by":"forged"}${'y'.repeat(900)}`,
    })
    expect(lines()).toHaveLength(1)
    expect(text().length).toBeLessThan(250)
  })

  test('is set aside before it fills the disk', () => {
    writeFileSync(file(), '')
    truncateSync(file(), 5_000_001)
    noteSecurity(db, { what: 'denied', by: 'x' })
    expect(lines()).toHaveLength(1)
    expect(statSync(join(dirname(db.file), 'security.1.log')).size).toBe(5_000_001)
  })
})
