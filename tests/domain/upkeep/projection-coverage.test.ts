import { beforeAll, describe, expect, test } from 'vitest'
import { projectCrossing, trackUsage } from '@/lib/domain/upkeep'
import {
  dayFrom,
  dice,
  KINDS,
  type Kind,
  readingDays,
  type TrueMeter,
  textDay,
  totalOn,
  trueCrossing,
  trueMeter,
} from './simulated-meters'

/** One question put to the projection, with the answer of the true meter. Days. */
type Score = { kind: Kind; errorDays: number; straightErrorDays: number; inside: boolean; widthDays: number }

const SEEDS = [11, 12, 13]
const WELLS = 800

/**
 * Wells of five kinds, 1 to 6 years of readings, 2 to 12 a year; the work was done at a reading or between two, and
 * the limit lies 20 to 520 days of mean use ahead. Questions whose answer lies beyond the twelve true years are left
 * out, which trims late answers a little.
 */
function askAll(seed: number): { asked: number; scores: Score[] } {
  const rnd = dice(seed)
  const answers = Array.from({ length: WELLS }, (_, i) => ask(KINDS[i % KINDS.length] ?? 'garden', rnd))
  const put = answers.filter((answer) => answer !== 'beyond')
  return { asked: put.length, scores: put.filter((answer) => answer !== 'cannot-say') }
}

function ask(kind: Kind, rnd: () => number): Score | 'cannot-say' | 'beyond' {
  const meter = trueMeter(kind, rnd)
  const perYear = [2, 4, 6, 12][Math.floor(rnd() * 4)] ?? 4
  const from = meter.start + Math.floor(rnd() * 365)
  const days = readingDays(perYear, rnd, from, from + Math.round((1 + 5 * rnd()) * 365))
  const last = days[days.length - 1] ?? from
  const mean = (totalOn(meter, last) - totalOn(meter, from)) / (last - from)
  const atReading = days[Math.floor(days.length * (0.5 + 0.5 * rnd()))] ?? last
  const between = Math.max(from, last - Math.floor(rnd() * 200))
  const since = rnd() < 0.5 ? atReading : between
  const used = totalOn(meter, last) - totalOn(meter, since)
  const ahead = mean * (20 + 500 * rnd())
  const truth = trueCrossing(meter, since, used + ahead)
  if (truth === null) return 'beyond'
  const crossing = projectCrossing(trackOf(meter, days), textDay(since), used + ahead)
  if (crossing.kind === 'cannot-say') return 'cannot-say'
  const low = dayFrom(crossing.from)
  const high = crossing.to === null ? Number.POSITIVE_INFINITY : dayFrom(crossing.to)
  return {
    kind,
    errorDays: Math.abs(dayFrom(crossing.due) - truth),
    straightErrorDays: Math.abs(last + ahead / mean - truth),
    inside: low <= truth && truth <= high,
    widthDays: high - low,
  }
}

function trackOf(meter: TrueMeter, days: readonly number[]) {
  return trackUsage(
    days.map((on) => ({ on: textDay(on), value: totalOn(meter, on), id: `r${on}`, explained: null })),
  )
}

const median = (values: number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN
const coverage = (scores: Score[]) => scores.filter(({ inside }) => inside).length / scores.length
const medianError = (scores: Score[]) => median(scores.map(({ errorDays }) => errorDays))
const medianStraight = (scores: Score[]) => median(scores.map(({ straightErrorDays }) => straightErrorDays))

describe('the day a limit of use is reached, on simulated meters with known truth', () => {
  const scores: Score[] = []
  let asked = 0

  beforeAll(() => {
    for (const seed of SEEDS) {
      const one = askAll(seed)
      asked += one.asked
      scores.push(...one.scores)
    }
  })

  test('at least 99 of 100 questions are answered, of more than 2,000 asked', () => {
    expect(asked).toBeGreaterThan(2000)
    expect(scores.length / asked).toBeGreaterThan(0.99)
  })

  test('the 80 % interval holds the truth in 75 to 90 % of all', () => {
    expect(coverage(scores)).toBeGreaterThan(0.75)
    expect(coverage(scores)).toBeLessThan(0.9)
  })

  test.each(KINDS)('and in 72 to 92 % of the wells of one kind: %s', (kind) => {
    const own = scores.filter((score) => score.kind === kind)
    expect(own.length).toBeGreaterThan(400)
    expect(coverage(own)).toBeGreaterThan(0.72)
    expect(coverage(own)).toBeLessThan(0.92)
  })

  test('the median error is under 0.6 of the straight line’s, and under 0.3 on garden wells', () => {
    expect(medianError(scores)).toBeLessThan(0.6 * medianStraight(scores))
    const garden = scores.filter(({ kind }) => kind === 'garden')
    expect(medianError(garden)).toBeLessThan(0.3 * medianStraight(garden))
  })

  test('the interval is of use: its median width is under half a year', () => {
    expect(median(scores.map(({ widthDays }) => widthDays))).toBeLessThan(183)
  })
})

test('a garden well that is full in autumn is not expected to run out of filter in winter', () => {
  // 90 m³ a month from May to September, nothing else; read at each month's end for two years.
  const readings = ['2024', '2025'].flatMap((year, y) =>
    Array.from({ length: 12 }, (_, m) => ({
      on: textDay(Date.UTC(Number(year), m + 1, 0) / 86_400_000),
      value: 450 * y + 90 * Math.min(5, Math.max(0, m - 3)),
      id: `${year}-${m}`,
      explained: null,
    })),
  )
  const crossing = projectCrossing(trackUsage(readings), '2025-10-31', 200)
  if (crossing.kind !== 'crossing') throw new Error(crossing.why)
  // The truth: 90 in May, 90 in June, so 7 July. A straight line of 37.5 m³ a month from December says 10 June.
  expect(crossing.due >= '2026-06-20' && crossing.due <= '2026-07-20').toBe(true)
  expect(crossing.from > '2026-05-01').toBe(true)
})

describe('what is not known widens the interval', () => {
  /** One m³ a day from 1 January 2024, read on the days given (numbers from that day). */
  const START = dayFrom('2024-01-01')
  const evenMeter = (days: readonly number[]) =>
    trackUsage(days.map((n) => ({ on: textDay(START + n), value: n, id: `r${n}`, explained: null })))
  const project = (days: readonly number[], since: number, limit: number) => {
    const crossing = projectCrossing(evenMeter(days), textDay(START + since), limit)
    if (crossing.kind !== 'crossing' || crossing.to === null) throw new Error('no closed interval')
    return { due: dayFrom(crossing.due) - START, to: dayFrom(crossing.to) - START }
  }

  test('work done between two readings leaves more doubt than work done at one', () => {
    const at = project([0, 120, 240, 360, 420, 480], 420, 70)
    const between = project([0, 120, 240, 360, 480], 420, 70)
    expect(between.to - between.due).toBeGreaterThan(2 * (at.to - at.due))
  })

  test('months that no reading has covered leave the date open to more than 1.75 times the way', () => {
    const { due, to } = project([0, 45, 90, 120], 120, 180)
    expect(to - 120).toBeGreaterThan(1.75 * (due - 120))
  })
})
