import { beforeEach, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import { createUser, setDisabled } from '@/lib/records/accounts'
import type { Db } from '@/lib/records/db'
import { acceptInvitation, invite, openInvitation } from '@/lib/records/invitations'
import {
  acceptReset,
  makeMailReset,
  makeResetCard,
  openReset,
  RESET_CARD_DAYS,
  RESET_MAIL_MINUTES,
} from '@/lib/records/resets'
import { signIn, viewerFromHeaders } from '@/lib/records/sessions'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const AT = '2026-11-20T12:00:00.000Z'
const later = (minutes: number) => new Date(Date.parse(AT) + minutes * 60_000).toISOString()
const PASSWORD = 'gravel sock and twine'
const FRESH = 'a lantern by the pit'
let db: Db
let nth = 0
let email: string
let userId: string

beforeEach(async () => {
  db = await freshDb()
  nth += 1
  email = `ada-${nth}@reset.example`
  await createUser(
    db,
    installer,
    { name: 'Ada', email, password: PASSWORD, role: 'technician', ownerId: null },
    AT,
  )
  userId = (await db.prisma.user.findUniqueOrThrow({ where: { email } })).id
})

const mail = async (at = AT) => (await makeMailReset(db, ` ${email.toUpperCase()}`, at))?.code ?? ''
const card = async () => (await makeResetCard(db, installer, userId, AT))?.code ?? ''

describe.each([
  ['a link by mail', mail, RESET_MAIL_MINUTES],
  ['a card', card, RESET_CARD_DAYS * 24 * 60],
] as const)('%s', (_what, make, minutes) => {
  test('sets a new password once, and ends every session', async () => {
    const entered = await signIn(db, email, PASSWORD, new Headers())
    if (entered.kind !== 'signed-in') throw new Error(entered.kind)
    const cookie = entered.cookies.map(({ name, value }) => `${name}=${value}`).join('; ')
    const code = await make()
    expect(await acceptReset(db, code, FRESH, AT)).toBe('done')
    expect(await viewerFromHeaders(db, new Headers({ cookie }))).toBeNull()
    expect(await signIn(db, email, PASSWORD, new Headers())).toEqual({ kind: 'no-match' })
    expect((await signIn(db, email, FRESH, new Headers())).kind).toBe('signed-in')
    expect(await acceptReset(db, code, 'another one again', AT)).toBe('no-such-code')
  })

  test('is worth nothing once its time is over, or a newer one was made', async () => {
    const old = await make()
    expect(openReset(db, old, later(minutes - 1))?.name).toBe('Ada')
    expect(await acceptReset(db, old, FRESH, later(minutes))).toBe('no-such-code')
    const fresh = await make()
    expect(openReset(db, old, AT)).toBeNull()
    expect(openReset(db, fresh, AT)).not.toBeNull()
  })

  test('of two who use it at once, one gets it', async () => {
    const code = await make()
    const both = [acceptReset(db, code, FRESH, AT), acceptReset(db, code, 'another one again', AT)]
    expect((await Promise.all(both)).sort()).toEqual(['done', 'no-such-code'])
  })

  test('stands nowhere in the database, and opens nothing but this', async () => {
    const code = await make()
    const rows = JSON.stringify([await db.prisma.resetCode.findMany(), await db.prisma.change.findMany()])
    for (const form of [code, code.replaceAll('-', '')]) expect(rows.includes(form)).toBe(false)
    expect(openInvitation(db, code, AT)).toBeNull()
    const person = { name: 'B', email: `b-${nth}@reset.example`, password: FRESH }
    expect(await acceptInvitation(db, code, person, AT)).toBe('no-such-invitation')
  })

  test('does not let somebody in who was shut out', async () => {
    const code = await make()
    await setDisabled(db, installer, userId, true, AT)
    expect(await acceptReset(db, code, FRESH, AT)).toBe('no-such-code')
    expect(await make()).toBe('')
  })
})

test('an invitation is no reset', async () => {
  await db.prisma.owner.create({ data: { id: 'smith', name: 'Smith', nameKey: 'smith' } })
  const made = await invite(db, installer, 'smith', 'Ada', AT)
  expect(await acceptReset(db, made?.code ?? '', FRESH, AT)).toBe('no-such-code')
})

test('three mails an hour and no more go to one address, and none to an unknown one', async () => {
  for (const minute of [0, 1, 2]) expect(await mail(later(minute))).toMatch(/^[\w-]{43}$/)
  expect(await mail(later(3))).toBe('')
  expect(await mail(later(61))).not.toBe('')
  expect(await makeMailReset(db, 'nobody@reset.example', AT)).toBeNull()
})

test('codes are of chance, all different, and long enough: 256 bits by mail, 80 typed by hand', async () => {
  const codes = new Set<string>()
  for (let i = 0; i < 200; i += 1) codes.add(await mail(later(i * 61)))
  expect(codes.size).toBe(200)
  expect(await card()).toMatch(/^([0-9A-HJKMNP-TV-Z]{4}-){3}[0-9A-HJKMNP-TV-Z]{4}$/)
})

test('only an installer makes cards', async () => {
  for (const viewer of [technician, owner('smith')])
    await expect(makeResetCard(db, viewer, userId, AT)).rejects.toThrow(NotAllowed)
  expect(await makeResetCard(db, installer, 'nobody', AT)).toBeNull()
})
