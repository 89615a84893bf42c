import { type Day, dayOfYear, daysBetween } from '@/lib/domain/quantity/day'
import { weightedLeastSquares } from '@/lib/domain/stats/least-squares'

/** A meter's count on a day: m³ or hours, never falling within one meter. */
export type Count = { on: Day; count: number }

export type Pace = {
  /** Use expected over the `days` after a day, with its standard deviation. */
  ahead(from: Day, days: number): { mean: number; deviation: number }
  /** Use a day over a whole year. */
  perDay: number
}

const YEAR_DAYS = 365.25
/** No meter reads a millilitre or a thousandth of a second: so little use is the dust of a computation. */
const DUST = 1e-6
/** Before the record speaks: scatter of 30-day means, size of the season, and how firmly (in readings) to hold that. */
const SCATTER = 0.25
const SEASON = 0.35
const FIRMNESS = 1
/** Years differ in use by about this share where use scatters as usual; a meter that runs like a clock shows it in both. */
const BETWEEN_YEARS = 0.08

/**
 * How fast a meter runs, with a yearly season as far as the record shows one, and how sure that is.
 *
 * Model   use over a stretch = ∫ (r + a cos + b sin), scatter growing with the stretch; a and b held towards nothing
 *         by a prior of a third of r, so that half a year of record does not invent a season.
 * Answer  null without two counts on different days with use between them. A count below the one before it is a new
 *         meter: nothing is claimed across it.
 */
export function paceOf(counts: readonly Count[]): Pace | null {
  const stretches = stretchesOf(counts)
  const days = stretches.reduce((sum, s) => sum + s.days, 0)
  const use = stretches.reduce((sum, s) => sum + s.use, 0)
  const rough = use / days
  const origin = stretches[0]?.from
  if (!(use > DUST) || origin === undefined) return null
  const fit = settle(stretches, rough)
  if (!fit) return null
  const ahead = (from: Day, daysAhead: number) => {
    const row = seasonRow(from, daysAhead)
    const mean = row.reduce((sum, x, k) => sum + x * (fit.coefficients[k] ?? 0), 0)
    const doubt = row.reduce(
      (sum, x, j) => sum + x * row.reduce((inner, y, k) => inner + y * (fit.covariance[j]?.[k] ?? 0), 0),
      0,
    )
    const years = (Math.min(1, fit.scatter / SCATTER) * rough) ** 2 * yearsVariance(daysAhead)
    // A season read off few stretches may dip below zero: a meter never runs back.
    return {
      mean: Math.max(mean, 0.1 * rough * daysAhead),
      deviation: Math.sqrt(Math.max(0, doubt) + fit.variancePerDay * daysAhead + years),
    }
  }
  return { ahead, perDay: Math.max(fit.coefficients[0] ?? 0, 0.1 * rough) }
}

/** Variance in days² that years which differ bring: whole within a year, and added up over years that know nothing of each other. */
const yearsVariance = (days: number): number => BETWEEN_YEARS ** 2 * days * Math.min(days, YEAR_DAYS)

/** One unit of use a day, for a part whose meter nobody reads: the calendar stands in, with the usual scatter. */
export function calendarPace(): Pace {
  return {
    perDay: 1,
    ahead: (_, days) => ({
      mean: days,
      deviation: Math.sqrt(SCATTER ** 2 * 30 * days + yearsVariance(days)),
    }),
  }
}

type Stretch = { from: Day; days: number; use: number }

function stretchesOf(counts: readonly Count[]): Stretch[] {
  const sorted = [...counts].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : a.count - b.count))
  const out: Stretch[] = []
  let before: Count | null = null
  for (const here of sorted) {
    if (before && here.on === before.on) continue
    if (before && here.count >= before.count) {
      out.push({ from: before.on, days: daysBetween(before.on, here.on), use: here.count - before.count })
    }
    before = here
  }
  return out
}

/** The stretch and the yearly sine and cosine integrated over it, in days. */
function seasonRow(from: Day, days: number): number[] {
  const start = (2 * Math.PI * dayOfYear(from)) / YEAR_DAYS
  const end = start + (2 * Math.PI * days) / YEAR_DAYS
  const scale = YEAR_DAYS / (2 * Math.PI)
  return [days, scale * (Math.sin(end) - Math.sin(start)), scale * (Math.cos(start) - Math.cos(end))]
}

type Settled = { coefficients: number[]; covariance: number[][]; variancePerDay: number; scatter: number }

/** Regularised fit; scatter and fit settle each other in a few rounds. */
function settle(stretches: readonly Stretch[], rough: number): Settled | null {
  const rows = stretches.map((s) => seasonRow(s.from, s.days))
  const uses = stretches.map((s) => s.use)
  let scatter = SCATTER
  let found: Settled | null = null
  for (let round = 0; round < 3; round++) {
    const variancePerDay = (scatter * rough) ** 2 * 30
    const prior = [1 / rough ** 2, 1 / (SEASON * rough) ** 2, 1 / (SEASON * rough) ** 2]
    const solved = weightedLeastSquares(
      [...rows, [1, 0, 0], [0, 1, 0], [0, 0, 1]],
      [...uses, rough, 0, 0],
      [...stretches.map((s) => 1 / (variancePerDay * s.days)), ...prior],
    )
    if (solved.kind === 'singular') return found
    found = { coefficients: solved.coefficients, covariance: solved.inverse, variancePerDay, scatter }
    const misfit = rows.reduce((sum, row, i) => {
      const fitted = row.reduce((all, x, k) => all + x * (solved.coefficients[k] ?? 0), 0)
      const days = stretches[i]?.days ?? 1
      return sum + ((uses[i] ?? 0) - fitted) ** 2 / (rough ** 2 * 30 * days)
    }, 0)
    scatter = Math.sqrt((FIRMNESS * SCATTER ** 2 + misfit) / (FIRMNESS + stretches.length))
  }
  return found
}

/** Counts with the missing ones put in between their neighbours in time; those outside the known ones stay missing. */
export function filledCounts(readings: readonly { on: Day; count: number | null }[]): (number | null)[] {
  const known = readings.flatMap((r) => (r.count === null ? [] : [{ on: r.on, count: r.count }]))
  return readings.map((r) => {
    if (r.count !== null) return r.count
    const next = known.find((k) => k.on >= r.on)
    const before = known.filter((k) => k.on <= r.on).at(-1)
    if (!next || !before || next.count < before.count) return null
    const whole = daysBetween(before.on, next.on)
    const share = whole === 0 ? 0 : daysBetween(before.on, r.on) / whole
    return before.count + share * (next.count - before.count)
  })
}
