import { beforeAll, describe, expect, test } from 'vitest'
import type { Viewer } from '@/lib/access/viewer'
import type { Fact } from '@/lib/domain/logbook/kinds'
import type { Db } from '@/lib/records/db'
import { duePage } from '@/lib/records/due-list'
import { dueSheet } from '@/lib/records/due-sheet'
import { newId } from '@/lib/records/ids'
import { record } from '@/lib/records/record'
import { samplesDue, samplesDueCount } from '@/lib/records/sample-due'
import {
  WATER_GROUPS,
  type WaterFilter,
  type WaterGroup,
  waterCounts,
  waterPage,
} from '@/lib/records/water-fleet'
import { bareWell } from '@/lib/records/well-fields'
import { wellList } from '@/lib/records/well-list'
import { openChains, wellWater } from '@/lib/records/well-water'
import { createWell, visibleWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const OWNERS = ['Orla Finch', 'Sorrel School', null] as const
const AREAS = ['Mill Reach', 'Snow Line'] as const

const CLEAR = [
  { analyte: 'Total coliform', result: 'Absent' },
  { analyte: 'E. coli', result: 'Absent' },
  { analyte: 'Nitrate as N', result: '1.2', unit: 'mg/L' },
]
const GERMS = [
  { analyte: 'Total coliform', result: '18.9', unit: 'MPN/100 mL' },
  { analyte: 'E. coli', result: 'Absent' },
]

function sheet(
  day: string,
  results: Extract<Fact, { kind: 'sample' }>['results'],
  received = `${day}T15:00`,
): Fact {
  return { kind: 'sample', sampledAt: `${day}T09:00`, receivedAt: received, results }
}

/** Kinds of wells, what is written in their logbooks, and the group each belongs in, by reason and not by the code. */
const KINDS: readonly { group: WaterGroup; lines: (i: number) => [string, Fact][] }[] = [
  { group: 'never', lines: () => [] },
  { group: 'meets', lines: (i) => [[`2026-06-${10 + (i % 9)}`, sheet(`2026-06-${10 + (i % 9)}`, CLEAR)]] },
  { group: 'stale', lines: (i) => [[`2024-06-${10 + (i % 9)}`, sheet(`2024-06-${10 + (i % 9)}`, CLEAR)]] },
  // Seventy-two hours from tap to counter: too old to say anything of bacteria.
  {
    group: 'inconclusive',
    lines: (i) => [
      [`2026-05-${10 + (i % 9)}`, sheet(`2026-05-${10 + (i % 9)}`, CLEAR, `2026-05-${13 + (i % 9)}T09:00`)],
    ],
  },
  { group: 'gaps', lines: () => [['2026-05-12', sheet('2026-05-12', CLEAR.slice(2))]] },
  // Clear before the flood: nothing is known of the water since.
  {
    group: 'gaps',
    lines: () => [
      ['2026-05-12', sheet('2026-05-12', CLEAR)],
      ['2026-07-01', { kind: 'event', event: 'flooded' }],
    ],
  },
  // The last sheet is young, the last bacteria are of sixteen months before: the nitrate does not make them younger.
  {
    group: 'stale',
    lines: () => [
      ['2025-07-01', sheet('2025-07-01', CLEAR)],
      ['2026-09-12', sheet('2026-09-12', CLEAR.slice(2))],
    ],
  },
  { group: 'chain', lines: (i) => [[`2026-09-${10 + (i % 9)}`, sheet(`2026-09-${10 + (i % 9)}`, GERMS)]] },
  {
    group: 'chain',
    lines: () => [
      [
        '2026-08-02',
        sheet('2026-08-02', [...CLEAR.slice(0, 2), { analyte: 'Nitrate as N', result: '14', unit: 'mg/L' }]),
      ],
    ],
  },
  // Ended by a person while the water still stands above its limit.
  {
    group: 'exceeds',
    lines: () => [
      [
        '2026-07-02',
        sheet('2026-07-02', [...CLEAR.slice(0, 2), { analyte: 'Nitrate as N', result: '12', unit: 'mg/L' }]),
      ],
      [
        '2026-07-09',
        { kind: 'water-step', step: 'chain-closed', by: 'Maren', reason: 'House has its own supply now' },
      ],
    ],
  },
]

let db: Db
/** Wells by the group that they belong in. */
const wells: { id: string; group: WaterGroup; ownerId: string | null; area: string }[] = []

const draft = (wellId: string, occurredOn: string, payload: Fact) => ({
  id: newId(),
  wellId,
  visitId: newId(),
  occurredOn,
  occurredTime: null,
  byName: 'Maren',
  supersedes: null,
  withdraws: null,
  payload,
})

async function write(wellId: string, day: string, fact: Fact, viewer: Viewer = installer) {
  return record(db, viewer, [draft(wellId, day, fact)], AT, TODAY)
}

beforeAll(async () => {
  db = await freshDb()
  for (let i = 0; i < 48; i += 1) {
    const kind = KINDS[i % KINDS.length]
    const area = AREAS[Math.floor(i / KINDS.length) % 2] ?? ''
    const fields = { ...bareWell(`W${String(i).padStart(2, '0')}`), ownerName: OWNERS[i % 3] ?? null, area }
    const made = await createWell(db, installer, fields, AT)
    if (made.kind !== 'stored' || !kind) throw new Error(made.kind)
    for (const [day, fact] of kind.lines(i)) expect((await write(made.id, day, fact)).kind).toBe('stored')
    wells.push({
      id: made.id,
      group: kind.group,
      ownerId: visibleWell(db, installer, made.id)?.ownerId ?? null,
      area,
    })
  }
})

/** All pages of a group, read three rows at a time. */
function readAll(group: WaterGroup, viewer: Viewer, filter: WaterFilter): string[] {
  const seen: string[] = []
  let cursor: string | null = null
  do {
    const page = waterPage(db, viewer, TODAY, group, filter, cursor, 3)
    expect(page.rows.length).toBeLessThanOrEqual(3)
    seen.push(...page.rows.map((row) => row.wellId))
    cursor = page.next
  } while (cursor !== null)
  return seen
}

describe('the water of the fleet', () => {
  const ownerIds = () => [...new Set(wells.flatMap((well) => well.ownerId ?? []))]
  const cases = (): [Viewer, WaterFilter][] => [
    [installer, {}],
    [technician, { area: 'Mill Reach' }],
    [installer, { ownerId: ownerIds()[0] }],
    [owner(ownerIds()[1] ?? null), {}],
    [owner(ownerIds()[1] ?? null), { ownerId: ownerIds()[0] }],
    [owner(...ownerIds().slice(0, 2)), {}],
    [owner(...ownerIds().slice(0, 2)), { ownerId: ownerIds()[2] }],
    [owner(null), {}],
  ]

  test('shows every well exactly once, in the one group it belongs in, whatever the filter, the page and the eyes', () => {
    for (const [viewer, filter] of cases()) {
      const counts = waterCounts(db, viewer, TODAY, filter)
      for (const group of WATER_GROUPS) {
        const wanted = wells.filter(
          (well) =>
            well.group === group &&
            (filter.area === undefined || well.area === filter.area) &&
            (filter.ownerId === undefined || well.ownerId === filter.ownerId) &&
            (viewer.role !== 'owner' || viewer.ownerIds.includes(well.ownerId ?? '')),
        )
        const seen = readAll(group, viewer, filter)
        expect([...seen].sort(), `${group} for ${viewer.role}`).toEqual(wanted.map((well) => well.id).sort())
        expect(counts[group]).toBe(wanted.length)
      }
    }
  })

  test('puts bacteria before nitrate, and the longest open first', () => {
    const rows = waterPage(db, installer, TODAY, 'chain', {}, null, 100).rows
    const order = rows.map(({ water }) => `${water.chains[0]?.key} ${water.chains[0]?.openedOn}`)
    expect(order).toEqual([...order].sort())
    expect(order[0]).toMatch(/^bacteria/)
    expect(order.at(-1)).toBe('nitrate 2026-08-02')
  })

  test('a cursor that was tampered with begins anew, and reaches nothing foreign', () => {
    const [first] = waterPage(db, installer, TODAY, 'meets', {}, null, 1).rows
    for (const cursor of ["0~2026-01-01~' OR 1=1", '7~2026-01-01~x', '~~', 'zz'])
      expect(waterPage(db, installer, TODAY, 'meets', {}, cursor, 1).rows[0]?.wellId).toBe(first?.wellId)
    expect(
      waterPage(db, owner(null), TODAY, 'meets', {}, '0~2020-01-01~00000000-0000-0000-0000-000000000000', 9)
        .rows,
    ).toEqual([])
  })

  test('samples due are those of tests, not steps of chains, by date and paged through', () => {
    const seen: string[] = []
    let cursor: string | null = null
    do {
      const page = samplesDue(db, installer, TODAY, {}, cursor, 4)
      seen.push(...page.rows.map((row) => `${row.dueOn} ${row.id}`))
      expect(page.rows.every((row) => !row.dutyKey.startsWith('water-chain-'))).toBe(true)
      cursor = page.next
    } while (cursor !== null)
    const horizon = '2026-12-20'
    const all = db.sqlite
      .prepare(
        `SELECT "dueOn" || ' ' || "id" FROM "DueItem" WHERE "dutyKey" LIKE 'water-test-%' AND "dueOn" <= ? ORDER BY 1`,
      )
      .pluck()
      .all(horizon)
    expect(all.length).toBeGreaterThan(4)
    expect(seen).toEqual(all)
    expect(samplesDueCount(db, installer, TODAY, {})).toBe(all.length)
    expect(samplesDue(db, owner(null), TODAY, {}, null, 9).rows).toEqual([])
  })
})

describe('an open chain', () => {
  const of = (group: WaterGroup) => wells.find((well) => well.group === group)?.id ?? ''

  test('is told in the wells list, in the due list and on the printed sheet, and of no other well', () => {
    const inChain = new Set(wells.filter((well) => well.group === 'chain').map((well) => well.id))
    const listed = wellList(db, installer, {}, null, 100).rows
    expect(new Set(listed.filter((row) => row.chain !== null).map((row) => row.id))).toEqual(inChain)
    const due = duePage(db, installer, TODAY, 'past', {}, null, 200).rows
    expect(due.some((row) => row.chain !== null)).toBe(true)
    for (const row of due) expect(row.chain !== null, row.label).toBe(inChain.has(row.wellId))
    const stops = dueSheet(
      db,
      installer,
      due.map((row) => row.id),
    )
    for (const stop of stops) expect(stop.chains.length > 0).toBe(inChain.has(stop.well.id))
  })

  test('is seen by the household of the well and by no other owner', () => {
    const mine = wells.find((well) => well.group === 'chain' && well.ownerId !== null)
    const other = wells.find((well) => well.ownerId !== null && well.ownerId !== mine?.ownerId)
    expect(openChains(db, owner(mine?.ownerId ?? null), mine?.id ?? '')).toHaveLength(1)
    expect(openChains(db, owner(other?.ownerId ?? null), mine?.id ?? '')).toEqual([])
    expect(wellWater(db, owner(other?.ownerId ?? null), mine?.id ?? '')).toBeNull()
    expect(wellWater(db, owner(mine?.ownerId ?? null), mine?.id ?? '')?.mayClose).toBe(false)
  })

  test('is ended by a person only if that person is an installer, in a line of their own or in a correction', async () => {
    const wellId = of('chain')
    const close: Fact = {
      kind: 'water-step',
      step: 'chain-closed',
      by: 'Joss',
      reason: 'It looks clear to me',
    }
    const household = owner(visibleWell(db, installer, wellId)?.ownerId ?? null)
    for (const viewer of [technician, household])
      expect((await write(wellId, TODAY, close, viewer)).kind, viewer.role).not.toBe('stored')
    const note = draft(wellId, TODAY, { kind: 'note', text: 'All quiet' })
    expect((await record(db, technician, [note], AT, TODAY)).kind).toBe('stored')
    const correction = {
      ...draft(wellId, TODAY, { kind: 'note', text: '' }),
      supersedes: note.id,
      payload: {
        kind: 'correction',
        reason: 'slip',
        occurredOn: TODAY,
        occurredTime: null,
        replacement: close,
      },
    }
    const refused = await record(db, technician, [correction], AT, TODAY)
    expect(refused.kind).toBe('refused')
    expect(openChains(db, installer, wellId)).toHaveLength(1)
    expect((await write(wellId, TODAY, close)).kind).toBe('stored')
    expect(openChains(db, installer, wellId)).toEqual([])
    expect(wellWater(db, installer, wellId)?.water.verdict).not.toBe('meets')
  })
})
