import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import type { Viewer } from '@/lib/access/viewer'
import { addDays } from '@/lib/domain/quantity/day'
import type { Consequence } from '@/lib/domain/upkeep/types'
import type { Db } from '@/lib/records/db'
import {
  COUNT_MAX,
  type DueFilter,
  type DueRow,
  dueCounts,
  dueFacets,
  dueItems,
  duePage,
  URGENCIES,
  type Urgency,
} from '@/lib/records/due-list'
import { dueOverview } from '@/lib/records/due-overview'
import { dueSheet } from '@/lib/records/due-sheet'
import { addDutyToWells } from '@/lib/records/duties'
import { newId } from '@/lib/records/ids'
import { bareWell } from '@/lib/records/well-fields'
import { createWell, visibleWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const OWNERS = ['Orla Finch', 'Sorrel School', null] as const
const AREAS = ['Mill Reach', 'Snow Line', null] as const

/** Name, consequence, months, days from today on which it falls due (null: no date), and one well in how many. */
const DUTIES: [string, Consequence, number | null, number | null, number][] = [
  ['Bacteria sample', 'health', 12, -400, 2],
  ['Nitrate sample', 'health', 12, -1, 3],
  ['Measure static level', 'supply', 3, 0, 2],
  ['Change sediment cartridge', 'supply', 6, 7, 2],
  ['Recovery test', 'supply', 12, -400, 4],
  ['Check motor brushes', 'wear', 12, 8, 3],
  ['Clean out tank', 'health', 36, 30, 3],
  ['Replace motor brushes', 'wear', 12, 31, 2],
  ['Own inspection', 'wear', null, null, 3],
]

let db: Db
let all: DueRow[]
let ownerIds: string[]

/** Bulk days are chosen so that many items share a day: the order must then rest on rank and id. */
beforeAll(async () => {
  db = await freshDb()
  const wells: string[] = []
  for (let i = 0; i < 30; i += 1) {
    const fields = {
      ...bareWell(`W${String(i).padStart(2, '0')}`),
      ownerName: OWNERS[i % 3] ?? null,
      area: AREAS[Math.floor(i / 3) % 3] ?? null,
    }
    const outcome = await createWell(db, installer, fields, AT)
    if (outcome.kind !== 'stored') throw new Error(outcome.kind)
    wells.push(outcome.id)
  }
  for (const [name, consequence, everyMonths, inDays, each] of DUTIES) {
    const chosen = wells.filter((_, i) => i % each === 0)
    await addDutyToWells(db, installer, chosen, dutyDue(name, consequence, everyMonths, inDays), AT)
  }
  all = readAll()
  ownerIds = [...new Set(all.flatMap((row) => visibleWell(db, installer, row.wellId)?.ownerId ?? []))]
})

function dutyDue(name: string, consequence: Consequence, everyMonths: number | null, inDays: number | null) {
  return {
    key: name.toLowerCase().replaceAll(' ', '-'),
    name,
    consequence,
    everyMonths,
    everyRunS: null,
    everyM3: null,
    condition: null,
    conditionLimitSi: null,
    lastDoneOn: inDays === null ? null : monthsBefore(addDays(TODAY, inDays), everyMonths ?? 0),
    typed: {},
  }
}

/** Days of these tests lie on no month's end, so that months can be counted back by hand. */
function monthsBefore(day: string, months: number): string {
  const count = Number(day.slice(0, 4)) * 12 + Number(day.slice(5, 7)) - 1 - months
  return `${Math.floor(count / 12)}-${String((count % 12) + 1).padStart(2, '0')}${day.slice(7)}`
}

/** Every item, whatever its group. */
function readAll(): DueRow[] {
  const ids = db.sqlite.prepare('SELECT "id" FROM "DueItem"').pluck().all().map(String)
  return dueItems(db, installer, ids)
}

/** What one group must hold, worked out without any of the code under test. */
function expected(urgency: Urgency, filter: DueFilter, viewer: Viewer): string[] {
  const inGroup = (day: string | null) => {
    if (day === null) return urgency === 'unknown'
    const days = Math.round((Date.parse(day) - Date.parse(TODAY)) / 86_400_000)
    if (days < 0) return urgency === 'past'
    return urgency === (days <= 7 ? 'week' : days <= 30 ? 'month' : 'later')
  }
  const names = { health: 1, supply: 2, wear: 3 }
  const rows = all.filter((row) => {
    const ownerId = visibleWell(db, installer, row.wellId)?.ownerId ?? null
    if (viewer.role === 'owner' && !viewer.ownerIds.includes(ownerId ?? '')) return false
    if (filter.ownerId !== undefined && ownerId !== filter.ownerId) return false
    if (filter.dutyKey !== undefined && row.dutyKey !== filter.dutyKey) return false
    if (filter.area !== undefined && row.area !== filter.area) return false
    if (filter.consequence !== undefined && row.rank !== names[filter.consequence]) return false
    const day = row.dueOn ?? '9999-12-31'
    if (filter.from !== undefined && day < filter.from) return false
    if (filter.to !== undefined && day > filter.to) return false
    return inGroup(row.dueOn)
  })
  const order = (row: DueRow) =>
    urgency === 'past' ? `${row.rank} ${row.dueOn} ${row.id}` : `${row.dueOn} ${row.rank} ${row.id}`
  return rows.sort((a, b) => (order(a) < order(b) ? -1 : 1)).map((row) => row.id)
}

function walk(viewer: Viewer, urgency: Urgency, filter: DueFilter, size: number): string[] {
  const ids: string[] = []
  let cursor: string | null = null
  for (let page = 0; page < 500; page += 1) {
    const { rows, next } = duePage(db, viewer, TODAY, urgency, filter, cursor, size)
    expect(rows.length).toBeLessThanOrEqual(size)
    ids.push(...rows.map((row) => row.id))
    if (next === null) return ids
    cursor = next
  }
  throw new Error('the pages do not end')
}

describe('the due list', () => {
  test('has every group filled, so that the tests below look at something', () => {
    for (const urgency of URGENCIES)
      expect(expected(urgency, {}, installer).length, urgency).toBeGreaterThan(4)
  })

  test('shows every item exactly once and in order, whatever the group, the filter and the page', () => {
    const maybe = <T>(values: readonly T[]) => fc.option(fc.constantFrom(...values), { nil: undefined })
    const filters = fc.record({
      dutyKey: maybe([...new Set(all.map((row) => row.dutyKey)), 'no-such-duty']),
      ownerId: maybe([...ownerIds, 'no-such-owner']),
      area: maybe(['Mill Reach', 'Snow Line', 'Nowhere']),
      consequence: maybe(['health', 'supply', 'wear'] as const),
      from: maybe([addDays(TODAY, -30), TODAY, addDays(TODAY, 8)]),
      to: maybe([addDays(TODAY, -300), TODAY, addDays(TODAY, 30)]),
    })
    fc.assert(
      fc.property(
        fc.constantFrom(...URGENCIES),
        filters,
        fc.integer({ min: 1, max: 9 }),
        (urgency, filter, size) => {
          expect(walk(installer, urgency, filter, size)).toEqual(expected(urgency, filter, installer))
        },
      ),
      { numRuns: 300 },
    )
  })

  test.each(URGENCIES)('pages the whole group "%s" one by one without a filter', (urgency) => {
    expect(walk(technician, urgency, {}, 1)).toEqual(expected(urgency, {}, technician))
  })

  test('shows an owner the items of their own wells and no others, however the filter asks', () => {
    const [mine = '', foreign = ''] = ownerIds
    for (const urgency of URGENCIES) {
      expect(walk(owner(mine), urgency, {}, 4)).toEqual(expected(urgency, {}, owner(mine)))
      expect(walk(owner(mine), urgency, { ownerId: foreign }, 4)).toEqual([])
      expect(walk(owner(null), urgency, {}, 4)).toEqual([])
    }
  })

  test('starts anew on a cursor that nobody handed out', () => {
    const first = duePage(db, installer, TODAY, 'past', {}, null, 3)
    for (const cursor of ["1~2026-01-01~' OR 1=1", '', '9~x~y', '1~2026-01-01~']) {
      expect(duePage(db, installer, TODAY, 'past', {}, cursor, 3)).toEqual(first)
    }
  })

  test('counts what it shows, by the same filter and for the same eyes', () => {
    const [mine = ''] = ownerIds
    const filters: DueFilter[] = [{}, { consequence: 'health' }, { area: 'Snow Line' }, { from: TODAY }]
    for (const viewer of [installer, owner(mine), owner(null)]) {
      for (const filter of filters) {
        const counts = dueCounts(db, viewer, TODAY, filter)
        for (const urgency of URGENCIES) {
          expect(counts[urgency]).toBe(expected(urgency, filter, viewer).length)
        }
      }
    }
  })
})

describe('what goes with the list', () => {
  test('the overview tells past due by consequence and the first duty ahead', () => {
    const overview = dueOverview(db, installer, TODAY)
    for (const consequence of ['health', 'supply', 'wear'] as const) {
      expect(overview.past[consequence]).toBe(expected('past', { consequence }, installer).length)
    }
    expect(overview.next?.id).toBe(expected('week', {}, installer)[0])
    expect(dueOverview(db, owner(null), TODAY)).toMatchObject({ week: 0, unknown: 0, next: null })
  })

  test('a sheet groups chosen items by well, once each, and leaves out what is not for these eyes', () => {
    const [mine = ''] = ownerIds
    const ids = all.map((row) => row.id)
    const stops = dueSheet(db, installer, [...ids, ...ids, 'no-such-item'])
    const chosen = new Set(stops.flatMap((stop) => stop.items.map((item) => item.id)))
    expect(stops.flatMap((stop) => stop.items)).toHaveLength(chosen.size)
    expect(stops.map((stop) => stop.well.label)).toEqual([...stops.map((stop) => stop.well.label)].sort())
    for (const { well, items } of stops) for (const item of items) expect(item.wellId).toBe(well.id)
    for (const { well } of dueSheet(db, owner(mine), ids)) expect(well.ownerId).toBe(mine)
  })

  test('the filter offers to the outfit what there is, and to an owner nothing of the fleet', () => {
    const facets = dueFacets(db, technician)
    // No well here was ever sampled: what no duty says stands as one item of the water.
    const names = [...DUTIES.map(([name]) => name), 'First water test']
    expect(facets.duties.map((duty) => duty.name).sort()).toEqual(names.sort())
    expect(facets.areas).toEqual(['Mill Reach', 'Snow Line'])
    expect(dueFacets(db, owner(ownerIds[0] ?? null))).toEqual({ duties: [], areas: [], owners: [] })
  })

  test('counting stops at its limit', async () => {
    const many = await freshDb()
    const well = await createWell(many, installer, bareWell('W1'), AT)
    if (well.kind !== 'stored') throw new Error(well.kind)
    const insert = many.sqlite.prepare(
      'INSERT INTO "DueItem" ("id","wellId","dutyKey","dutyName","rank","dueOn","reason") VALUES (?,?,?,?,1,?,?)',
    )
    for (let i = 0; i < COUNT_MAX + 5; i += 1) insert.run(newId(), well.id, 'x', 'X', '2020-01-01', 'because')
    expect(dueCounts(many, installer, TODAY, {}).past).toBe(COUNT_MAX)
  })
})
