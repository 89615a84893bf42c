/** What a proposal for a day or a week is made of. */
import type { Day } from '@/lib/domain/quantity'
import type { LatLon } from '../geodesy'
import type { Driving } from './travel'
import type { Schedule, StopTimes, TimeWindow } from './types'

/** One duty with its due date and the earliest day it may fall due; null where there is no date. */
export type DutyDue = {
  key: string
  name: string
  consequence: 'health' | 'supply' | 'wear'
  due: Day | null
  from: Day | null
  serviceS: number
}

/** What the owner wishes: hours, and days of the week on which nobody is to come (1 Monday to 7 Sunday). */
export type Wishes = { window: TimeWindow; notOn: readonly number[] }

/** A well with what falls due at it. `closed` are month and day, both included, and may wrap the year's end. */
export type WellDue = {
  id: string
  label: string
  at: LatLon | null
  closed: { from: string; to: string; why: string } | null
  wishes: Wishes
  /** Gate codes, dogs, the key: carried to the stop, not reckoned with. */
  notes: readonly string[]
  duties: readonly DutyDue[]
}

/** A day of work, times in s after midnight. */
export type WorkDay = { day: Day; startS: number; endS: number }

/** `setUpS` is spent at every stop before the work; `soonDays` is how far ahead a duty is taken along. */
export type ProposeSettings = { driving: Driving; setUpS: number; soonDays: number }

/** One reason for a stop, with the points it gives or takes. */
export type Reason = { words: string; points: number }

/** `whileThere` marks work that alone would not have brought the truck here yet. */
export type ProposedDuty = { key: string; name: string; reason: Reason; whileThere: boolean }

export type ProposedStop = {
  wellId: string
  label: string
  times: StopTimes
  duties: ProposedDuty[]
  /** The points of its duties, less a point for each minute of driving it adds where it stands. */
  worth: number
  reasons: Reason[]
  notes: readonly string[]
}

export type ProposedDay = { day: Day; stops: ProposedStop[]; schedule: Schedule }

/** Why something due is not in the proposal. */
export type LeftOut = {
  wellId: string
  label: string
  duties: string[]
  code: 'no-coordinate' | 'closed-season' | 'owner-away' | 'too-far' | 'no-room' | 'health-first'
  why: string
}

export type Proposal = { days: ProposedDay[]; leftOut: LeftOut[] }
