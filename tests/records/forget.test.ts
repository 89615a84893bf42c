import { beforeEach, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import { createUser } from '@/lib/records/accounts'
import type { Db } from '@/lib/records/db'
import { forgetHousehold, forgetPerson } from '@/lib/records/forget'
import { newId } from '@/lib/records/ids'
import { acceptInvitation, invite } from '@/lib/records/invitations'
import { householdIdsOf } from '@/lib/records/memberships'
import { record } from '@/lib/records/record'
import { signIn, viewerFromHeaders } from '@/lib/records/sessions'
import { bareWell } from '@/lib/records/well-fields'
import { wellList } from '@/lib/records/well-list'
import { createWell, visibleWell, wellPage } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const AT = '2026-11-20T12:00:00.000Z'
const PASSWORD = 'gravel sock and twine'
const EMAIL = 'adabel@forget.example'
let db: Db
let wellId: string
let ownerId: string
let adabel: string

beforeEach(async () => {
  db = await freshDb()
  const contact = { ownerName: 'Smithson', ownerPhone: '555-0101', ownerEmail: 'home@smithson.example' }
  const made = await createWell(db, installer, { ...bareWell('W1'), ...contact }, AT)
  if (made.kind !== 'stored') throw new Error(made.kind)
  wellId = made.id
  ownerId = visibleWell(db, installer, wellId)?.ownerId ?? ''
  const card = await invite(db, installer, ownerId, 'Adabel', AT)
  await acceptInvitation(db, card?.code ?? '', { name: 'Adabel', email: EMAIL, password: PASSWORD }, AT)
  adabel = (await db.prisma.user.findUniqueOrThrow({ where: { email: EMAIL } })).id
  const line = {
    id: newId(),
    wellId,
    visitId: newId(),
    occurredOn: '2026-11-19',
    occurredTime: null,
    byName: 'Adabel',
    supersedes: null,
    withdraws: null,
    payload: { kind: 'event', event: 'flooded' },
  }
  const viewer = { ...owner(ownerId), userId: adabel, name: 'Adabel' }
  const sent = await record(db, viewer, [line], AT, '2026-11-20')
  if (sent.kind !== 'stored') throw new Error(JSON.stringify(sent))
})

/** The whole database as text: every row of every table. */
function everyRow(): string {
  const tables = db.sqlite
    .prepare<[], string>("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE '_prisma%'")
    .pluck()
    .all()
  return JSON.stringify(tables.map((name) => db.sqlite.prepare(`SELECT * FROM "${name}"`).all()))
}

describe('a person who is forgotten', () => {
  test('is named in no table any more, and cannot come in', async () => {
    await createUser(
      db,
      installer,
      { name: 'Bo', email: 'bo@forget.example', password: PASSWORD, role: 'owner', ownerId },
      AT,
    )
    const entered = await signIn(db, EMAIL, PASSWORD, new Headers())
    if (entered.kind !== 'signed-in') throw new Error(entered.kind)
    const cookie = entered.cookies.map(({ name, value }) => `${name}=${value}`).join('; ')
    const headers = new Headers({ cookie })
    expect(await viewerFromHeaders(db, headers)).not.toBeNull()
    expect(everyRow()).toContain('Adabel')
    expect(await forgetPerson(db, installer, adabel, AT)).toBe('done')
    for (const word of ['Adabel', EMAIL]) expect(everyRow().includes(word), word).toBe(false)
    expect(await viewerFromHeaders(db, headers)).toBeNull()
    expect(await signIn(db, EMAIL, PASSWORD, new Headers())).toEqual({ kind: 'no-match' })
    expect(everyRow()).toContain('bo@forget.example')
    expect(await forgetPerson(db, installer, adabel, AT)).toBe('no-such-person')
  })

  test('leaves the well its lines, as a former owner’s, and the change record its steps', async () => {
    await forgetPerson(db, installer, adabel, AT)
    const page = wellPage(db, installer, wellId)
    expect(page?.entries.map((entry) => [entry.kind, entry.byName])).toEqual([['event', 'a former owner']])
    const lines = await db.prisma.change.findMany({ orderBy: { id: 'asc' } })
    expect(lines.map(({ action, after }) => [action, after === '"forgotten"'])).toEqual([
      ['well added', false],
      ['invitation.create', true],
      ['user.create', true],
      ['entries recorded', false],
      ['person forgotten', false],
    ])
  })
})

describe('a household that is forgotten', () => {
  test('is named nowhere any more, while its well keeps its records', async () => {
    expect(await forgetHousehold(db, installer, ownerId, AT)).toBe('done')
    for (const word of ['Smithson', 'smithson', '555-0101', 'Adabel', EMAIL])
      expect(everyRow().includes(word), word).toBe(false)
    const [row] = wellList(db, installer, {}, null, 5).rows
    expect(row).toMatchObject({ label: 'W1', ownerName: `Former owner ${ownerId.slice(-6)}` })
    expect(wellPage(db, installer, wellId)?.entries).toHaveLength(1)
    expect(wellList(db, installer, { search: 'smithson' }, null, 5).rows).toEqual([])
    expect(await forgetHousehold(db, installer, newId(), AT)).toBe('no-such-household')
  })

  test('does not take away the account of somebody who belongs to another too', async () => {
    const second = await createWell(db, installer, { ...bareWell('W2'), ownerName: 'Jones' }, AT)
    const jones = second.kind === 'stored' ? visibleWell(db, installer, second.id)?.ownerId : null
    await db.prisma.membership.create({ data: { userId: adabel, ownerId: jones ?? '', since: '2026-11-20' } })
    await forgetHousehold(db, installer, ownerId, AT)
    expect(householdIdsOf(db, adabel)).toEqual([jones])
  })
})

test('people of the outfit are shut out, never forgotten, and only an installer forgets', async () => {
  const joss = { name: 'Joss', email: 'joss@forget.example', password: PASSWORD }
  await createUser(db, installer, { ...joss, role: 'technician', ownerId: null }, AT)
  const { id } = await db.prisma.user.findUniqueOrThrow({ where: { email: joss.email } })
  expect(await forgetPerson(db, installer, id, AT)).toBe('no-such-person')
  for (const viewer of [technician, owner(ownerId)]) {
    await expect(forgetPerson(db, viewer, adabel, AT)).rejects.toThrow(NotAllowed)
    await expect(forgetHousehold(db, viewer, ownerId, AT)).rejects.toThrow(NotAllowed)
  }
})

describe('the change record', () => {
  const columns = () =>
    db.sqlite
      .prepare<[], { name: string }>('PRAGMA table_info("Change")')
      .all()
      .map((column) => column.name)

  test('lets nothing be rewritten, in any column, nor deleted', () => {
    for (const name of columns())
      expect(() => db.sqlite.exec(`UPDATE "Change" SET "${name}" = 'otherwise'`), name).toThrow('append-only')
    expect(() => db.sqlite.exec('DELETE FROM "Change"')).toThrow('append-only')
    expect(() => db.sqlite.exec(`UPDATE "Change" SET "before" = NULL, "after" = NULL`)).toThrow('append-only')
  })

  test('lets what was said of a person be blanked by the one word for it', () => {
    db.sqlite.exec(
      `UPDATE "Change" SET "after" = '"forgotten"', "byName" = 'a former owner' WHERE "targetKind" = 'user'`,
    )
    expect(() =>
      db.sqlite.exec(`UPDATE "Change" SET "after" = 'otherwise' WHERE "targetKind" = 'user'`),
    ).toThrow('append-only')
  })
})
