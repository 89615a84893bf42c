import { beforeAll, describe, expect, test } from 'vitest'
import type { YieldSummary } from '@/lib/domain/logbook/yield-summary'
import { callsAcrossFleet } from '@/lib/domain/yield/decline/fleet'
import type { YieldCause } from '@/lib/domain/yield/decline/types'
import type { Db } from '@/lib/records/db'
import { bareWell } from '@/lib/records/well-fields'
import { wellList } from '@/lib/records/well-list'
import { wellYield } from '@/lib/records/well-yield'
import { createWell, updateWell, visibleWell, wellPage } from '@/lib/records/wells'
import { causeCounts, fleetCalls, type YieldFilter, yieldPage } from '@/lib/records/yield-list'
import { loadDemo } from '@/seed'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const CAUSES: YieldCause[] = ['well', 'water-table', 'pump', 'steady', 'unclear']

let db: Db
let ids: string[]
beforeAll(async () => {
  db = await freshDb()
  await loadDemo(db, AT, TODAY)
  ids = wellList(db, installer, {}, null, 500).rows.map((row) => row.id)
  for (const id of ids) {
    const standing = wellPage(db, installer, id)?.standing
    if (standing) stored.set(id, standing.yield)
  }
})

const stored = new Map<string, YieldSummary>()

function standingOf(id: string): YieldSummary {
  const standing = stored.get(id)
  if (!standing) throw new Error('a well without a standing')
  return standing
}

/** What a filter must find, worked out well by well without the lists under test. */
function expected({ area, cause, called }: YieldFilter): string[] {
  return ids
    .filter((id) => area === undefined || visibleWell(db, installer, id)?.area === area)
    .filter((id) => cause === undefined || standingOf(id).cause === cause)
    .filter((id) => !called || standingOf(id).flag)
    .sort((a, b) => standingOf(b).suspicion - standingOf(a).suspicion || (a < b ? 1 : -1))
}

function walk(filter: YieldFilter, size: number): string[] {
  const found: string[] = []
  let cursor: string | null = null
  for (let page = 0; page < 200; page += 1) {
    const { rows, next } = yieldPage(db, technician, filter, cursor, size)
    expect(rows.length).toBeLessThanOrEqual(size)
    found.push(...rows.map((row) => row.wellId))
    if (next === null) return found
    cursor = next
  }
  throw new Error('the pages do not end')
}

describe('the fleet by yield', () => {
  test.each<YieldFilter>([
    {},
    ...CAUSES.map((cause) => ({ cause })),
    { area: 'Red Clay Lane' },
    { area: 'Red Clay Lane', cause: 'well' },
    { called: true },
    { area: 'Nowhere' },
  ])('shows every well of %o once, the likeliest loss first, whatever the page', (filter) => {
    for (const size of [1, 7, 100]) expect(walk(filter, size)).toEqual(expected(filter))
  })

  test('starts anew on a cursor that nobody handed out', () => {
    const first = yieldPage(db, installer, {}, null, 3)
    for (const cursor of ['', "0.5~' OR 1=1", 'x~y', `1e9999~${ids[0]}`]) {
      expect(yieldPage(db, installer, {}, cursor, 3)).toEqual(first)
    }
  })

  test('counts its causes, and is nothing at all to an owner', () => {
    const counts = causeCounts(db, technician)
    for (const cause of CAUSES) expect(counts[cause], cause).toBe(expected({ cause }).length)
    const own = owner(visibleWell(db, installer, ids[0] ?? '')?.ownerId ?? null)
    expect(own.ownerIds).toHaveLength(1)
    expect(yieldPage(db, own, {}, null, 50)).toEqual({ rows: [], next: null })
    expect(Object.values(causeCounts(db, own))).toEqual([0, 0, 0, 0, 0])
    expect(fleetCalls(db, own)).toMatchObject({ listed: 0, flagged: 0, held: 0 })
  })

  test('calls over the fleet what the reckoning of all its wells calls', () => {
    const calls = fleetCalls(db, installer)
    const wells = ids.map((id) => ({
      well: id,
      standing: { ...standingOf(id), evidence: wellYield(db, installer, id)?.standing.evidence },
    }))
    const whole = wells.flatMap(({ well, standing: { evidence, ...rest } }) =>
      evidence ? [{ well, standing: { ...rest, evidence } }] : [],
    )
    expect(whole).toHaveLength(64)
    const called = callsAcrossFleet(whole, calls.share)
    expect(calls).toMatchObject({
      listed: 64,
      flagged: expected({ called: true }).length,
      held: called.length,
    })
    expect(called.length).toBeGreaterThan(0)
    for (const { standing } of called) {
      expect(standing.evidence.declineOdds).toBeGreaterThanOrEqual(
        calls.leastOdds ?? Number.POSITIVE_INFINITY,
      )
    }
  })

  test('lets a retired well go, and follows a well into another area', async () => {
    const small = await freshDb()
    const made = await createWell(small, installer, { ...bareWell('W1'), area: 'Mill Reach' }, AT)
    if (made.kind !== 'stored') throw new Error(made.kind)
    const areaOf = (area: string) => yieldPage(small, installer, { area }, null, 9).rows.length
    expect(areaOf('Mill Reach')).toBe(1)
    await updateWell(small, installer, made.id, 1, { ...bareWell('W1'), area: 'Snow Line' }, AT)
    expect([areaOf('Mill Reach'), areaOf('Snow Line')]).toEqual([0, 1])
    const retired = { ...bareWell('W1'), area: 'Snow Line', retiredOn: TODAY }
    await updateWell(small, installer, made.id, 2, retired, AT)
    expect(areaOf('Snow Line')).toBe(0)
    expect(fleetCalls(small, installer).listed).toBe(0)
  })
})

describe('the yield of one well', () => {
  test('reckoned in full says what its stored summary says', () => {
    for (const id of ids.slice(0, 12)) {
      const full = wellYield(db, technician, id)?.standing
      const { sentence, cause, flag, suspicion, outlook } = standingOf(id)
      expect(full).toMatchObject({ sentence, cause, flag, suspicion, outlook })
    }
  })

  test('is there for nobody who may not see the well', () => {
    const [id = ''] = ids
    expect(wellYield(db, owner(null), id)).toBeNull()
    expect(wellYield(db, owner('another household'), id)).toBeNull()
    expect(wellYield(db, installer, 'no such well')).toBeNull()
  })
})
