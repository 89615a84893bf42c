import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Db } from '@/lib/records/db'
import { addDuty, addDutyToWells, updateDuty, visibleDuty } from '@/lib/records/duties'
import type { DutyFields } from '@/lib/records/duty-fields'
import { partsOfWell, savePart } from '@/lib/records/parts'
import { bareWell, type WellFields } from '@/lib/records/well-fields'
import { hasWells, type WellListFilter, wellList, wellsForBulk } from '@/lib/records/well-list'
import { createWell, updateWell, visibleWell, wellPage, wellWithOwner } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const AT = '2026-11-20T12:00:00.000Z'

async function stored(db: Db, label: string, more: Partial<WellFields> = {}): Promise<string> {
  const outcome = await createWell(db, installer, { ...bareWell(label), ...more }, AT)
  if (outcome.kind !== 'stored') throw new Error(outcome.kind)
  return outcome.id
}

const duty = (name: string, everyMonths = 6): DutyFields => ({
  key: name.toLowerCase().replaceAll(' ', '-'),
  name,
  consequence: 'supply',
  everyMonths,
  everyRunS: null,
  everyM3: null,
  condition: null,
  conditionLimitSi: null,
  lastDoneOn: '2026-05-20',
  typed: {},
})
const dueOf = (db: Db, wellId: string) => wellPage(db, installer, wellId)?.standing?.duties.map((d) => d.due)
const changesOf = (db: Db, wellId: string) =>
  wellPage(db, installer, wellId)?.changes.map((change) => change.action)

describe('the wells list', () => {
  let db: Db
  let ownerId: string
  const WELLS = Array.from({ length: 40 }, (_, i) => ({
    label: `W-${String((i * 7) % 40).padStart(2, '0')}`,
    name: ['North orchard', 'South orchard', 'Old forge', null][i % 4] ?? null,
    area: ['Mill Reach', 'Snow Line'][i % 2] ?? null,
    ownerName: ['Orla Finch', 'Sorrel School', null][i % 3] ?? null,
    retiredOn: i % 10 === 0 ? '2026-01-01' : null,
  }))
  beforeAll(async () => {
    db = await freshDb()
    for (const { label, ...more } of WELLS) await stored(db, label, more)
    const [first] = wellList(db, installer, { search: 'finch' }, null, 1).rows
    ownerId = visibleWell(db, installer, first?.id ?? '')?.ownerId ?? ''
  })

  /** Each word searched begins a word of label, name, owner or area: worked out the plain way. */
  function found(search: string, filter: WellListFilter, viewer: Viewer): string[] {
    const words = search
      .toLowerCase()
      .split(/[^a-z0-9]+/)
      .filter(Boolean)
    return WELLS.filter((well) => {
      const text = [well.label, well.name, well.area, well.ownerName].join(' ').toLowerCase()
      const parts = text.split(/[^a-z0-9]+/)
      if (viewer.role === 'owner' && well.ownerName !== 'Orla Finch') return false
      if (filter.area !== undefined && well.area !== filter.area) return false
      if (filter.ownerId !== undefined && well.ownerName !== 'Orla Finch') return false
      if ((well.retiredOn !== null) !== (filter.retired ?? false)) return false
      return words.every((word) => parts.some((part) => part.startsWith(word)))
    })
      .map((well) => well.label)
      .sort()
  }

  function walk(viewer: Viewer, filter: WellListFilter, size: number): string[] {
    const labels: string[] = []
    let after: string | null = null
    for (let page = 0; page < 100; page += 1) {
      const { rows, next } = wellList(db, viewer, filter, after, size)
      labels.push(...rows.map((row) => row.label))
      if (next === null) return labels
      after = next
    }
    throw new Error('the pages do not end')
  }

  test('finds by the beginnings of words, and shows each well once in order of label on any page', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(
          '',
          'orch',
          'NORTH orchard',
          'w-1',
          'finch mill',
          'rchard',
          'forge snow',
          "'; --",
          '%',
        ),
        fc.record({
          area: fc.constantFrom(undefined, 'Mill Reach', 'Nowhere'),
          ownerId: fc.constantFrom(undefined, ownerId),
          retired: fc.boolean(),
        }),
        fc.constantFrom(installer, owner(ownerId)),
        fc.integer({ min: 1, max: 9 }),
        (search, filter, viewer, size) => {
          expect(walk(viewer, { ...filter, search }, size)).toEqual(found(search, filter, viewer))
        },
      ),
      { numRuns: 200 },
    )
  })

  test('is empty for an owner without a household', () => {
    expect(walk(owner(null), {}, 5)).toEqual([])
    expect(hasWells(db, owner(null))).toBe(false)
    expect(hasWells(db, installer)).toBe(true)
  })

  test('gives the wells for a step in bulk: those ticked once each, or all that a filter finds', () => {
    const ids = wellList(db, installer, {}, null, 5).rows.map((row) => row.id)
    expect(wellsForBulk(db, installer, [...ids, ...ids, 'no-such-well'])).toMatchObject({ ids, more: false })
    expect(wellsForBulk(db, installer, { area: 'Mill Reach' }).labels).toEqual(
      found('', { area: 'Mill Reach' }, installer),
    )
  })
})

describe('a well', () => {
  test('is refused a label that another has, however it is written, and keeps its own', async () => {
    const db = await freshDb()
    const id = await stored(db, 'FW 1')
    await stored(db, 'FW 2')
    expect(await createWell(db, installer, bareWell('  fw   1 '), AT)).toMatchObject({ kind: 'label-taken' })
    expect(await updateWell(db, installer, id, 1, bareWell('FW 2'), AT)).toMatchObject({
      kind: 'label-taken',
    })
    expect(await updateWell(db, installer, id, 1, bareWell('fw 1'), AT)).toMatchObject({ kind: 'stored' })
  })

  test('is not changed over the head of somebody who changed it first', async () => {
    const db = await freshDb()
    const id = await stored(db, 'FW 1')
    const theirs = { ...bareWell('FW 1'), name: 'Theirs', ownerName: 'Orla Finch', ownerPhone: '555-1' }
    expect(await updateWell(db, installer, id, 1, theirs, AT)).toMatchObject({ kind: 'stored' })
    const mine = { ...bareWell('FW 1'), name: 'Mine', ownerName: 'Orla Finch', ownerPhone: '555-2' }
    expect(await updateWell(db, installer, id, 1, mine, AT)).toMatchObject({
      kind: 'changed-since',
      current: { name: 'Theirs', version: 2 },
    })
    expect(wellWithOwner(db, installer, id)).toMatchObject({
      well: { name: 'Theirs' },
      owner: { phone: '555-1' },
    })
    expect(await updateWell(db, installer, id, 2, mine, AT)).toMatchObject({ kind: 'stored' })
    expect(wellWithOwner(db, installer, id)).toMatchObject({
      well: { name: 'Mine' },
      owner: { phone: '555-2' },
    })
  })

  test('of two people who save the same version at once, stores one and tells the other', async () => {
    const db = await freshDb()
    const id = await stored(db, 'FW 1')
    const save = (name: string) => updateWell(db, installer, id, 1, { ...bareWell('FW 1'), name }, AT)
    const kinds = (await Promise.all([save('A'), save('B')])).map((outcome) => outcome.kind)
    expect(kinds.sort()).toEqual(['changed-since', 'stored'])
  })

  test('shares its owner by name with other wells; a blank phone leaves the number that is known', async () => {
    const db = await freshDb()
    const first = await stored(db, 'A', { ownerName: 'Orla Finch', ownerPhone: '555-1' })
    const second = await stored(db, 'B', { ownerName: ' orla  FINCH ', ownerEmail: 'orla@example.com' })
    const [one, two] = [wellWithOwner(db, installer, first), wellWithOwner(db, installer, second)]
    expect(one?.owner).toEqual(two?.owner)
    expect(one?.owner).toMatchObject({ name: 'Orla Finch', phone: '555-1', email: 'orla@example.com' })
  })

  test('is there for the outfit and its owner, and absent for everybody else, for reading and writing', async () => {
    const db = await freshDb()
    const id = await stored(db, 'A', { ownerName: 'Orla Finch' })
    const other = await stored(db, 'B', { ownerName: 'Somebody Else' })
    const orla = owner(visibleWell(db, installer, id)?.ownerId ?? null)
    expect(wellPage(db, orla, id)?.well.label).toBe('A')
    expect(wellPage(db, orla, other)).toBeNull()
    expect(wellPage(db, orla, 'no-such-well')).toBeNull()
    for (const viewer of [orla, technician]) {
      await expect(createWell(db, viewer, bareWell('C'), AT)).rejects.toThrow(NotAllowed)
      await expect(updateWell(db, viewer, id, 1, bareWell('A'), AT)).rejects.toThrow(NotAllowed)
      await expect(addDuty(db, viewer, id, duty('Test'), AT)).rejects.toThrow(NotAllowed)
    }
  })

  test('that is retired has nothing due, and has it again when it is taken back into use', async () => {
    const db = await freshDb()
    const id = await stored(db, 'A')
    await addDuty(db, installer, id, duty('Change sediment cartridge'), AT)
    expect(dueOf(db, id)).toEqual(['2026-11-20'])
    await updateWell(db, installer, id, 1, { ...bareWell('A'), retiredOn: '2026-06-01' }, AT)
    expect(dueOf(db, id)).toEqual([])
    await updateWell(db, installer, id, 2, bareWell('A'), AT)
    expect(dueOf(db, id)).toEqual(['2026-11-20'])
    expect(changesOf(db, id)).toEqual(['well changed', 'well changed', 'duty added', 'well added'])
  })
})

describe('a duty', () => {
  test('is given once; retired it is no longer due, and comes back with its new limits', async () => {
    const db = await freshDb()
    const wellId = await stored(db, 'A')
    const given = await addDuty(db, installer, wellId, duty('Recovery test', 12), AT)
    if (given.kind !== 'stored') throw new Error(given.kind)
    expect(await addDuty(db, installer, wellId, duty('Recovery test'), AT)).toMatchObject({
      kind: 'already-there',
    })
    await updateDuty(db, installer, given.id, 1, duty('Recovery test', 12), true, AT)
    expect(dueOf(db, wellId)).toEqual([])
    expect(await addDuty(db, installer, wellId, duty('Recovery test', 3), AT)).toEqual(given)
    expect(dueOf(db, wellId)).toEqual(['2026-08-20'])
  })

  test('is not changed over the head of somebody who changed it first', async () => {
    const db = await freshDb()
    const given = await addDuty(db, installer, await stored(db, 'A'), duty('Recovery test', 12), AT)
    if (given.kind !== 'stored') throw new Error(given.kind)
    await updateDuty(db, installer, given.id, 1, duty('Recovery test', 6), false, AT)
    expect(await updateDuty(db, installer, given.id, 1, duty('Recovery test', 24), false, AT)).toMatchObject({
      kind: 'changed-since',
      current: { everyMonths: 6, version: 2 },
    })
    expect(visibleDuty(db, installer, given.id)?.everyMonths).toBe(6)
    expect(visibleDuty(db, owner('somebody'), given.id)).toBeNull()
  })

  test('given to many wells in one step leaves alone those that have it, and tells how many', async () => {
    const db = await freshDb()
    const wells = [await stored(db, 'A'), await stored(db, 'B'), await stored(db, 'C')]
    await addDuty(db, installer, wells[0] ?? '', duty('Recovery test', 3), AT)
    const outcome = await addDutyToWells(
      db,
      installer,
      [...wells, ...wells, 'gone'],
      duty('Recovery test', 12),
      AT,
    )
    expect(outcome).toEqual({ given: 2, had: 1, missing: 1 })
    expect(wells.map((id) => dueOf(db, id)?.[0])).toEqual(['2026-08-20', '2027-05-20', '2027-05-20'])
  })
})

describe('a part', () => {
  const pump = {
    kind: 'pump',
    model: 'Slow lift 40',
    size: null,
    fittedOn: '2022-05-01',
    warrantyUntil: null,
    removedOn: null,
    notes: null,
    beside: false,
  }

  test('is stored with its well, changed by version, and those removed come last', async () => {
    const db = await freshDb()
    const wellId = await stored(db, 'A')
    const old = await savePart(db, installer, wellId, null, { ...pump, removedOn: '2023-01-01' }, AT)
    const made = await savePart(db, installer, wellId, null, pump, AT)
    if (made.kind !== 'stored' || old.kind !== 'stored') throw new Error('not stored')
    expect(partsOfWell(db, technician, wellId).map((part) => part.id)).toEqual([made.id, old.id])
    const existing = { id: made.id, version: 1 }
    expect(await savePart(db, installer, wellId, existing, { ...pump, model: 'Other' }, AT)).toEqual(made)
    expect(await savePart(db, installer, wellId, existing, pump, AT)).toEqual({ kind: 'changed-since' })
    expect(partsOfWell(db, installer, wellId)[0]).toMatchObject({ model: 'Other', version: 2 })
  })

  test('of a foreign well is neither seen nor written', async () => {
    const db = await freshDb()
    const wellId = await stored(db, 'A', { ownerName: 'Orla Finch' })
    await savePart(db, installer, wellId, null, pump, AT)
    expect(partsOfWell(db, owner('somebody'), wellId)).toEqual([])
    await expect(savePart(db, technician, wellId, null, pump, AT)).rejects.toThrow(NotAllowed)
    expect(await savePart(db, installer, 'no-such-well', null, pump, AT)).toEqual({ kind: 'no-such-well' })
  })
})
