import { type Day, yearsSince } from '@/lib/domain/quantity/day'
import type { CapacityRow } from './capacity'
import { appraiseFlow, type FlowLevel } from './flow'
import { mendReadings, type Reading } from './mend'
import { CAPACITY } from './priors'
import type { YieldEvent, YieldVisit, YieldWell } from './types'
import { medianOf, type Vector, vectorOf } from './vector'
import { appraiseTable, type WaterTable } from './water-table'

/** A well's record made ready for reckoning: slips mended, missing statics filled in, stretches told apart. */
export type WellRecord = {
  origin: Day
  years: Vector
  readings: Reading[]
  table: WaterTable
  flow: FlowLevel
  /** Rows of capacity for each stretch between rehabilitations, the present one last. */
  stretches: { since: Day; sinceYears: number; rows: CapacityRow[] }[]
  /** Visits where pump or levels were read, whether used or not. */
  has: { flow: number; statics: number; drawdowns: number; fitted: number }
  pumpReplacedOn: Day | null
  /** Bottom of the water-bearing column and its usual thickness, m. */
  bottomM: number
  usualThicknessM: number
}

const RESETS: readonly YieldEvent['kind'][] = ['rehabilitated', 'rebuilt']

/** Visits in any order become a record; null where no visit carries a reading. */
export function recordOf(
  well: YieldWell,
  visits: readonly YieldVisit[],
  events: readonly YieldEvent[],
): WellRecord | null {
  const sorted = visits.filter(hasReading).sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
  const first = sorted[0]
  const last = sorted[sorted.length - 1]
  if (!first || !last) return null
  const origin = first.on
  const known = events.filter((event) => event.on <= last.on)
  const resets = daysOf(known, RESETS).filter((day) => day > origin)
  const pumps = daysOf(known, ['pump-replaced']).filter((day) => day > origin)
  const resetEra = sorted.map((visit) => countUpTo(resets, visit.on))
  const pumpEra = sorted.map((visit) => countUpTo(pumps, visit.on))
  const eras = sorted.map((_, i) => (resetEra[i] ?? 0) * 1000 + (pumpEra[i] ?? 0))
  const readings = mendReadings(sorted, eras, well.wellDepthM ?? well.intakeDepthM)
  const years = vectorOf(sorted.length, (i) => yearsSince(sorted[i]?.on ?? origin, origin))
  const table = appraiseTable(readings, years)
  const flow = appraiseFlow(
    readings.map((reading, i) => ({
      years: years[i] ?? 0,
      flowM3PerS: reading.flowM3PerS,
      pumpingM: reading.pumpingM,
      pumpEra: pumpEra[i] ?? 0,
    })),
  )
  const bottomM = bottomOf(well, readings)
  const usualThicknessM = Math.max(0.5, bottomM - (table.usualM ?? 0))
  const rows = capacityRows({ bottomM, usualThicknessM }, readings, years, table, flow)
  const starts = [origin, ...resets]
  const stretches = starts.map((since, stretch) => ({
    since,
    sinceYears: yearsSince(since, origin),
    rows: rows.filter((row) => resetEra[row.visit] === stretch),
  }))
  return {
    origin,
    years,
    readings,
    table,
    flow,
    stretches,
    has: {
      flow: readings.filter((r) => r.flowM3PerS !== null).length,
      statics: readings.filter((r) => r.staticM !== null).length,
      drawdowns: readings.filter((r) => r.staticM !== null && r.pumpingM !== null).length,
      fitted: readings.filter((r) => r.fittedM2PerS !== null).length,
    },
    bottomM,
    usualThicknessM,
    pumpReplacedOn: pumps[pumps.length - 1] ?? null,
  }
}

function hasReading(visit: YieldVisit): boolean {
  return (
    visit.staticM !== null ||
    visit.pumpingM !== null ||
    visit.flowM3PerS !== null ||
    (visit.capacityM2PerS ?? null) !== null
  )
}

function daysOf(events: readonly YieldEvent[], kinds: readonly YieldEvent['kind'][]): Day[] {
  return [...new Set(events.filter((event) => kinds.includes(event.kind)).map((event) => event.on))].sort()
}

function countUpTo(days: readonly Day[], on: Day): number {
  let count = 0
  for (const day of days) if (day <= on) count++
  return count
}

function capacityRows(
  { bottomM, usualThicknessM }: { bottomM: number; usualThicknessM: number },
  readings: readonly Reading[],
  years: Vector,
  table: WaterTable,
  flow: FlowLevel,
): CapacityRow[] {
  const unread = flow.fresh === null ? 0 : UNREAD_PART * flow.noiseSd
  const lastSeen = readings.findLastIndex((reading) => reading.staticM !== null)
  const rows: CapacityRow[] = []
  readings.forEach((reading, i) => {
    const level = table.levels[i] ?? null
    const shown = shownAt(reading, level, flow, i, unread)
    if (!shown) return
    const at = years[i] ?? 0
    const thicknessM = level ? Math.max(0.3, bottomM - level.staticM) : usualThicknessM
    rows.push({
      visit: i,
      years: at,
      logThickness: Math.log(thicknessM / usualThicknessM),
      logDuration: reading.pumpedS === null ? 0 : Math.log(reading.pumpedS / 3600),
      logCapacity: shown.logCapacity,
      relativeSd: shown.relativeSd,
      flowSurprise: shown.fitted ? 0 : (flow.surprise[i] ?? 0),
      fitted: shown.fitted,
      seasonCos: Math.cos(TURN * at),
      seasonSin: Math.sin(TURN * at),
      filledIn: shown.filledIn,
      unseenYears: i > lastSeen ? at - (years[lastSeen] ?? 0) : 0,
    })
  })
  return rows
}

type Shown = Pick<CapacityRow, 'logCapacity' | 'relativeSd' | 'fitted' | 'filledIn'>

/** What a visit shows of capacity: by its drawdown, else by a test of its own, else nothing. */
function shownAt(
  reading: Reading,
  level: { staticM: number; sdM: number } | null,
  flow: FlowLevel,
  i: number,
  unreadSd: number,
): Shown | null {
  const drawn = level && reading.pumpingM !== null ? reading.pumpingM - level.staticM : 0
  if (level && drawn > 2 * level.sdM && drawn > LEAST_DRAWN_M) {
    return {
      logCapacity: (flow.fresh?.[i] ?? 0) - Math.log(drawn),
      relativeSd: relativeSd(level.sdM, drawn, flow.read[i] ? 0 : unreadSd),
      fitted: false,
      filledIn: reading.staticM === null ? 1 / drawn : 0,
    }
  }
  if (reading.fittedM2PerS === null) return null
  return { logCapacity: Math.log(reading.fittedM2PerS), relativeSd: FITTED_SD, fitted: true, filledIn: 0 }
}

const TURN = 2 * Math.PI
/** Below this a drawdown is lost in the noise of the levels. */
const LEAST_DRAWN_M = 0.03
/** How much of the noise of flow stays where it was not read, against where it was. */
const UNREAD_PART = 0.4
/** A capacity from a test of its own is about twice as noisy as one of a plain visit. */
const FITTED_SD = 2
const PLAIN_VARIANCE = CAPACITY.visitSd ** 2 + 0.02 ** 2

function relativeSd(staticSdM: number, drawnM: number, unreadSd: number): number {
  const levels = (staticSdM * staticSdM + CAPACITY.levelSdM ** 2) / (drawnM * drawnM)
  return Math.sqrt((CAPACITY.visitSd ** 2 + levels + unreadSd * unreadSd) / PLAIN_VARIANCE)
}

/** The bottom of the water-bearing column, m below the measuring point: the well's, or a guess below the deepest level. */
function bottomOf(well: YieldWell, readings: readonly Reading[]): number {
  const deepest = readings.reduce((max, r) => Math.max(max, r.staticM ?? 0, r.pumpingM ?? 0), 0)
  const built = well.wellDepthM ?? (well.intakeDepthM === null ? null : well.intakeDepthM + 0.5)
  const shallowest = medianOf(readings.flatMap((r) => (r.staticM === null ? [] : [r.staticM]))) ?? 0
  if (built !== null && built > shallowest + 0.5) return Math.max(built, deepest * 0.98)
  return deepest + 0.3 * Math.max(1, deepest - shallowest)
}
