import { beforeEach, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import type { Db } from '@/lib/records/db'
import { household, householdList } from '@/lib/records/households'
import { tidyCode } from '@/lib/records/invitation-code'
import {
  acceptInvitation,
  INVITATION_DAYS,
  invitationState,
  invitationsOf,
  invite,
  openInvitation,
  revokeInvitation,
} from '@/lib/records/invitations'
import { signIn } from '@/lib/records/sessions'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const AT = '2026-11-20T12:00:00.000Z'
const LATER = new Date(Date.parse(AT) + (INVITATION_DAYS + 1) * 86_400_000).toISOString()
const SMITH = '0190a000-0000-7000-8000-000000000001'
const JONES = '0190a000-0000-7000-8000-000000000002'
let db: Db
let nth = 0
const person = () => ({ name: 'Ada', email: `ada-${nth}@card.example`, password: 'gravel sock and twine' })

beforeEach(async () => {
  db = await freshDb()
  nth += 1
  for (const [id, name] of [
    [SMITH, 'Smith'],
    [JONES, 'Jones'],
  ] as const)
    await db.prisma.owner.create({ data: { id, name, nameKey: name.toLowerCase() } })
})

async function card(): Promise<string> {
  const made = await invite(db, installer, SMITH, 'Ada', AT)
  if (!made) throw new Error('no card was made')
  return made.code
}

describe('a card', () => {
  test('lets its holder make an account of that household, once', async () => {
    const code = await card()
    expect(await acceptInvitation(db, code, person(), AT)).toBe('created')
    const people = (await household(db, installer, SMITH))?.people ?? []
    expect(people.map(({ name, email }) => ({ name, email }))).toEqual([
      { name: 'Ada', email: person().email },
    ])
    expect((await household(db, installer, JONES))?.people).toEqual([])
    const entered = await signIn(db, person().email, person().password, new Headers())
    expect(entered.kind).toBe('signed-in')
    const again = { ...person(), email: `second-${nth}@card.example` }
    expect(await acceptInvitation(db, code, again, AT)).toBe('no-such-invitation')
  })

  test('of two who use it at once, one gets in', async () => {
    const code = await card()
    const both = await Promise.all([
      acceptInvitation(db, code, person(), AT),
      acceptInvitation(db, code, { ...person(), email: `b-${nth}@card.example` }, AT),
    ])
    expect(both.toSorted()).toEqual(['created', 'no-such-invitation'])
  })

  test('is worth nothing once it was taken back or has run out', async () => {
    const run = await card()
    expect(await acceptInvitation(db, run, person(), LATER)).toBe('no-such-invitation')
    const taken = await card()
    const [row] = invitationsOf(db, installer, SMITH)
    expect(await revokeInvitation(db, installer, row?.id ?? '', AT)).toBe('done')
    expect(openInvitation(db, taken, AT)).toBeNull()
    expect(await revokeInvitation(db, installer, row?.id ?? '', AT)).toBe('not-open')
    expect(invitationsOf(db, installer, SMITH).map((each) => invitationState(each, LATER))).toEqual([
      'taken-back',
      'run-out',
    ])
  })

  test('is not used up by an address that has an account', async () => {
    const first = await card()
    await acceptInvitation(db, first, person(), AT)
    const second = await card()
    const shouted = { ...person(), email: person().email.toUpperCase() }
    expect(await acceptInvitation(db, second, shouted, AT)).toBe('email-taken')
    expect(openInvitation(db, second, AT)?.household).toBe('Smith')
  })

  test('has a code that stands nowhere in the database', async () => {
    const code = await card()
    const rows = JSON.stringify([await db.prisma.invitation.findMany(), await db.prisma.change.findMany()])
    expect(rows).toContain('invitation.create')
    expect(rows).not.toContain(code)
    expect(rows).not.toContain(code.replaceAll('-', ''))
  })

  test('is read however it is typed, and not guessed at', async () => {
    const code = await card()
    const sloppy = code.toLowerCase().replaceAll('-', '  ').replaceAll('0', 'o').replaceAll('1', 'l')
    expect(openInvitation(db, ` ${sloppy} `, AT)?.ownerId).toBe(SMITH)
    for (const wrong of ['', 'hello', `${code}A`, code.slice(1), 'UUUU-UUUU-UUUU-UUUU'])
      expect(tidyCode(wrong), wrong).toBeNull()
    const other = code.startsWith('A') ? `B${code.slice(1)}` : `A${code.slice(1)}`
    expect(openInvitation(db, other, AT)).toBeNull()
  })
})

describe('only an installer', () => {
  test.each([technician, owner(SMITH)])(
    'invites, lists, takes back or sees households: $role',
    async (viewer) => {
      await expect(invite(db, viewer, SMITH, 'Ada', AT)).rejects.toThrow(NotAllowed)
      await expect(revokeInvitation(db, viewer, 'x', AT)).rejects.toThrow(NotAllowed)
      await expect(household(db, viewer, SMITH)).rejects.toThrow(NotAllowed)
      expect(() => invitationsOf(db, viewer, SMITH)).toThrow(NotAllowed)
      expect(() => householdList(db, viewer, '', null, 10)).toThrow(NotAllowed)
    },
  )
})

describe('the list of households', () => {
  test('goes by name, page by page, and narrows to a beginning', () => {
    const first = householdList(db, installer, '', null, 1)
    expect(first.rows.map((row) => row.name)).toEqual(['Jones'])
    expect(householdList(db, installer, '', first.next, 1).rows.map((row) => row.name)).toEqual(['Smith'])
    expect(householdList(db, installer, 'SM', null, 9).rows.map((row) => row.name)).toEqual(['Smith'])
    expect(householdList(db, installer, 'x', null, 9)).toEqual({ rows: [], next: null })
  })
})
