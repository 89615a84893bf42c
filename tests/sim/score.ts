import { type Day, yearsSince } from '@/lib/domain/quantity/day'
import { appraiseYield } from '@/lib/domain/yield/decline/appraise'
import type { YieldCause, YieldStanding } from '@/lib/domain/yield/decline/types'
import type { SimulatedWell, TrueCause } from './fleet'

export type Look = { on: Day; flag: boolean; logOdds: number }
export type Looked = { well: SimulatedWell; looks: Look[]; last: YieldStanding }

/** Every well looked at once a visit, each look with only what was known then. */
export function lookAtFleet(fleet: readonly SimulatedWell[], falseAlarmShare: number): Looked[] {
  return fleet.flatMap((well) => {
    const looks: Look[] = []
    let last: YieldStanding | null = null
    well.visits.forEach((visit, i) => {
      last = asOf(well, visit.on, falseAlarmShare, i + 1)
      looks.push({ on: visit.on, flag: last.flag, logOdds: Math.log(last.evidence.declineOdds) })
    })
    return last ? [{ well, looks, last }] : []
  })
}

export function asOf(well: SimulatedWell, on: Day, falseAlarmShare: number, count?: number): YieldStanding {
  const visits = count === undefined ? well.visits.filter((v) => v.on <= on) : well.visits.slice(0, count)
  return appraiseYield(
    well.well,
    visits,
    well.events.filter((event) => event.on <= on),
    { falseAlarmShare },
  )
}

export type FlagFigures = {
  falseAlarms: { steady: number; watertable: number; pump: number; steadyAndTable: number }
  sensitivity: { all: number; clear: number }
  before75: { all: number; clear: number }
  delayYears: number
}

/** Ever-flagged shares, sensitivity after onset, share flagged before 75 %, median delay of clear declines. */
export function flagFigures(
  looked: readonly Looked[],
  isFlag: (look: Look) => boolean = (l) => l.flag,
): FlagFigures {
  const ever = (causes: readonly TrueCause[]) =>
    share(
      looked.filter(({ well }) => causes.includes(well.truth.cause)),
      ({ looks }) => looks.some(isFlag),
    )
  const clogging = looked.flatMap(({ well, looks }) => {
    const { cause, onset, crosses75On } = well.truth
    const end = looks[looks.length - 1]
    if (cause !== 'clogging' || onset === null || crosses75On === null || !end) return []
    const first = looks.find((look) => isFlag(look) && look.on > onset)
    const clear = looks.length >= 10 && well.truth.capacityLeft(end.on) <= 0.85
    const before = first !== undefined && first.on < crosses75On
    return [{ found: first !== undefined, clear, before, delay: first ? yearsSince(first.on, onset) : null }]
  })
  const clear = clogging.filter((c) => c.clear)
  return {
    falseAlarms: {
      steady: ever(['steady']),
      watertable: ever(['watertable']),
      pump: ever(['pump']),
      steadyAndTable: ever(['steady', 'watertable']),
    },
    sensitivity: { all: share(clogging, (c) => c.found), clear: share(clear, (c) => c.found) },
    before75: { all: share(clogging, (c) => c.before), clear: share(clear, (c) => c.before) },
    delayYears: middle(clear.flatMap((c) => (c.delay === null ? [] : [c.delay]))),
  }
}

export const TRUE_TO_CAUSE: Record<TrueCause, YieldCause> = {
  steady: 'steady',
  clogging: 'well',
  rehabilitated: 'well',
  watertable: 'water-table',
  pump: 'pump',
}

export type CauseFigures = {
  accuracy: number
  balanced: number
  table: Record<string, Record<string, number>>
}

/** What is named at the last visit against the truth, for wells with at least six visits. */
export function causeFigures(looked: readonly Looked[]): CauseFigures {
  const table: Record<string, Record<string, number>> = {}
  const judged = looked.filter(({ looks }) => looks.length >= 6)
  for (const { well, last } of judged) {
    const row = table[well.truth.cause] ?? {}
    row[last.cause] = (row[last.cause] ?? 0) + 1
    table[well.truth.cause] = row
  }
  const right = (l: Looked) => l.last.cause === TRUE_TO_CAUSE[l.well.truth.cause]
  const causes: YieldCause[] = ['steady', 'well', 'water-table', 'pump']
  const recalls = causes.map((cause) =>
    share(
      judged.filter((l) => TRUE_TO_CAUSE[l.well.truth.cause] === cause),
      right,
    ),
  )
  return { accuracy: share(judged, right), balanced: mean(recalls.filter(Number.isFinite)), table }
}

export type OutlookFigures = {
  asked: number
  dated: number
  coverage: number
  widthYears: number
  errorYears: number
}

/** The 75 % date as of given days: coverage of the 80 % interval, its median width, median error; dated ones only. */
export function outlookFigures(
  points: readonly { well: SimulatedWell; on: Day }[],
  falseAlarmShare: number,
): OutlookFigures {
  const told = points.flatMap(({ well, on }) => {
    const crosses = well.truth.crosses75On
    if (crosses === null) return []
    const date = asOf(well, on, falseAlarmShare).outlook.to75Percent
    return [{ crosses, date }]
  })
  const dated = told.flatMap(({ crosses, date }) => (date ? [{ crosses, ...date }] : []))
  const inside = (d: { crosses: Day; low: Day | null; high: Day | null }) =>
    (d.low === null || d.low <= d.crosses) && (d.high === null || d.crosses <= d.high)
  return {
    asked: told.length,
    dated: dated.length,
    coverage: share(dated, inside),
    widthYears: middle(
      dated.map((d) =>
        d.low === null || d.high === null ? Number.POSITIVE_INFINITY : yearsSince(d.high, d.low),
      ),
    ),
    errorYears: middle(
      dated.map((d) => (d.on === null ? Number.POSITIVE_INFINITY : Math.abs(yearsSince(d.on, d.crosses)))),
    ),
  }
}

/** The last visit of each clogging well before it truly passes 75 %, when it has at least eight visits by then. */
export function asOfPoints(fleet: readonly SimulatedWell[]): { well: SimulatedWell; on: Day }[] {
  return fleet.flatMap((well) => {
    const crosses = well.truth.crosses75On
    if (well.truth.cause !== 'clogging' || crosses === null) return []
    const before = well.visits.filter((visit) => visit.on < crosses)
    const last = before[before.length - 1]
    const started =
      well.truth.onset !== null && last !== undefined && yearsSince(last.on, well.truth.onset) > 0.5
    return last && before.length >= 8 && started ? [{ well, on: last.on }] : []
  })
}

function share<T>(items: readonly T[], is: (item: T) => boolean): number {
  return items.length === 0 ? Number.NaN : items.filter(is).length / items.length
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[sorted.length >> 1] ?? Number.NaN
}
