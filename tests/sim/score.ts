/**
 * How well declines are told, against known truth: every figure from lines said at each visit with only what was
 * known then, whether they come from `npm run reckon --replay` or straight from the reckoning.
 */
import { type Day, yearsSince } from '@/lib/domain/quantity/day'
import type { DateOutlook, YieldCause } from '@/lib/domain/yield/decline/types'

export type TrueCause = 'steady' | 'clogging' | 'watertable' | 'pump' | 'rehabilitated'

export type Truth = {
  cause: TrueCause
  onset: Day | null
  /** First day on which capacity is under three quarters of what it was when new; null where it never is. */
  crosses75On: Day | null
  /** First day on which the seasonal low no longer carries the demand; null where none is known or it never comes. */
  shortOn: Day | null
  /** Part of the capacity left at the last visit, from the decline alone. */
  leftAtEnd: number
}

/** What was said of a well on a day, knowing what was recorded up to then. */
export type Line = {
  on: Day
  flag: boolean
  cause: YieldCause
  to75Percent: DateOutlook | null
  belowDemand: DateOutlook | null
}

export type Told = { well: string; truth: Truth; lines: Line[] }

export type FlagFigures = {
  falseAlarms: { steady: number; watertable: number; pump: number; steadyAndTable: number }
  sensitivity: { all: number; clear: number }
  /** Of clogging wells that pass three quarters within their record: all of them, and the clear ones. */
  before75: { all: number; clear: number }
  delayYears: number
}

/** A decline is clear with at least so many visits and at most so much of the capacity left. */
const CLEAR_VISITS = 10
const CLEAR_LEFT = 0.85

/** Ever-flagged shares, sensitivity after onset, share flagged before 75 %, median delay over all that were found. */
export function flagFigures(told: readonly Told[]): FlagFigures {
  const ever = (causes: readonly TrueCause[]) =>
    share(
      told.filter(({ truth }) => causes.includes(truth.cause)),
      ({ lines }) => lines.some(({ flag }) => flag),
    )
  const clogging = told.flatMap(({ truth, lines }) => {
    const { cause, onset, crosses75On } = truth
    const end = lines[lines.length - 1]
    if (cause !== 'clogging' || onset === null || !end) return []
    const first = lines.find(({ flag, on }) => flag && on > onset)
    return [
      {
        found: first !== undefined,
        clear: lines.length >= CLEAR_VISITS && truth.leftAtEnd <= CLEAR_LEFT,
        passes: crosses75On !== null && crosses75On <= end.on,
        before: first !== undefined && crosses75On !== null && first.on < crosses75On,
        delay: first ? yearsSince(first.on, onset) : null,
      },
    ]
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
    before75: {
      all: share(
        clogging.filter((c) => c.passes),
        (c) => c.before,
      ),
      clear: share(
        clear.filter((c) => c.passes),
        (c) => c.before,
      ),
    },
    delayYears: middle(clogging.flatMap((c) => (c.delay === null ? [] : [c.delay]))),
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

/** Fewest visits of a well whose named cause is scored. */
const CAUSE_VISITS = 6

/**
 * What is named at the last visit against the truth, for wells with at least six visits; balanced: the mean share
 * named rightly over the true causes. A well that was rehabilitated is scored where a loss began again since.
 */
export function causeFigures(told: readonly Told[]): CauseFigures {
  const table: Record<string, Record<string, number>> = {}
  const judged = told.flatMap(({ truth, lines }) => {
    const last = lines[lines.length - 1]
    return last && lines.length >= CAUSE_VISITS ? [{ truth, named: last.cause }] : []
  })
  for (const { truth, named } of judged) {
    const row = table[truth.cause] ?? {}
    row[named] = (row[named] ?? 0) + 1
    table[truth.cause] = row
  }
  const right = (one: { truth: Truth; named: YieldCause }) => one.named === TRUE_TO_CAUSE[one.truth.cause]
  const causes: YieldCause[] = ['steady', 'well', 'water-table', 'pump']
  const recalls = causes.map((cause) =>
    share(
      judged.filter(({ truth }) => TRUE_TO_CAUSE[truth.cause] === cause),
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

export type AsOf = { told: Told; on: Day }

/** A date told on given days: coverage of its 80 % interval, median width and error; dated ones only. */
export function outlookFigures(
  points: readonly AsOf[],
  which: 'to75Percent' | 'belowDemand' = 'to75Percent',
): OutlookFigures {
  const asked = points.flatMap(({ told, on }) => {
    const truth = which === 'to75Percent' ? told.truth.crosses75On : told.truth.shortOn
    const line = told.lines.find((one) => one.on === on)
    return truth === null || !line ? [] : [{ truth, date: line[which] }]
  })
  const dated = asked.flatMap(({ truth, date }) => (date ? [{ truth, ...date }] : []))
  const inside = (d: { truth: Day; low: Day | null; high: Day | null }) =>
    (d.low === null || d.low <= d.truth) && (d.high === null || d.truth <= d.high)
  const orForever = (years: number | null) => years ?? Number.POSITIVE_INFINITY
  return {
    asked: asked.length,
    dated: dated.length,
    coverage: share(dated, inside),
    widthYears: middle(
      dated.map(({ low, high }) => orForever(low === null || high === null ? null : yearsSince(high, low))),
    ),
    errorYears: middle(
      dated.map(({ on, truth }) => orForever(on === null ? null : Math.abs(yearsSince(on, truth)))),
    ),
  }
}

/**
 * When forecasts are asked for: first, middle and last visit that lie a year or more after the onset of a clogging
 * and before `until` comes true, with at least six visits by then.
 */
export function asOfPoints(told: readonly Told[], until: 'crosses75On' | 'shortOn' = 'crosses75On'): AsOf[] {
  return told.flatMap((one) => {
    const { cause, onset } = one.truth
    const end = one.truth[until]
    const falls = cause === 'clogging' || (until === 'shortOn' && cause === 'watertable')
    if (!falls || end === null || onset === null) return []
    const within = one.lines.filter(({ on }, i) => i >= 5 && yearsSince(on, onset) >= 1 && on < end)
    const days = [within[0], within[within.length >> 1], within[within.length - 1]].flatMap((line) =>
      line ? [line.on] : [],
    )
    return [...new Set(days)].map((on) => ({ told: one, on }))
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
