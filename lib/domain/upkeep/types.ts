/** The words of upkeep as types: duties, meter readings, and what is reckoned about them. */
import type { Day } from '@/lib/domain/quantity'

/** What suffers when a duty is left undone, in order of weight. */
export type Consequence = 'health' | 'supply' | 'wear'

/** A measured condition that can make a duty fall due. */
export const CONDITION_KINDS = ['brush_length', 'pressure_drop', 'flow_share', 'flow', 'lift_margin'] as const
export type ConditionKind = (typeof CONDITION_KINDS)[number]

/** A recurring piece of upkeep on one well; its earliest limit makes it fall due. */
export type Duty = {
  /** Slug of the name, unique on the well. */
  key: string
  name: string
  consequence: Consequence
  everyMonths: number | null
  /** Run time, s. */
  everyRunS: number | null
  /** Volume pumped, m³. */
  everyM3: number | null
  /**
   * What is fallen to: a brush length in m, a flow as a share of the reference or in m³/s, suction lift to spare in m; or
   * risen to: a pressure drop in Pa. `from` names the model where the limit is its own and not the duty's.
   */
  condition: { kind: ConditionKind; limitSi: number; from?: string } | null
  /** The register's word from before the logbook began. */
  lastDoneOn: Day | null
}

/** Days of the year, both included, on which nobody gets to the well. May wrap the year's end. */
export type ClosedSeason = {
  /** 'MM-DD' */
  from: string
  /** 'MM-DD' */
  to: string
  why: string
}

/** How the person who took an odd reading explained it; null where nobody did. */
type MeterExplanation = 'replaced' | 'rolled-over' | 'kept' | null

/** What a run-time meter (s) or a volume meter (m³) showed on a day. */
export type MeterReading = {
  on: Day
  value: number
  id: string
  explained: MeterExplanation
  /** Last reading of the old meter, where `explained` is 'replaced' and it was taken. */
  replacedFrom?: number | null
  /** First reading of the new meter; taken as `value` where it is not given. */
  replacedTo?: number | null
}

/** One reading that counts: what the meter showed, and the use since the one before. */
export type UsePoint = {
  on: Day
  id: string
  value: number
  /** Use since the point before it, s or m³; null for the first, and where the use across cannot be known. */
  used: number | null
}

/** A reading that is not used, and why. */
export type SetAside = { id: string; on: Day; why: string }

/** A stretch, from one point to the next, over which the use cannot be known. */
export type UseGap = { from: Day; to: Day; why: string }

/** How fast a meter runs, with its season. */
export type Pace =
  | {
      kind: 'pace'
      /** Mean use a day over a whole year at the recent level, s or m³. */
      perDay: number
      /** Twelve factors, January first; their mean over a year of days is 1. */
      byMonth: readonly number[]
      /** Relative scatter of the level, as a standard deviation. */
      scatter: number
      /** Years of recent record that carry `perDay`. */
      years: number
      /** The months 1-12 that no reading has covered yet. */
      unseen: readonly number[]
    }
  | { kind: 'too-few'; have: number; need: number; why: string }

/** A meter's history, made fit to count with. */
export type UsageTrack = {
  /** In time order, at most one a day. */
  points: UsePoint[]
  setAside: SetAside[]
  gaps: UseGap[]
  pace: Pace
  /** The last reading that counts; null where there is none. */
  last: { on: Day; value: number } | null
  /** More use a day than this, s or m³, is not believed. */
  perDayMax: number
}

/** The limit that a due date rests on. */
export type Basis = 'months' | 'hours' | 'volume' | 'condition' | 'closed-season'

/** What one limit says. `due` is null where it cannot say; `why` is one plain sentence either way. */
export type LimitStanding = {
  basis: Exclude<Basis, 'closed-season'>
  due: Day | null
  /** Ends of the 80 % interval; equal to `due` where the calendar decides, null where open. */
  from: Day | null
  to: Day | null
  why: string
  /** Use since the duty was last done, to the last reading, in s or m³. */
  used?: number
  /** The limit in s or m³. */
  limit?: number
}

/** What is reckoned about one duty on one well. Holds no clock: pages compare `due` with today. */
export type DutyStanding = {
  key: string
  name: string
  consequence: Consequence
  due: Day | null
  basis: Basis | null
  from: Day | null
  to: Day | null
  reason: string
  lastDoneOn: Day | null
  limits: LimitStanding[]
}

/** What the wear models say about a measured condition on this well. */
export type ConditionForecast =
  | { kind: ConditionKind; due: Day | null; from: Day | null; to: Day | null; why: string }
  | { kind: ConditionKind; cannotSay: string }

/** The meters of one well; null where it has none. */
export type Usage = { hours: UsageTrack | null; volume: UsageTrack | null }

/** Which meter a number is about: run time in s, or volume in m³. */
export type MeterKind = 'hours' | 'volume'

/** When a limit of use is reached, with an 80 % interval. `to` is null where it stays open. */
export type Crossing =
  | { kind: 'crossing'; due: Day; from: Day; to: Day | null; used: number; estimated: boolean }
  | { kind: 'cannot-say'; why: string; used?: number }

/** Use since a day, to the last reading (`upTo`); `estimated` where part of it had to be filled in. */
export type Used =
  | { kind: 'used'; used: number; upTo: Day; estimated: boolean }
  | { kind: 'cannot-say'; why: string }

/** A doubt about a reading, for the person who took it. `expectedBetween` in s or m³; `high` null where open. */
export type ReadingQuestion = {
  code: 'backward' | 'too-fast' | 'same-day-jump'
  message: string
  expectedBetween: { low: number; high: number | null }
}
