import type { Day } from '@/lib/domain/quantity/day'
import type { YieldStanding } from '@/lib/domain/yield/decline/types'

/** What lists and the well page say of a well's yield; the whole standing is reckoned where it is shown. */
export type YieldSummary = Pick<
  YieldStanding,
  'tests' | 'capacity' | 'suspicion' | 'flag' | 'cause' | 'sentence' | 'next' | 'outlook'
> & {
  /** How many times better a decline explains the readings than none. */
  declineOdds: number
  baseline: { m2PerS: number; since: Day } | null
  /** Relative change of capacity since the baseline; null where nothing can be said. */
  change: number | null
  /** Specific capacity as adjusted to one static level and pumping time, m²/s, newest last; for small pictures. */
  points: { on: Day; m2PerS: number }[]
}

/** More dots than a small picture can show apart. */
const POINTS_MAX = 40

/** The part of a yield standing that is stored with the well. */
export function summarizeYield(standing: YieldStanding): YieldSummary {
  const { tests, capacity, suspicion, flag, cause, sentence, next, outlook, baseline, evidence } = standing
  const points = standing.points.flatMap(({ on, adjustedM2PerS, capacityM2PerS }) => {
    const m2PerS = adjustedM2PerS ?? capacityM2PerS
    return m2PerS === null ? [] : [{ on, m2PerS: Number(m2PerS.toPrecision(4)) }]
  })
  return {
    tests,
    capacity,
    suspicion,
    flag,
    cause,
    sentence,
    next,
    outlook,
    declineOdds: evidence.declineOdds,
    baseline: baseline && { m2PerS: baseline.m2PerS, since: baseline.since },
    change: evidence.capacityChange,
    points: points.slice(-POINTS_MAX),
  }
}
