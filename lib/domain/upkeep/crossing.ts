import { addDays, type Day, daysBetween, formatDay, LAST_DAY } from '@/lib/domain/quantity'
import { shareLeft } from './pace'
import { monthPieces, YEAR_DAYS } from './season'
import type { Crossing, Pace, UsageTrack } from './types'
import { fromPace, shareAfter, stepsAfter, usedSince } from './usage'

/** 80 % of a normal variable lies within this many standard deviations. */
const Z_80 = 1.2816
/** Beyond this nobody plans, and the sum of months would go on for nothing. */
const YEARS_MAX = 30
/** Relative doubt about a month that no reading has covered yet. Common practice, no published source. */
const UNSEEN_DOUBT = 0.6
/** Relative doubt about the factor of one month after a year of record; it averages out over several months. */
const MONTH_DOUBT = 0.3
/** Doubt of how the use of a step splits at a day inside it, as a share of the smaller part. */
const SPLIT_DOUBT = 0.5

type KnownPace = Extract<Pace, { kind: 'pace' }>

/**
 * The day on which the use since a day reaches a limit, with its 80 % interval.
 *
 * Units   `limit` in the unit of the track, s or m³, above 0.
 * Answer  where the readings have already passed the limit, the day between the two readings around it, spread by
 *         the season, with those readings as the interval. Else the recent pace carried forward month by month.
 *         'cannot-say' without enough readings, when the meter stands still, and beyond 30 years.
 * Assumes the future keeps the recent level and season; the interval is for scatter about that, not for a new use.
 * Throws  RangeError on a limit that is not above 0.
 */
export function projectCrossing(track: UsageTrack, sinceOn: Day, limit: number): Crossing {
  if (!(limit > 0)) throw new RangeError(`a limit of use must be above 0, not ${limit}`)
  const since = usedSince(track, sinceOn)
  if (since.kind === 'cannot-say') return since
  const { used, upTo, estimated } = since
  if (used >= limit) return { ...passedCrossing(track, sinceOn, limit), used, estimated }
  const { pace } = track
  if (pace.kind === 'too-few') return { kind: 'cannot-say', why: pace.why, used }
  if (!(pace.perDay > 0)) {
    return { kind: 'cannot-say', why: 'the meter has not moved over its readings', used }
  }
  const days = reachDays(pace, upTo, limit - used, usedDoubt(track, pace, sinceOn))
  if (days.due === null) {
    return { kind: 'cannot-say', why: `at its pace the limit is more than ${YEARS_MAX} years away`, used }
  }
  return { kind: 'crossing', due: days.due, from: days.from ?? days.due, to: days.to, used, estimated }
}

/** The step of the record within which the limit was passed, and the day inside it. */
function passedCrossing(
  track: UsageTrack,
  sinceOn: Day,
  limit: number,
): { kind: 'crossing'; due: Day; from: Day; to: Day } {
  const first = track.points[0]
  let used = 0
  const steps = stepsAfter(track.points, sinceOn)
  if (first && sinceOn < first.on) steps.unshift({ from: sinceOn, to: first.on, known: null })
  for (const step of steps) {
    const from = step.from < sinceOn ? sinceOn : step.from
    const whole = step.known ?? fromPace(track.pace, step.from, step.to) ?? 0
    const part = from === step.from ? whole : whole * shareAfter(track.pace, step.from, from, step.to)
    if (used + part >= limit) {
      const due = dayWithin(track.pace, from, step.to, (limit - used) / part)
      return { kind: 'crossing', due, from: addDays(from, 1), to: step.to }
    }
    used += part
  }
  throw new RangeError(
    `use of ${limit} since ${formatDay(sinceOn, 'iso', 'en-GB')} was not found in the steps`,
  )
}

/** The first day by the end of which a share (0 to 1) of the step's use has been made. */
function dayWithin(pace: Pace, from: Day, to: Day, share: number): Day {
  let before = 0
  for (const piece of monthPieces(from, to)) {
    const upTo = 1 - shareAfter(pace, from, piece.to, to)
    if (upTo >= share) {
      const within = Math.max(1, Math.ceil((piece.days * (share - before)) / (upTo - before)))
      return addDays(piece.to, within - piece.days)
    }
    before = upTo
  }
  return to
}

/** Standard deviation of the use counted so far, from the parts that were split or filled in; s or m³. */
function usedDoubt(track: UsageTrack, pace: KnownPace, sinceOn: Day): number {
  const first = track.points[0]
  let variance = 0
  for (const { from, to, known } of stepsAfter(track.points, sinceOn)) {
    const whole = known ?? fromPace(pace, from, to) ?? 0
    const share = from < sinceOn ? shareAfter(pace, from, sinceOn, to) : 1
    if (known === null) variance += (pace.scatter * whole * share) ** 2
    else if (share < 1) variance += (SPLIT_DOUBT * whole * Math.min(share, 1 - share)) ** 2
  }
  if (first && sinceOn < first.on) variance += (pace.scatter * (fromPace(pace, sinceOn, first.on) ?? 0)) ** 2
  return Math.sqrt(variance)
}

/** The days on which the middle, the fast and the slow run reach `need`; null where not within YEARS_MAX. */
function reachDays(
  pace: KnownPace,
  start: Day,
  need: number,
  doubt: number,
): { due: Day | null; from: Day | null; to: Day | null } {
  const runs = { due: run(), from: run(), to: run() }
  let expected = 0
  let unseen = 0
  let squares = 0
  for (const piece of monthPieces(start, farthest(start))) {
    const gain = pace.perDay * (pace.byMonth[piece.month] ?? 0) * piece.days
    expected += gain
    squares += gain ** 2
    if (pace.unseen.includes(piece.month + 1)) unseen += gain
    const years = daysBetween(start, piece.to) / YEAR_DAYS
    const relative = Math.sqrt(
      pace.scatter ** 2 * (shareLeft(years) + shareLeft(pace.years)) +
        (MONTH_DOUBT ** 2 * squares) / expected ** 2 / pace.years +
        (UNSEEN_DOUBT * (unseen / expected)) ** 2,
    )
    const ahead = expected * Math.expm1(Z_80 * relative)
    const behind = expected * -Math.expm1(-Z_80 * relative)
    runs.due.advance(piece.days, piece.to, expected, need)
    runs.from.advance(piece.days, piece.to, expected + Math.hypot(ahead, Z_80 * doubt), need)
    runs.to.advance(piece.days, piece.to, expected - Math.hypot(behind, Z_80 * doubt), need)
    if (runs.to.day !== null) break
  }
  return { due: runs.due.day, from: runs.from.day, to: runs.to.day }
}

/** YEARS_MAX ahead, or the end of the calendar kept here. */
function farthest(start: Day): Day {
  const days = Math.round(YEARS_MAX * YEAR_DAYS)
  return daysBetween(start, LAST_DAY) < days ? LAST_DAY : addDays(start, days)
}

/** One run of the sum over months; keeps the first day on which it reached the need, straight inside a month. */
function run() {
  return {
    day: null as Day | null,
    before: 0,
    advance(days: number, to: Day, sum: number, need: number): void {
      if (this.day === null && sum >= need) {
        const share = sum > this.before ? (need - this.before) / (sum - this.before) : 1
        this.day = addDays(to, Math.max(1, Math.ceil(days * Math.min(1, Math.max(0, share)))) - days)
      }
      this.before = sum
    },
  }
}
