import fc from 'fast-check'
import { beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { OUTFIT, type Viewer } from '@/lib/access/viewer'
import type { Standing } from '@/lib/domain/logbook/appraise'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import { isStale } from '@/lib/domain/water/standing-words'
import type { VerdictWord } from '@/lib/domain/water/types'
import { leastOddsCalled } from '@/lib/domain/yield/decline/fleet'
import type { YieldCause } from '@/lib/domain/yield/decline/types'
import type { Db } from '@/lib/records/db'
import { rebuild } from '@/lib/records/rebuild'
import type { WellRow } from '@/lib/records/rows'
import { putStanding, standingRow } from '@/lib/records/standing-rows'
import { standingOf } from '@/lib/records/standings'
import {
  WATER_GROUPS,
  type WaterFilter,
  type WaterGroup,
  waterCounts,
  waterPage,
} from '@/lib/records/water-fleet'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { fleetCalls, type YieldFilter, yieldPage } from '@/lib/records/yield-list'
import { freshDb } from '../setup/fresh-db'
import { installer, owner } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const WELLS = 36
const AREAS = ['Mill Reach', 'Snow Line', null] as const
const CAUSES: YieldCause[] = ['well', 'water-table', 'pump', 'steady', 'unclear']
const VERDICTS: VerdictWord[] = ['meets', 'exceeds', 'inconclusive', 'not-tested']

/** What is dealt out to one well: the lists must make of it what a plain reading of the same facts makes. */
type Dealt = {
  owner: number
  area: (typeof AREAS)[number]
  retired: boolean
  verdict: VerdictWord
  asOf: Day | null
  chain: { key: string; openedOn: Day } | null
  cause: YieldCause
  called: boolean
  suspicion: number
  odds: number
}

// Few different days and suspicions, so that ties fall on the edges of pages.
const day = fc.integer({ min: 0, max: 12 }).map((n) => addDays(TODAY, -n * 61))
const dealt: fc.Arbitrary<Dealt> = fc.record({
  owner: fc.nat({ max: 2 }),
  area: fc.constantFrom(...AREAS),
  retired: fc.integer({ min: 0, max: 9 }).map((n) => n === 0),
  verdict: fc.constantFrom(...VERDICTS),
  asOf: fc.option(day),
  chain: fc.option(
    fc.record({
      key: fc.constantFrom('bacteria', 'nitrate', 'arsenic', 'lead'),
      openedOn: day,
    }),
  ),
  cause: fc.constantFrom(...CAUSES),
  called: fc.boolean(),
  suspicion: fc.integer({ min: 0, max: 6 }).map((n) => n / 6),
  odds: fc.double({ min: -1, max: 12, noNaN: true }).map((power) => 10 ** power),
})
const fleet = fc.array(dealt, { minLength: WELLS, maxLength: WELLS })

let db: Db
let blank: { well: WellRow; standing: Standing }[] = []
let owners: (string | null)[] = []

beforeAll(async () => {
  db = await freshDb()
  for (let i = 0; i < WELLS; i += 1) {
    const ownerName = ['Orla Finch', 'Sorrel School'][i % 2] ?? null
    await createWell(db, installer, { ...bareWell(`W${i}`), ownerName }, AT)
  }
  const rows = db.sqlite.prepare<[], WellRow>('SELECT * FROM "Well" ORDER BY "id"').all()
  blank = rows.flatMap((well) => {
    const standing = standingOf(db.sqlite, well.id)
    return standing ? [{ well, standing }] : []
  })
  owners = [...new Set(rows.map((well) => well.ownerId)), null]
})

beforeEach(() => {
  expect(blank).toHaveLength(WELLS)
  expect(owners).toHaveLength(3)
})

type Known = Dealt & { id: string; ownerId: string | null }

/** Stores the dealt standings by the way of every write, and answers them by well. */
function store(hand: readonly Dealt[]): Known[] {
  return db.sqlite.transaction(() => hand.map(storeOne))()
}

function storeOne(one: Dealt, i: number): Known {
  const base = blank[i]
  if (!base) throw new Error('more dealt than there are wells')
  const ownerId = owners[one.owner] ?? null
  const well = { ...base.well, ownerId, area: one.area, retiredOn: one.retired ? TODAY : null }
  const chains = one.chain
    ? [{ ...one.chain, name: '', next: '', earliest: null, notice: 'boil' as const, fault: null }]
    : []
  putStanding(
    db.sqlite,
    standingRow(
      well,
      {
        ...base.standing,
        water: { ...base.standing.water, verdict: one.verdict, asOf: one.asOf, chains },
        yield: {
          ...base.standing.yield,
          cause: one.cause,
          flag: one.called,
          suspicion: one.suspicion,
          declineOdds: one.odds,
        },
      },
      1,
    ),
    'known',
  )
  return { ...one, id: well.id, ownerId }
}

/** The group by the words of the list: an open chain first, then no sample at all, then the verdict and its age. */
function groupOf({ chain, asOf, verdict }: Dealt): WaterGroup {
  if (chain) return 'chain'
  if (asOf === null) return 'never'
  if (verdict === 'not-tested') return 'gaps'
  if (verdict !== 'meets') return verdict
  return isStale(asOf, TODAY) ? 'stale' : 'meets'
}

/** What a group is ordered by: bacteria, nitrate, all else; the longest ago first; then the id. */
function orderOf({ chain, asOf, id }: Known): string {
  const rank = chain ? ['bacteria', 'nitrate'].indexOf(chain.key) : 0
  return `${rank < 0 ? 2 : rank} ${chain?.openedOn ?? asOf ?? ''} ${id}`
}

function pages<T extends { rows: { wellId: string }[]; next: string | null }>(
  ask: (cursor: string | null) => T,
  size: number,
): string[] {
  const seen: string[] = []
  let cursor: string | null = null
  do {
    const page: T = ask(cursor)
    expect(page.rows.length).toBeLessThanOrEqual(size)
    seen.push(...page.rows.map((row) => row.wellId))
    cursor = page.next
  } while (cursor !== null && seen.length <= WELLS)
  return seen
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)

const filters = (): WaterFilter[] =>
  [undefined, owners[0] ?? '', owners[1] ?? '', 'nobody'].flatMap((ownerId) =>
    [undefined, 'Mill Reach', 'Nowhere'].map((area) => ({
      ...(ownerId === undefined ? {} : { ownerId }),
      ...(area === undefined ? {} : { area }),
    })),
  )

describe('lists of a fleet, against a plain reading of the same standings', () => {
  test('every listed well is in one group of the water list, once and in order, under every filter and for every viewer', () => {
    fc.assert(
      fc.property(fleet, fc.integer({ min: 1, max: 9 }), (hand, size) => {
        const wells = store(hand).filter((well) => !well.retired)
        for (const viewer of [installer, owner(owners[0] ?? null)]) {
          for (const filter of filters()) {
            const wanted = wells.filter((well) => seenBy(viewer, well) && passes(filter, well))
            const counts = waterCounts(db, viewer, TODAY, filter)
            for (const group of WATER_GROUPS) {
              const inGroup = wanted.filter((well) => groupOf(well) === group)
              const order = inGroup.map((well) => orderOf(well)).sort(compare)
              const ids = pages((at) => waterPage(db, viewer, TODAY, group, filter, at, size), size)
              expect(ids, `${group} ${JSON.stringify(filter)}`).toEqual(order.map((key) => key.slice(-36)))
              expect(counts[group]).toBe(inGroup.length)
            }
          }
        }
      }),
      { numRuns: 12 },
    )
  })

  test('the yield list shows what its filters ask for, once and in order', () => {
    const asked: YieldFilter[] = [undefined, 'Mill Reach', 'Nowhere'].flatMap((area) =>
      [undefined, ...CAUSES].flatMap((cause) =>
        [false, true].map((called) => ({
          ...(area === undefined ? {} : { area }),
          ...(cause === undefined ? {} : { cause }),
          called,
        })),
      ),
    )
    fc.assert(
      fc.property(fleet, fc.integer({ min: 1, max: 9 }), (hand, size) => {
        const wells = store(hand).filter((well) => !well.retired)
        for (const filter of asked) {
          const wanted = wells
            .filter((well) => filter.area === undefined || well.area === filter.area)
            .filter((well) => filter.cause === undefined || well.cause === filter.cause)
            .filter((well) => !filter.called || well.called)
            .sort((a, b) => b.suspicion - a.suspicion || compare(b.id, a.id))
          const ids = pages((at) => yieldPage(db, OUTFIT, filter, at, size), size)
          expect(ids, JSON.stringify(filter)).toEqual(wanted.map((well) => well.id))
        }
      }),
      { numRuns: 12 },
    )
  })

  test('the calls that hold are those from the odds of all called wells, through every change of standing', () => {
    let held = 0
    fc.assert(
      fc.property(fleet, (hand) => {
        const wells = store(hand).filter((well) => !well.retired)
        const odds = wells.filter((well) => well.called).map((well) => well.odds)
        const calls = fleetCalls(db, installer)
        const leastOdds = leastOddsCalled(odds, wells.length, calls.share)
        const wanted = odds.filter((one) => leastOdds !== null && one >= leastOdds).length
        expect(calls).toMatchObject({
          listed: wells.length,
          flagged: odds.length,
          leastOdds,
          held: wanted,
        })
        held += wanted
      }),
      { numRuns: 60 },
    )
    expect(held).toBeGreaterThan(0)
  })

  test('a rebuild of all standings counts the fleet anew', async () => {
    db.sqlite.exec('UPDATE "FleetTally" SET "n" = 7777')
    await rebuild(db, 'all')
    expect(fleetCalls(db, installer)).toMatchObject({ listed: WELLS, flagged: 0, held: 0, leastOdds: null })
  })
})

const seenBy = (viewer: Viewer, well: Known) =>
  viewer.role !== 'owner' || viewer.ownerIds.includes(well.ownerId ?? '')

const passes = ({ ownerId, area }: WaterFilter, well: Known) =>
  (ownerId === undefined || well.ownerId === ownerId) && (area === undefined || well.area === area)
