import { copyFile, mkdtemp, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest'
import type { Viewer } from '@/lib/access/viewer'
import {
  createFirstInstaller,
  createUser,
  endAllSessions,
  hasUsers,
  listPeople,
  listSessions,
  resetPassword,
  setDisabled,
  signOutPerson,
  updateProfile,
} from '@/lib/records/accounts'
import type { CookieToSet } from '@/lib/records/cookies-to-set'
import { type Db, openDb } from '@/lib/records/db'
import { migrate } from '@/lib/records/migrate'
import { changePassword, IDLE_DAYS, signIn, signOut, viewerFromHeaders } from '@/lib/records/sessions'

const AT = '2026-03-27T09:00:00.000Z'
const PASSWORD = 'gravel sock and twine'
let empty: string
let folder: string
let db: Db
let nth = 0
/** Each test its own address: the limiter counts per address for the life of the process. */
let email: string

beforeAll(async () => {
  empty = await mkdtemp(join(tmpdir(), 'accounts-empty-'))
  await migrate(join(empty, 'wellround.db'))
})

afterAll(() => rm(empty, { recursive: true }))

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'accounts-'))
  await copyFile(join(empty, 'wellround.db'), join(folder, 'wellround.db'))
  db = await openDb(join(folder, 'wellround.db'))
  nth += 1
  email = `ada${nth}@example.org`
})

afterEach(async () => {
  vi.useRealTimers()
  await db.close()
  await rm(folder, { recursive: true })
})

const asCookie = (cookies: readonly CookieToSet[]) =>
  new Headers({ cookie: cookies.map((c) => `${c.name}=${encodeURIComponent(c.value)}`).join('; ') })

async function firstInstaller(): Promise<void> {
  expect(await createFirstInstaller(db, { name: 'Ada', email, password: PASSWORD }, AT)).toBe('created')
}

async function signedIn(who = email, password = PASSWORD, from = new Headers()): Promise<Headers> {
  const outcome = await signIn(db, who, password, from)
  if (outcome.kind !== 'signed-in') throw new Error(`expected to be signed in, got ${outcome.kind}`)
  return asCookie(outcome.cookies)
}

async function viewer(headers: Headers): Promise<Viewer & { userId: string }> {
  const found = await viewerFromHeaders(db, headers)
  if (!found?.userId) throw new Error('nobody is signed in')
  return { ...found, userId: found.userId }
}

describe('the first account', () => {
  test('is an installer and can sign in', async () => {
    expect(await hasUsers(db)).toBe(false)
    await firstInstaller()
    expect(await hasUsers(db)).toBe(true)
    expect(await viewerFromHeaders(db, await signedIn())).toMatchObject({
      name: 'Ada',
      role: 'installer',
      ownerIds: [],
    })
  })

  test('goes to one of several who try at the same moment', async () => {
    const tries = [1, 2, 3].map((n) =>
      createFirstInstaller(db, { name: `P${n}`, email: `p${n}@example.org`, password: PASSWORD }, AT),
    )
    expect((await Promise.all(tries)).sort()).toEqual(['created', 'not-first', 'not-first'])
    expect(await db.prisma.user.count()).toBe(1)
  })

  test('is stored with a password hash of a row of the OWASP sheet, and never the password', async () => {
    await firstInstaller()
    const [account] = await db.prisma.account.findMany()
    expect(account?.password).toMatch(/^scrypt\$32768\$8\$3\$[\w-]{22}\$[\w-]{43}$/)
    const everything = JSON.stringify([
      await db.prisma.user.findMany(),
      await db.prisma.change.findMany(),
      account,
    ])
    expect(everything).not.toContain(PASSWORD)
  })

  test('leaves a line in the change record', async () => {
    await firstInstaller()
    expect(await db.prisma.change.findMany()).toMatchObject([
      { action: 'user.create', targetKind: 'user', at: AT },
    ])
  })
})

describe('signing in', () => {
  test('takes the address in any case and with spaces around it', async () => {
    await firstInstaller()
    await signedIn(` ${email.toUpperCase()} `)
  })

  test('gives one answer for an unknown address, a wrong password and a disabled person', async () => {
    await firstInstaller()
    const ada = await viewer(await signedIn())
    await createUser(
      db,
      ada,
      { name: 'Bo', email: `bo-${email}`, password: PASSWORD, role: 'technician', ownerId: null },
      AT,
    )
    const bo = (await listPeople(db, ada)).find((p) => p.name === 'Bo')
    await setDisabled(db, ada, bo?.id ?? '', true, AT)
    const refused = { kind: 'no-match' }
    expect(await signIn(db, email, 'not the password', new Headers())).toEqual(refused)
    expect(await signIn(db, `nobody-${email}`, PASSWORD, new Headers())).toEqual(refused)
    expect(await signIn(db, `bo-${email}`, PASSWORD, new Headers())).toEqual(refused)
    expect(await db.prisma.session.count()).toBe(1)
  })

  test('does the work of one hash for an unknown address too', async () => {
    await firstInstaller()
    const took = async (who: string) => {
      const from = performance.now()
      await signIn(db, who, 'not the password', new Headers())
      return performance.now() - from
    }
    await took(email)
    const known: number[] = []
    const unknown: number[] = []
    // The shortest of several: a busy machine only ever adds. Without the hash the unknown one takes a few ms each time.
    const enough = () => Math.min(...unknown) > Math.min(...known) * 0.4
    for (let n = 1; n <= 3 || (n <= 12 && !enough()); n += 1) {
      // Signing in rightly has the failures forgotten: a guess that is slowed would be answered without any hash.
      await signedIn()
      known.push(await took(email))
      unknown.push(await took(`nobody${n}-${email}`))
    }
    expect(enough()).toBe(true)
  })

  test('ends the session that the browser came with', async () => {
    await firstInstaller()
    const before = await signedIn()
    const after = await signedIn(email, PASSWORD, before)
    expect(await viewerFromHeaders(db, before)).toBeNull()
    expect(await viewerFromHeaders(db, after)).not.toBeNull()
  })

  test('sets a cookie that scripts cannot read and other sites cannot send with a form', async () => {
    await firstInstaller()
    const outcome = await signIn(db, email, PASSWORD, new Headers())
    if (outcome.kind !== 'signed-in') throw new Error(outcome.kind)
    expect(outcome.cookies).toMatchObject([
      { name: 'wellround', options: { httpOnly: true, sameSite: 'lax', path: '/', secure: undefined } },
    ])
  })

  test('over https sets a cookie of the __Host- kind', async () => {
    vi.stubEnv('WELLROUND_URL', 'https://wells.example.org')
    try {
      await firstInstaller()
      const outcome = await signIn(db, email, PASSWORD, new Headers())
      if (outcome.kind !== 'signed-in') throw new Error(outcome.kind)
      const [cookie] = outcome.cookies
      expect(cookie).toMatchObject({
        name: '__Host-wellround',
        options: { secure: true, httpOnly: true, path: '/' },
      })
      expect(cookie?.options.domain).toBeUndefined()
      expect(await viewerFromHeaders(db, asCookie(outcome.cookies))).toMatchObject({ name: 'Ada' })
    } finally {
      vi.unstubAllEnvs()
    }
  })

  test('slows guesses at one account from the fifth failure on, ever longer, and lets the person in afterwards', async () => {
    await firstInstaller()
    vi.useFakeTimers({ toFake: ['Date', 'setTimeout', 'clearTimeout'] })
    const guess = async (n: number) =>
      signIn(
        db,
        email,
        'not the password',
        new Headers({ 'x-forwarded-for': `192.0.2.${n}`, 'x-real-ip': `192.0.2.${n}` }),
      )
    for (const n of [1, 2, 3, 4, 5]) expect(await guess(n)).toEqual({ kind: 'no-match' })
    const waits: number[] = []
    for (let n = 6; n <= 15; n += 1) {
      const refused = await guess(n)
      if (refused.kind !== 'wait') throw new Error(`guess ${n} was not slowed`)
      waits.push(refused.seconds)
      vi.advanceTimersByTime(refused.seconds * 1000 + 1)
      expect(await guess(n)).toEqual({ kind: 'no-match' })
    }
    expect(waits).toEqual([1, 2, 4, 8, 16, 32, 64, 64, 64, 64])
    expect(await signIn(db, email, PASSWORD, new Headers())).toEqual({ kind: 'wait', seconds: 64 })
    vi.advanceTimersByTime(64_001)
    expect(await signIn(db, email, PASSWORD, new Headers())).toMatchObject({ kind: 'signed-in' })
    expect(await guess(1), 'the failures are forgotten').toEqual({ kind: 'no-match' })
    // Some twenty password hashes, each costly on purpose.
  })
})

describe('a session', () => {
  test('is nobody without a cookie, with a forged one and with the bare token of the database', async () => {
    await firstInstaller()
    await signedIn()
    const { token } = await db.prisma.session.findFirstOrThrow()
    for (const cookie of ['', 'wellround=abc', `wellround=${token}`, `wellround=${token}.AAAA`]) {
      expect(await viewerFromHeaders(db, new Headers({ cookie }))).toBeNull()
    }
  })

  test('ends with signing out, and signing out without one does no harm', async () => {
    await firstInstaller()
    const mine = await signedIn()
    const [forget] = await signOut(db, mine)
    expect(forget).toMatchObject({ name: 'wellround', value: '', options: { maxAge: 0 } })
    expect(await viewerFromHeaders(db, mine)).toBeNull()
    await signOut(db, new Headers())
  })

  test('of a disabled person is refused on the next request', async () => {
    await firstInstaller()
    const ada = await viewer(await signedIn())
    await createUser(
      db,
      ada,
      { name: 'Bo', email: `bo-${email}`, password: PASSWORD, role: 'technician', ownerId: null },
      AT,
    )
    const bo = await signedIn(`bo-${email}`)
    await db.prisma.user.update({ where: { email: `bo-${email}` }, data: { disabled: true } })
    expect(await viewerFromHeaders(db, bo)).toBeNull()
  })

  test('left unused for longer than two weeks is over', async () => {
    await firstInstaller()
    const mine = await signedIn()
    const long = new Date(Date.now() - (IDLE_DAYS * 24 + 1) * 60 * 60 * 1000)
    await db.prisma.session.updateMany({ data: { updatedAt: long } })
    expect(await viewerFromHeaders(db, mine)).toBeNull()
    expect(await db.prisma.session.count()).toBe(0)
  })

  test('in daily use is still over after thirty days', async () => {
    await firstInstaller()
    const mine = await signedIn()
    vi.useFakeTimers({ toFake: ['Date'] })
    for (let day = 0; day < 29; day += 1) {
      vi.setSystemTime(Date.now() + 24 * 60 * 60 * 1000 + 60_000)
      expect(await viewerFromHeaders(db, mine), `day ${day + 1}`).not.toBeNull()
    }
    vi.setSystemTime(Date.now() + 24 * 60 * 60 * 1000)
    expect(await viewerFromHeaders(db, mine)).toBeNull()
  })

  test('is listed for its person, and all of them can be ended at once', async () => {
    await firstInstaller()
    const phone = await signedIn(email, PASSWORD, new Headers({ 'user-agent': 'Phone' }))
    const desk = await signedIn(email, PASSWORD, new Headers({ 'user-agent': 'Desk' }))
    const ada = await viewer(desk)
    expect((await listSessions(db, ada)).map((s) => s.browser).sort()).toEqual(['Desk', 'Phone'])
    await endAllSessions(db, ada)
    expect([await viewerFromHeaders(db, phone), await viewerFromHeaders(db, desk)]).toEqual([null, null])
  })
})

describe('changing the password', () => {
  test('needs the one in use, and ends every other session', async () => {
    await firstInstaller()
    const phone = await signedIn()
    const desk = await signedIn()
    expect(await changePassword(db, desk, 'not the password', 'another long password')).toEqual({
      kind: 'no-match',
    })
    const changed = await changePassword(db, desk, PASSWORD, 'another long password')
    if (changed.kind !== 'changed') throw new Error(changed.kind)
    expect([await viewerFromHeaders(db, phone), await viewerFromHeaders(db, desk)]).toEqual([null, null])
    expect(await viewerFromHeaders(db, asCookie(changed.cookies))).not.toBeNull()
    expect(await signIn(db, email, PASSWORD, new Headers())).toEqual({ kind: 'no-match' })
    await signedIn(email, 'another long password')
  })

  test('by an installer for somebody who forgot theirs ends their sessions', async () => {
    await firstInstaller()
    const mine = await signedIn()
    const ada = await viewer(mine)
    expect(await resetPassword(db, ada, ada.userId, 'a third long password', AT)).toBe('done')
    expect(await viewerFromHeaders(db, mine)).toBeNull()
    await signedIn(email, 'a third long password')
    expect(await resetPassword(db, ada, 'nobody', 'a third long password', AT)).toBe('no-such-person')
  })
})

describe('signing somebody out', () => {
  test('by an installer, without a new password, ends every session of theirs and nobody else’s', async () => {
    await firstInstaller()
    const mine = await signedIn()
    const ada = await viewer(mine)
    const bo = {
      name: 'Bo',
      email: `bo-${email}`,
      password: PASSWORD,
      role: 'technician',
      ownerId: null,
    } as const
    await createUser(db, ada, bo, AT)
    const [phone, laptop] = [await signedIn(bo.email), await signedIn(bo.email)]
    const { userId } = await viewer(phone)
    expect(await signOutPerson(db, ada, userId, AT)).toBe('done')
    expect([await viewerFromHeaders(db, phone), await viewerFromHeaders(db, laptop)]).toEqual([null, null])
    expect(await viewerFromHeaders(db, mine)).not.toBeNull()
    await signedIn(bo.email)
  })
})

describe('people', () => {
  test('are managed by installers only', async () => {
    await firstInstaller()
    const ada = await viewer(await signedIn())
    const person = {
      name: 'Bo',
      email: `bo-${email}`,
      password: PASSWORD,
      role: 'technician',
      ownerId: null,
    } as const
    expect(await createUser(db, ada, person, AT)).toBe('created')
    expect(await createUser(db, ada, { ...person, email: person.email.toUpperCase() }, AT)).toBe(
      'email-taken',
    )
    const bo = await viewer(await signedIn(person.email))
    expect(bo.role).toBe('technician')
    await expect(createUser(db, bo, { ...person, email: 'x@example.org' }, AT)).rejects.toThrow('not allowed')
    await expect(listPeople(db, bo)).rejects.toThrow('not allowed')
    await expect(setDisabled(db, bo, ada.userId, true, AT)).rejects.toThrow('not allowed')
    await expect(resetPassword(db, bo, ada.userId, PASSWORD, AT)).rejects.toThrow('not allowed')
    expect(await db.prisma.user.count()).toBe(2)
  })

  test('cannot shut themselves out', async () => {
    await firstInstaller()
    const ada = await viewer(await signedIn())
    expect(await setDisabled(db, ada, ada.userId, true, AT)).toBe('yourself')
    expect(await setDisabled(db, ada, 'nobody', true, AT)).toBe('no-such-person')
  })

  test('change their own name and units, with both values in the change record', async () => {
    await firstInstaller()
    const mine = await signedIn()
    await updateProfile(db, await viewer(mine), { name: 'Ada B', units: 'metric' }, AT)
    expect(await viewerFromHeaders(db, mine)).toMatchObject({ name: 'Ada B', units: 'metric' })
    const change = await db.prisma.change.findFirstOrThrow({ where: { action: 'user.profile' } })
    expect([change.before, change.after]).toEqual([
      '{"name":"Ada","units":"us"}',
      '{"name":"Ada B","units":"metric"}',
    ])
  })
})

test('the sign-in secret is made once and readable by its owner only', async () => {
  await firstInstaller()
  const mine = await signedIn()
  expect((await stat(join(folder, 'secret'))).mode & 0o777).toBe(0o600)
  const again = await openDb(join(folder, 'wellround.db'))
  try {
    expect(await viewerFromHeaders(again, mine), 'a restart keeps sessions').not.toBeNull()
  } finally {
    await again.close()
  }
})
