import { randomBytes, scryptSync } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { copyFile, mkdtemp, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { createFirstInstaller } from '@/lib/records/accounts'
import { type Db, openDb } from '@/lib/records/db'
import { beginPasskey } from '@/lib/records/passkeys'
import { FRESH_HOURS, sessionFromHeaders, signIn, viewerFromHeaders } from '@/lib/records/sessions'
import { saysRoot } from '@/lib/records/soundness'

const AT = '2026-03-27T09:00:00.000Z'
const EMAIL = 'ada@keys.example'
const PASSWORD = 'gravel sock and twine'
let folder: string
let db: Db

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'wellround-keys-'))
  await copyFile(process.env.WELLROUND_TEST_TEMPLATE ?? '', join(folder, 'wellround.db'))
  db = await openDb(join(folder, 'wellround.db'))
  await createFirstInstaller(db, { name: 'Ada', email: EMAIL, password: PASSWORD }, AT)
})
afterEach(async () => {
  vi.unstubAllEnvs()
  await db.close()
  await rm(folder, { recursive: true })
})

async function enter(): Promise<string> {
  const outcome = await signIn(db, EMAIL, PASSWORD, new Headers())
  if (outcome.kind !== 'signed-in') throw new Error(outcome.kind)
  return outcome.cookies.map(({ name, value }) => `${name}=${encodeURIComponent(value)}`).join('; ')
}
const asked = (cookie: string) => viewerFromHeaders(db, new Headers({ cookie }))

describe('the sign-in secret', () => {
  test('is exchanged by taking its file away: everybody signs in again, and nothing else is lost', async () => {
    const cookie = await enter()
    expect(await asked(cookie)).toMatchObject({ name: 'Ada' })
    await db.close()
    await rm(join(folder, 'secret'))
    db = await openDb(join(folder, 'wellround.db'))
    expect(await asked(cookie)).toBeNull()
    expect(await asked(await enter())).toMatchObject({ name: 'Ada' })
  })

  test('that is given and too short is refused', async () => {
    vi.stubEnv('BETTER_AUTH_SECRET', 'short')
    const other = await openDb(join(folder, 'wellround.db'))
    try {
      await expect(viewerFromHeaders(other, new Headers())).rejects.toThrow('shorter than 32')
    } finally {
      await other.close()
    }
  })
})

describe('a session', () => {
  test('counts as fresh for a day, and makes a calendar address or passkey no longer than that', async () => {
    const cookie = await enter()
    const fresh = async () => (await sessionFromHeaders(db, new Headers({ cookie })))?.fresh
    expect(await fresh()).toBe(true)
    await db.prisma.session.updateMany({
      data: { createdAt: new Date(Date.now() - (FRESH_HOURS * 3600 - 60) * 1000) },
    })
    expect(await fresh()).toBe(true)
    expect(await beginPasskey(db, new Headers({ cookie }))).not.toBe('sign-in-again')
    await db.prisma.session.updateMany({
      data: { createdAt: new Date(Date.now() - (FRESH_HOURS * 3600 + 60) * 1000) },
    })
    expect(await fresh()).toBe(false)
    expect(await beginPasskey(db, new Headers({ cookie }))).toBe('sign-in-again')
    expect(readFileSync('app/(self)/account/mail-actions.ts', 'utf8')).toContain(
      'if (!(await currentSession())?.fresh) return null',
    )
  })
})

describe('a session token', () => {
  const parts = (...objects: object[]) =>
    objects.map((object) => Buffer.from(JSON.stringify(object)).toString('base64url'))

  test('is not taken signed by no algorithm, by another one, or by nothing', async () => {
    const cookie = await enter()
    const { token, userId } = await db.prisma.session.findFirstOrThrow()
    const [none, hs, claims] = parts({ alg: 'none' }, { alg: 'HS256' }, { sub: userId, session: token })
    const name = cookie.split('=')[0]
    for (const forged of [
      `${none}.${claims}.`,
      `${hs}.${claims}.${randomBytes(32).toString('base64url')}`,
      `${token}.`,
      `${token}.${randomBytes(32).toString('base64')}`,
      `${token}.${'A'.repeat(43)}=`,
    ])
      expect(await asked(`${name}=${encodeURIComponent(forged)}`), forged).toBeNull()
    expect(await asked(cookie)).not.toBeNull()
  })
})

describe('a password hash', () => {
  test('of an earlier, lower cost opens, and is made anew at today’s', async () => {
    const salt = randomBytes(16)
    const key = scryptSync(PASSWORD, salt, 32, { N: 2 ** 14, r: 8, p: 1 })
    const old = `scrypt$16384$8$1$${salt.toString('base64url')}$${key.toString('base64url')}`
    await db.prisma.account.updateMany({ data: { password: old } })
    await enter()
    const { password } = await db.prisma.account.findFirstOrThrow()
    expect(password).toMatch(/^scrypt\$32768\$8\$3\$/)
    await enter()
    expect((await db.prisma.account.findFirstOrThrow()).password, 'once').toBe(password)
  })
})

describe('the data folder', () => {
  test('holds a database that nobody but its owner reads, its log and index too', async () => {
    await enter()
    for (const name of ['wellround.db', 'wellround.db-wal', 'wellround.db-shm', 'secret', 'security.log'])
      expect((await stat(join(folder, name))).mode & 0o077, name).toBe(0)
  })

  test('is not to be owned by root, and the start says so', () => {
    expect(saysRoot(0)).toMatch(/runs as root/)
    for (const user of [1000, undefined]) expect(saysRoot(user)).toBeNull()
  })
})
