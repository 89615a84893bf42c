/** A well's results of one analyte over the years, and whether they rise or fall. Non-detects stay non-detects. */
import { type Day, yearsSince } from '@/lib/domain/quantity/day'
import { akritasTheilSen, type CensoredPoint, censoredKendall } from '@/lib/domain/stats'
import { analyteName, findAnalyte } from './analytes'
import { dayOfMoment } from './moment'
import { type SeriesLevel, seriesLevel } from './series-level'
import type { Result, Sample } from './types'

/** One point to draw: a number, a non-detect at its limit, or "more than". Words without a number carry null. */
export type SeriesPoint = {
  on: Day
  sampleId: string
  value: number | null
  reads: 'number' | 'below' | 'above' | 'absent' | 'present' | 'unknown'
  typed: string
}

export type SeriesTrend =
  | {
      kind: 'trend'
      perYear: number
      /** 95 % limits; null where the record is too short for them. */
      low: number | null
      high: number | null
      p: number
      n: number
      nonDetects: number
      /** Whether the two-sided p is at or under 0.05. */
      established: boolean
      method: string
    }
  | { kind: 'too-few'; have: number; need: number }
  | { kind: 'mostly-non-detect'; nonDetects: number; n: number }
  | { kind: 'open' }
  | { kind: 'not-a-substance' }

export type Series = {
  analyte: string
  name: string
  unit: string
  points: readonly SeriesPoint[]
  trend: SeriesTrend
  /** Null for counts of bacteria, which jump. */
  level: SeriesLevel | null
}

/** Points a trend needs. House rule: under eight no p-value of 0.05 says much; no published source. */
const TREND_NEEDS = 8
const METHOD = 'Akritas-Theil-Sen line with Kendall test for non-detects, 95 % limits'

/** The series of every analyte that has a result, in the order of first appearance; points by day. */
export function seriesOf(samples: readonly Sample[]): Series[] {
  const sorted = [...samples].sort((a, b) =>
    a.sampledAt < b.sampledAt ? -1 : a.sampledAt > b.sampledAt ? 1 : 0,
  )
  const ids = [...new Set(sorted.flatMap((sample) => sample.results.map((result) => result.analyte)))]
  return ids.map((id) => oneSeries(id, sorted))
}

function oneSeries(id: string, samples: readonly Sample[]): Series {
  const points = samples.flatMap((sample) =>
    sample.results
      .filter(
        (result) =>
          result.analyte === id &&
          result.operator !== 'none' &&
          result.leftOut === undefined &&
          result.formFactors === null,
      )
      .map((result) => pointOf(sample, result)),
  )
  return {
    analyte: id,
    name: analyteName(id),
    unit: findAnalyte(id)?.home ?? '',
    points,
    trend: trendOf(id, points),
    level: isCount(id) ? null : seriesLevel(usableOf(points)),
  }
}

function pointOf(sample: Sample, result: Result): SeriesPoint {
  const base = {
    on: dayOfMoment(sample.sampledAt),
    sampleId: sample.id,
    typed: `${result.typed.result} ${result.typed.unit}`.trim(),
  }
  switch (result.operator) {
    case '=':
      return { ...base, value: result.value, reads: 'number' }
    case '<':
      return { ...base, value: result.value, reads: 'below' }
    case 'not-detected':
    case 'trace':
      return {
        ...base,
        value: result.reportingLimit,
        reads: result.reportingLimit === null ? 'unknown' : 'below',
      }
    case '>':
      return { ...base, value: result.value, reads: 'above' }
    case 'absent':
      return { ...base, value: null, reads: 'absent' }
    case 'present':
      return { ...base, value: null, reads: 'present' }
    case 'none':
      return { ...base, value: null, reads: 'unknown' }
  }
}

/**
 * The trend in home units a year. Bacteria have none: counts jump. Values above the range are left out. With more than half
 * non-detects no trend is claimed (EPA Unified Guidance ch. 15, rule of 50 %, headings read).
 */
function trendOf(id: string, points: readonly SeriesPoint[]): SeriesTrend {
  if (isCount(id)) return { kind: 'not-a-substance' }
  const usable = usableOf(points)
  if (usable.length < TREND_NEEDS) return { kind: 'too-few', have: usable.length, need: TREND_NEEDS }
  const nonDetects = usable.filter((point) => point.nonDetect).length
  if (nonDetects * 2 > usable.length) return { kind: 'mostly-non-detect', nonDetects, n: usable.length }
  const line = akritasTheilSen(usable)
  const test = censoredKendall(usable)
  if (line.kind === 'open') return { kind: 'open' }
  if (line.kind !== 'slope' || test.kind !== 'test')
    return { kind: 'too-few', have: new Set(usable.map((point) => point.time)).size, need: 3 }
  return {
    kind: 'trend',
    perYear: line.slope,
    low: line.limits.kind === 'limits' ? line.limits.lower : null,
    high: line.limits.kind === 'limits' ? line.limits.upper : null,
    p: test.pNormal,
    n: usable.length,
    nonDetects,
    established: test.pNormal <= 0.05,
    method: METHOD,
  }
}

const isCount = (id: string): boolean => findAnalyte(id)?.measure === 'count'

/** Numbers and non-detects with a limit, in years since the first point. */
function usableOf(points: readonly SeriesPoint[]): CensoredPoint[] {
  const [first] = points
  return first ? points.flatMap((point) => asCensored(point, first.on)) : []
}

function asCensored(point: SeriesPoint, origin: Day): CensoredPoint[] {
  if (point.value === null || (point.reads !== 'number' && point.reads !== 'below')) return []
  return [{ time: yearsSince(point.on, origin), value: point.value, nonDetect: point.reads === 'below' }]
}
