import type { Day } from '@/lib/domain/quantity/day'
import { drivenAt } from './drive'
import { type SupplyResult, supplyResult } from './reserve'
import { type SupplyPlan, simulateYear } from './year'

/** What may be known of a better state of the same well; null where it is not. */
export type BetterState = {
  /** Flow of the pump when new over its flow now: at least 1. */
  newPumpOverNow: number | null
  /** Sustainable rate of the well when new or last made good, m³/s by month. */
  baselineWellM3PerS: readonly number[] | null
}

export type RemedyKind =
  | 'bigger-tank'
  | 'earlier-brush-service'
  | 'pump-service'
  | 'rehabilitation'
  | 'more-panels'

type Judged = {
  kind: RemedyKind
  verdict: 'ends it' | 'helps' | 'does not help'
  firstShortDay: Day | null
  shortDays: number
  missingM3: number
  /** The smallest usable volume that leaves no day short; only for a bigger tank that ends it. */
  tankM3?: number
}

export type Remedy = Judged | { kind: RemedyKind; verdict: 'cannot say'; why: string }

/** Tanks are looked for up to this many times the present one, or days of the greatest demand. */
const TANK_TIMES = 20
const TANK_DAYS = 120
/** Panels half as many again: what usually still fits the same frame and pump. */
const PANEL_FACTOR = 1.5

/**
 * What would mend a year with short days, each thing alone, in a year simulated anew; empty where no day is short.
 * Throws  RangeError as simulateYear does, and for a pump when new that gives less than now.
 */
export function remedies(plan: SupplyPlan, better: BetterState): Remedy[] {
  const now = resultOf(plan)
  if (now.shortDays === 0) return []
  return [
    biggerTank(plan, now),
    brushService(plan, now),
    ...knownBetter(plan, better, now),
    ...panels(plan, now),
  ]
}

const resultOf = (plan: SupplyPlan): SupplyResult => supplyResult(simulateYear(plan), plan.tankM3)

function judged(kind: RemedyKind, now: SupplyResult, then: SupplyResult): Judged {
  const { firstShortDay, shortDays, missingM3 } = then
  // A tenth less missing is the least that would be seen at all.
  const verdict = shortDays === 0 ? 'ends it' : missingM3 < 0.9 * now.missingM3 ? 'helps' : 'does not help'
  return { kind, verdict, firstShortDay, shortDays, missingM3 }
}

function biggerTank(plan: SupplyPlan, now: SupplyResult): Remedy {
  const dailyM3 = Math.max(...simulateYear(plan).days.map((day) => day.demandM3))
  const most = Math.max(TANK_TIMES * plan.tankM3, TANK_DAYS * dailyM3)
  // A new tank starts as full in proportion as the old one: an empty start stays one.
  const full = plan.tankM3 > 0 ? plan.startM3 / plan.tankM3 : 0
  const withTank = (tankM3: number) => ({ ...plan, tankM3, startM3: Math.min(tankM3, full * tankM3) })
  const best = resultOf(withTank(most))
  if (best.shortDays > 0) return judged('bigger-tank', now, best)
  let low = plan.tankM3
  let high = most
  while (high - low > 0.01 * high) {
    const middle = (low + high) / 2
    if (resultOf(withTank(middle)).shortDays === 0) high = middle
    else low = middle
  }
  return { ...judged('bigger-tank', now, resultOf(withTank(high))), tankM3: high }
}

function brushService(plan: SupplyPlan, now: SupplyResult): Remedy {
  if (plan.pumpOff.length === 0) {
    return {
      kind: 'earlier-brush-service',
      verdict: 'cannot say',
      why: 'No stop for worn brushes is expected in this year.',
    }
  }
  return judged('earlier-brush-service', now, resultOf({ ...plan, pumpOff: [] }))
}

function knownBetter(plan: SupplyPlan, better: BetterState, now: SupplyResult): Remedy[] {
  return [pumpService(plan, better.newPumpOverNow, now), rehabilitation(plan, better.baselineWellM3PerS, now)]
}

function pumpService(plan: SupplyPlan, factor: number | null, now: SupplyResult): Remedy {
  if (factor === null) {
    return {
      kind: 'pump-service',
      verdict: 'cannot say',
      why: 'It is not known what the pump gave when new.',
    }
  }
  if (!(factor >= 1)) throw new RangeError(`a new pump that gives ${factor} times what it gives now`)
  return judged('pump-service', now, resultOf({ ...plan, drive: drivenAt(plan.drive, factor) }))
}

function rehabilitation(plan: SupplyPlan, baseline: readonly number[] | null, now: SupplyResult): Remedy {
  if (baseline === null) {
    return {
      kind: 'rehabilitation',
      verdict: 'cannot say',
      why: 'It is not known what the well gave when new or last made good.',
    }
  }
  const wellM3PerS = plan.wellM3PerS.map((rate, month) => Math.max(rate, baseline[month] ?? 0))
  return judged('rehabilitation', now, resultOf({ ...plan, wellM3PerS }))
}

function panels(plan: SupplyPlan, now: SupplyResult): Remedy[] {
  if (plan.drive.kind !== 'panels') return []
  const drive = { ...plan.drive, ratedW: plan.drive.ratedW * PANEL_FACTOR }
  return [judged('more-panels', now, resultOf({ ...plan, drive }))]
}
