import { type CapacityFit, chanceOf } from './capacity'
import { CAPACITY, FLAG, FLOW, TABLE } from './priors'
import type { WellRecord } from './record'
import type { YieldCause } from './types'
import { logSumExp } from './vector'

/** What the record can speak about: without flow or without drawdown there is no capacity to follow. */
export type Supports = 'capacity' | 'drawdown-only' | 'flow-only' | 'statics-only' | 'too-little'

export type Verdict = {
  supports: Supports
  /** Log odds of a decline against every other story, shares beforehand left aside. */
  logDecline: number
  chance: { well: number; pump: number; waterTable: number; steady: number }
  suspicion: number
  flag: boolean
  cause: YieldCause
  /** What the pump's own readings, corrected for head and voltage, say; null where there are none. */
  pumpOwn: 'worn' | 'sound' | null
}

/** Fewest capacities in the present stretch, and shortest span, before anything is said of a trend. */
export const FEWEST = 4
const SHORTEST_YEARS = 0.75
/** A cause is named only when it is this likely. */
const LIKELY_ENOUGH = 0.45
/** Where only part of the readings is there, the water table is named only when nearly sure. */
const NEARLY_SURE = 0.9

/**
 * Flag, suspicion and cause from the weighed stories.
 *
 * The flag is paid for repeated looks: when the readings come from a well without a decline, the odds for a decline
 * ever pass 1 / share on at most that share of wells, however often one looks (Ville's inequality for likelihood
 * ratios: Ville 1939, Étude critique de la notion de collectif, from memory). FLAG.margin covers what the model does
 * not know; it was set on invented fleets (tests/sim).
 */
export function judge(
  record: WellRecord,
  { fit, lessOne }: { fit: CapacityFit | null; lessOne: () => CapacityFit | null },
  afterRehabilitation: boolean,
  falseAlarmShare: number,
  pumpLogOdds: number | null,
): Verdict {
  const supports = supportsOf(record, fit)
  const logDecline = fit ? declineLogOdds(fit) : Number.NEGATIVE_INFINITY
  const chance = chancesOf(record, fit, afterRehabilitation, pumpLogOdds)
  const beyond = supports === 'capacity' && logDecline > Math.log(1 / falseAlarmShare) + FLAG.margin
  return {
    supports,
    logDecline,
    chance,
    suspicion: suspicionOf(record, supports, chance.well),
    flag: beyond && isBorneOut(lessOne()),
    cause: causeOf(supports, chance),
    pumpOwn:
      pumpLogOdds === null || Math.abs(pumpLogOdds) < SPEAKS ? null : pumpLogOdds > 0 ? 'worn' : 'sound',
  }
}

/** One odd visit must not raise a flag: those before it may not speak against a decline. */
function isBorneOut(fit: CapacityFit | null): boolean {
  return fit !== null && declineLogOdds(fit) > FLAG.before
}

function supportsOf(record: WellRecord, fit: CapacityFit | null): Supports {
  const { has } = record
  const rows = fit?.years ?? new Float64Array(0)
  const span = (rows[rows.length - 1] ?? 0) - (rows[0] ?? 0)
  const enough = rows.length >= FEWEST && span >= SHORTEST_YEARS
  const absolute = record.flow.fresh === null ? has.fitted : Math.max(has.flow, has.fitted)
  if (enough && absolute >= FEWEST) return 'capacity'
  if (enough) return 'drawdown-only'
  const years = record.years[record.years.length - 1] ?? 0
  if (has.flow >= FEWEST && has.drawdowns < FEWEST && years >= SHORTEST_YEARS) return 'flow-only'
  if (has.statics >= 2 * FEWEST && years >= 2) return 'statics-only'
  return 'too-little'
}

/** Log odds for a decline (alone or with a worn pump) against none (alone or with a worn pump). */
function declineLogOdds(fit: CapacityFit): number {
  const worn = Math.log(FLOW.oddsBeforehand)
  return logSumExp([fit.logDecline, fit.logBoth + worn]) - logSumExp([0, fit.logPump + worn])
}

function chancesOf(
  record: WellRecord,
  fit: CapacityFit | null,
  afterRehabilitation: boolean,
  pumpLogOdds: number | null,
): Verdict['chance'] {
  const falling = chanceOf(record.table.logOdds, TABLE.oddsBeforehand)
  const decline = Math.log(afterRehabilitation ? CAPACITY.oddsAfterRehabilitation : CAPACITY.oddsBeforehand)
  const worn = Math.log(FLOW.oddsBeforehand)
  const own = pumpLogOdds === null ? 0 : ownReadings(pumpLogOdds, record.flow.logOdds)
  const logPump = (fit ? fit.logPump : record.flow.logOdds) + worn + own
  const logWell = fit
    ? logSumExp([fit.logDecline + decline, fit.logBoth + decline + worn])
    : Number.NEGATIVE_INFINITY
  const all = logSumExp([0, logPump, logWell])
  const neither = Math.exp(-all)
  return {
    well: Math.exp(logWell - all),
    pump: Math.exp(logPump - all),
    waterTable: neither * falling,
    steady: neither * (1 - falling),
  }
}

/** From here on the pump's own readings speak for or against it. */
const SPEAKS = 1
/** They come from a hand and a gauge like the others: no more than this is added or taken. */
const OWN_MOST = 4

/**
 * What the pump's own readings add to the log odds of a worn pump. Flow went into those already: where both say the same,
 * nothing is counted twice. Where head and voltage explain a fall of flow, what flow alone said is taken back.
 */
function ownReadings(own: number, byFlow: number): number {
  if (own < 0 && byFlow > 0) return Math.max(-OWN_MOST - 2, own - Math.min(byFlow, OWN_MOST))
  if (own > 0) return Math.max(0, Math.min(OWN_MOST, own - Math.max(0, byFlow)))
  return 0
}

/** Without flow or without drawdown, a change can mean several things: the suspicion is held back. */
function suspicionOf(record: WellRecord, supports: Supports, well: number): number {
  if (supports === 'capacity') return well
  if (supports === 'drawdown-only') return 0.6 * well
  if (supports === 'flow-only') return 0.4 * chanceOf(record.flow.logOdds, FLOW.oddsBeforehand)
  return Math.min(0.3, 0.5 * well + 0.05)
}

function causeOf(supports: Supports, chance: Verdict['chance']): YieldCause {
  if (supports === 'too-little' || supports === 'flow-only') return 'unclear'
  const table = chance.waterTable / Math.max(1e-9, chance.waterTable + chance.steady)
  if (supports !== 'capacity') return table > NEARLY_SURE ? 'water-table' : 'unclear'
  const stories: [YieldCause, number][] = [
    ['well', chance.well],
    ['pump', chance.pump],
    ['water-table', chance.waterTable],
    ['steady', chance.steady],
  ]
  const [cause, likely] = stories.reduce((a, b) => (b[1] > a[1] ? b : a))
  return likely >= LIKELY_ENOUGH ? cause : 'unclear'
}
