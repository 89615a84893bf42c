import {
  type BrushQuestion,
  type CartridgeQuestion,
  changeCost,
  type Forecast,
  LATE_OVER_EARLY,
} from '@/lib/domain/pump'
import { addDays, compareDays, type Day, daysBetween } from '@/lib/domain/quantity/day'
import type { Sim } from './wear-sim'

export type Score = {
  /** Share of all parts that got a date, and of those dates whose 80 % interval held the truth. */
  answered: number
  covered: number
  /** Middle of the errors and of the widths, years. */
  error: number
  width: number
  /** Mean cost of a change in early days by the cost rule, changed on the day that the method advises. */
  cost: number
}

export const middle = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length

/** How a method fares on parts with known ends. A part without a date is changed at `calendarDays`, as the calendar says. */
export function score<Q>(
  sims: readonly Sim<Q>[],
  forecast: (question: Q) => Forecast,
  calendarDays: number,
): Score {
  const answers = sims.map((sim) => ({ sim, answer: forecast(sim.question) }))
  const dated = answers.flatMap(({ sim, answer }) => (answer.kind === 'date' ? [{ sim, answer }] : []))
  const covered = dated.filter(
    ({ sim, answer }) => answer.low <= sim.truth && (answer.high === null || sim.truth <= answer.high),
  )
  return {
    answered: dated.length / sims.length,
    covered: covered.length / dated.length,
    error: middle(dated.map(({ sim, answer }) => Math.abs(daysBetween(sim.truth, answer.on)) / 365.25)),
    width: middle(dated.map(({ answer }) => daysBetween(answer.low, answer.high ?? '2199-01-01') / 365.25)),
    cost: mean(
      answers.map(({ sim, answer }) => {
        const day = answer.kind === 'date' ? answer.changeBy : addDays(sim.putInOn, calendarDays)
        // Nobody changes a part before the visit on which its last reading was taken.
        return costOf(sim, laterOf(day, sim.lastReading))
      }),
    ),
  }
}

const laterOf = (a: Day, b: Day): Day => (compareDays(a, b) > 0 ? a : b)

const costOf = <Q>(sim: Sim<Q>, changedOn: Day): number =>
  changeCost(daysBetween(sim.putInOn, changedOn), daysBetween(sim.putInOn, sim.truth), LATE_OVER_EARLY)

/**
 * The best single interval there is for these parts by the cost rule, known only afterwards: a stricter rival than any
 * interval that could have been chosen beforehand. With its own score.
 */
export function bestFixedInterval<Q>(sims: readonly Sim<Q>[]): { days: number; error: number; cost: number } {
  const lives = sims.map((sim) => daysBetween(sim.putInOn, sim.truth)).sort((a, b) => a - b)
  const costAt = (days: number) => mean(lives.map((life) => changeCost(days, life, LATE_OVER_EARLY)))
  const days = lives.reduce((best, life) => (costAt(life) < costAt(best) ? life : best), lives[0] ?? 0)
  const usual = middle(lives)
  return { days, error: middle(lives.map((life) => Math.abs(life - usual))) / 365.25, cost: costAt(days) }
}

/** The plain way: least squares of the raw reading on days, whatever the flow or the hours. */
function straightLine(points: readonly { on: Day; y: number }[], start: Day, limit: number): Forecast {
  const xs = points.map((point) => daysBetween(start, point.on))
  const [mx, my] = [mean(xs), mean(points.map((point) => point.y))]
  const top = points.reduce((sum, point, i) => sum + ((xs[i] ?? 0) - mx) * (point.y - my), 0)
  const slope = top / xs.reduce((sum, x) => sum + (x - mx) ** 2, 0)
  const days = mx + (limit - my) / slope
  if (!(days > 0) || days > 20_000) return { kind: 'cannot-say', why: 'the line does not reach the limit' }
  const on = addDays(start, Math.round(days))
  return { kind: 'date', on, low: on, high: on, changeBy: on, why: 'a straight line', warnings: [] }
}

export function lineOfRawDrops(question: CartridgeQuestion): Forecast {
  const start = question.changes.at(-1) ?? ''
  const own = question.readings.filter((reading) => reading.on >= start)
  return straightLine(
    own.map(({ on, dropPa }) => ({ on, y: dropPa })),
    start,
    question.terminalPa,
  )
}

export function lineOfLengths(question: BrushQuestion): Forecast {
  const start = question.replacedOn.at(-1) ?? ''
  const points = question.readings
    .filter(({ on }) => on >= start)
    .map(({ on, lengthsM }) => ({ on, y: Math.min(...lengthsM) }))
  return straightLine(points, start, question.minimumM)
}
