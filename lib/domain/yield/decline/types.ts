import type { Day } from '@/lib/domain/quantity/day'

/** What was read at one visit; null is not read. Levels in m below the measuring point. */
export type YieldVisit = {
  on: Day
  staticM: number | null
  pumpingM: number | null
  flowM3PerS: number | null
  pumpedS: number | null
  /** From a fitted recovery or drawdown test, where there was one. */
  capacityM2PerS?: number | null
}

export type YieldEvent = {
  on: Day
  kind: 'rehabilitated' | 'rebuilt' | 'pump-replaced' | 'flooded' | 'ran-dry' | 'other'
}

export type YieldWell = {
  wellDepthM: number | null
  intakeDepthM: number | null
  demandM3PerS: number | null
  installedOn: Day | null
}

export type DeclineSettings = {
  /** Share of wells without a decline that may ever be flagged over a whole record, looked at on every visit. */
  falseAlarmShare: number
}

export type YieldCause = 'steady' | 'well' | 'water-table' | 'pump' | 'unclear'

/** A date with the ends of its 80 % interval; an end is null where it is open. */
export type DateOutlook = { on: Day | null; low: Day | null; high: Day | null }

export type CapacityPoint = {
  on: Day
  /** Flow over drawdown as read (mended where a slip was plain); null where a reading for it is missing. */
  capacityM2PerS: number | null
  /** At 60 minutes of pumping and the usual static level; null where a level is missing for that. */
  adjustedM2PerS: number | null
  staticM: number | null
  /** Why the reading was mended or left out of the reckoning; null where it stands as read. */
  setAside: string | null
}

export type CapacityTrend =
  | { kind: 'trend'; perYear: number; low: number; high: number; p: number; method: string }
  | { kind: 'too-few'; have: number; need: number }

export type YieldEvidence = {
  /** How many times better a decline explains the readings than a well that holds its capacity. */
  declineOdds: number
  /** Chances, 0 to 1, of what may be going on now. */
  chance: { well: number; waterTable: number; pump: number }
  /** Relative change of capacity since the baseline, of flow, and change of static level in m with season out. */
  capacityChange: number | null
  flowChange: number | null
  staticFallM: number | null
  staticFallMPerYear: number | null
  /** Readings used, mended and left out. */
  used: number
  mended: number
  leftOut: number
}

export type YieldStanding = {
  tests: number
  capacity: { m2PerS: number; on: Day } | null
  baseline: { m2PerS: number; low: number; high: number; since: Day } | null
  points: CapacityPoint[]
  trend: CapacityTrend
  suspicion: number
  flag: boolean
  cause: YieldCause
  evidence: YieldEvidence
  sentence: string
  next: string
  outlook: { to75Percent: DateOutlook | null; belowDemand: DateOutlook | null; why: string }
}
