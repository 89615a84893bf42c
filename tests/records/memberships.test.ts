import { beforeEach, describe, expect, test } from 'vitest'
import { may, NotAllowed } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { createUser } from '@/lib/records/accounts'
import type { Db } from '@/lib/records/db'
import { household, householdList } from '@/lib/records/households'
import { invite, joinHousehold, openInvitation } from '@/lib/records/invitations'
import { endMembership, householdIdsOf } from '@/lib/records/memberships'
import { bareWell } from '@/lib/records/well-fields'
import { wellList } from '@/lib/records/well-list'
import { createWell, visibleWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const AT = '2026-11-20T12:00:00.000Z'
let db: Db
let ids: { smith: string; jones: string; ada: string }
let wells: string[]
const ada = (): Viewer & { userId: string } => ({
  ...owner(...householdIdsOf(db, ids.ada)),
  userId: ids.ada,
  name: 'Ada',
})

beforeEach(async () => {
  db = await freshDb()
  wells = []
  for (const [label, ownerName] of [
    ['A1', 'Smith'],
    ['B1', 'Jones'],
    ['C1', 'Third'],
  ] as const) {
    const made = await createWell(db, installer, { ...bareWell(label), ownerName }, AT)
    if (made.kind === 'stored') wells.push(made.id)
  }
  const of = (label: string) =>
    visibleWell(db, installer, wells[label.charCodeAt(0) - 65] ?? '')?.ownerId ?? ''
  const person = { name: 'Ada', email: 'ada@two.example', password: 'gravel sock and twine' }
  await createUser(db, installer, { ...person, role: 'owner', ownerId: of('A') }, AT)
  const { id } = await db.prisma.user.findUniqueOrThrow({ where: { email: person.email } })
  ids = { smith: of('A'), jones: of('B'), ada: id }
})

const code = async (ownerId: string) => (await invite(db, installer, ownerId, 'Ada', AT))?.code ?? ''

describe('a person of two households', () => {
  test('adds the second with its card, sees the wells of both and of no third', async () => {
    expect(await joinHousehold(db, ada(), await code(ids.jones), AT)).toBe('joined')
    expect(householdIdsOf(db, ids.ada)).toEqual([ids.smith, ids.jones].sort())
    expect(wellList(db, ada(), {}, null, 10).rows.map((row) => row.label)).toEqual(['A1', 'B1'])
    expect(wells.map((id) => visibleWell(db, ada(), id) !== null)).toEqual([true, true, false])
    for (const name of ['smith', 'jones'] as const)
      expect((await household(db, installer, ids[name]))?.people.map((each) => each.name)).toEqual(['Ada'])
    expect(householdList(db, installer, '', null, 9).rows.map((row) => [row.name, row.people])).toEqual([
      ['Jones', 1],
      ['Smith', 1],
      ['Third', 0],
    ])
  })

  test('does not use a card up that adds nothing', async () => {
    const again = await code(ids.smith)
    expect(await joinHousehold(db, ada(), again, AT)).toBe('already')
    expect(openInvitation(db, again, AT)).not.toBeNull()
    expect(await joinHousehold(db, ada(), 'ABCD-ABCD-ABCD-ABCD', AT)).toBe('no-such-invitation')
  })

  test('uses a card up once, of two who try at once', async () => {
    const second = { name: 'Bo', email: 'bo@two.example', password: 'gravel sock and twine' }
    await createUser(db, installer, { ...second, role: 'owner', ownerId: ids.smith }, AT)
    const { id } = await db.prisma.user.findUniqueOrThrow({ where: { email: second.email } })
    const card = await code(ids.jones)
    const both = [joinHousehold(db, ada(), card, AT), joinHousehold(db, { ...ada(), userId: id }, card, AT)]
    expect((await Promise.all(both)).sort()).toEqual(['joined', 'no-such-invitation'])
  })

  test('taken out of one, keeps the other, and may come back with a new card', async () => {
    await joinHousehold(db, ada(), await code(ids.jones), AT)
    expect(await endMembership(db, installer, ids.ada, ids.smith, AT)).toBe('done')
    expect(await endMembership(db, installer, ids.ada, ids.smith, AT)).toBe('no-such-person')
    expect(wellList(db, ada(), {}, null, 10).rows.map((row) => row.label)).toEqual(['B1'])
    expect(may(ada(), 'entry.record', ids.smith)).toBe(false)
    expect(await joinHousehold(db, ada(), await code(ids.smith), AT)).toBe('joined')
    expect(wellList(db, ada(), {}, null, 10).rows).toHaveLength(2)
    const lines = await db.prisma.change.findMany({ where: { targetId: ids.ada }, orderBy: { id: 'asc' } })
    expect(lines.map((line) => line.action)).toEqual([
      'user.create',
      'user.join-household',
      'user.leave-household',
      'user.join-household',
    ])
  })

  test('taken out of all, sees nothing', async () => {
    await endMembership(db, installer, ids.ada, ids.smith, AT)
    expect(wellList(db, ada(), {}, null, 10).rows).toEqual([])
    expect(visibleWell(db, ada(), wells[0] ?? '')).toBeNull()
  })
})

test('only an installer takes people out, and only an owner adds a household by a card', async () => {
  for (const viewer of [technician, owner(ids.smith)])
    await expect(endMembership(db, viewer, ids.ada, ids.smith, AT)).rejects.toThrow(NotAllowed)
  const card = await code(ids.jones)
  for (const viewer of [technician, installer])
    await expect(joinHousehold(db, { ...viewer, userId: ids.ada }, card, AT)).rejects.toThrow(NotAllowed)
})
