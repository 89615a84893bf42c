import { type CartridgeQuestion, cartridgePace, requireCartridgeQuestion } from './cartridge'
import { learn } from './cartridge-learning'
import { cartridgeRuns } from './cartridge-runs'
import { cheapestChance, daysToLimit, LATE_OVER_EARLY, type Weighted } from './forecast'

export type LearnedInterval =
  | {
      kind: 'interval'
      days: number
      volumeM3: number | null
      /** Half of this well's cartridges would last so long. */
      medianDays: number
      /** Cartridges followed. */
      from: number
      /** Cost of this interval over that of another one, by the same rule; null where none was named. */
      costOfOther: number | null
      why: string
    }
  | { kind: 'cannot-say'; why: string }

/**
 * The change interval that this well's own cartridges suggest, offered beside the fixed one and never imposed.
 *
 * Cost rule  a day too late (short water, a burst cartridge, a second trip) is taken to cost `lateOverEarly` times a
 *            day too early (a cartridge thrown away half used); the cheapest day is then the 1/(1 + lateOverEarly)
 *            quantile of the life.
 * Answer     'cannot-say' before two cartridges have been followed.
 * Source     the rule is that of the newsvendor (Edgeworth 1888; any textbook of operations research); the 3 is ours.
 */
export function learnedInterval(
  question: CartridgeQuestion,
  lateOverEarly = LATE_OVER_EARLY,
  otherDays: number | null = null,
): LearnedInterval {
  requireCartridgeQuestion(question)
  const runs = cartridgeRuns(
    question.readings,
    question.changes,
    question.referenceFlowM3PerS,
    question.volumes,
  )
  const by = runs.at(-1)?.by ?? 'days'
  const pace = cartridgePace(question, by)
  if (!pace) return { kind: 'cannot-say', why: 'the volume meter does not move' }
  const { prior, from } = learn(runs, by, question.terminalPa, pace)
  if (from < 2)
    return {
      kind: 'cannot-say',
      why: `${from} ${from === 1 ? 'cartridge' : 'cartridges'} followed through, 2 needed`,
    }
  const start = runs.at(-1)?.changedOn ?? null
  if (start === null) return { kind: 'cannot-say', why: 'it is not recorded when cartridges were put in' }
  const chances = [cheapestChance(lateOverEarly), 0.5, ...CHANCES]
  const [days, medianDays, ...lives] = daysToLimit(belief(prior.limitLog), 0, start, pace, chances)
  if (days === null || days === undefined || medianDays === null || medianDays === undefined) {
    return { kind: 'cannot-say', why: 'cartridges of this well last longer than can be planned' }
  }
  const cost = (at: number) =>
    lives.reduce((sum: number, life) => sum + changeCost(at, life ?? LONGEST_DAYS, lateOverEarly), 0)
  return {
    kind: 'interval',
    days,
    volumeM3: by === 'volume' ? pace.ahead(start, days).mean : null,
    medianDays,
    from,
    costOfOther: otherDays === null ? null : cost(otherDays) / cost(days),
    why: `${from} cartridges were followed: half of such last ${medianDays} days; with a late day ${lateOverEarly} times as dear as an early one, ${days} days cost least`,
  }
}

/**
 * What one change costs in early days: a day early counts one, a day late `lateOverEarly`.
 * Both in days since the change before; shared with the measurements, so that the rule is one.
 */
export function changeCost(changedAfter: number, lastedDays: number, lateOverEarly: number): number {
  return changedAfter <= lastedDays ? lastedDays - changedAfter : lateOverEarly * (changedAfter - lastedDays)
}

const LONGEST_DAYS = 15 * 365
/** Middles of forty equal parts of the belief. */
const CHANCES = Array.from({ length: 40 }, (_, i) => (i + 0.5) / 40)

function belief(limitLog: { mean: number; deviation: number }): Weighted[] {
  return Array.from({ length: 61 }, (_, i) => {
    const z = -3 + i / 10
    return { value: Math.exp(limitLog.mean + z * limitLog.deviation), weight: Math.exp((-z * z) / 2) }
  })
}
