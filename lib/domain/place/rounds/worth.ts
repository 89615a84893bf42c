/** How much it is worth to do a duty on this round, and the reason in words. */
import { addDays, type Day, daysBetween, formatDay } from '@/lib/domain/quantity'
import type { DutyDue, Reason } from './due-types'

/** How near a duty is to the days of the round. 'maybe' where only its interval begins by then. */
export type Nearness = 'past' | 'due' | 'maybe' | 'soon' | 'not-yet' | 'no-date'

/** Points of a duty that is due in the round. Our own weights: three wear items do not outweigh one of health. */
const CONSEQUENCE_POINTS = { health: 100, supply: 40, wear: 15 } as const
const NEARNESS_SHARE: Record<Nearness, number> = {
  past: 1.2,
  due: 1,
  maybe: 0.6,
  soon: 0.4,
  'not-yet': 0,
  'no-date': 0,
}
/** What is long past gains up to as much again. */
const LONG_PAST_DAYS = 180

/** How near the duty is to a round from `first` to `last`. */
export function nearness(duty: DutyDue, first: Day, last: Day, soonDays: number): Nearness {
  if (duty.due === null) return 'no-date'
  if (duty.due < first) return 'past'
  if (duty.due <= last) return 'due'
  if (duty.from !== null && duty.from <= last) return 'maybe'
  return duty.due <= addDays(last, soonDays) ? 'soon' : 'not-yet'
}

/**
 * The order in which work is given room: 0 health past due, before everything; then supply past due and health due;
 * then the rest that is due; null for what is only taken while there, or not at all.
 */
export function tierOf(duty: DutyDue, near: Nearness): 0 | 1 | 2 | null {
  if (near === 'soon' || near === 'not-yet' || near === 'no-date') return null
  if (duty.consequence === 'health') return near === 'past' ? 0 : 1
  return duty.consequence === 'supply' && near === 'past' ? 1 : 2
}

/** The points of a duty with the sentence that explains them. */
export function worthOf(duty: DutyDue, near: Nearness, first: Day): Reason {
  const past = duty.due === null ? 0 : Math.max(0, daysBetween(duty.due, first))
  const share = NEARNESS_SHARE[near] + Math.min(past, LONG_PAST_DAYS) / LONG_PAST_DAYS
  const points = Math.round(CONSEQUENCE_POINTS[duty.consequence] * share)
  return { words: `${duty.name} (${duty.consequence}): ${dueWords(duty, near, past)}`, points }
}

function dueWords({ due, from }: DutyDue, near: Nearness, past: number): string {
  if (due === null) return 'no due date'
  const on = (day: Day) => formatDay(day, 'short', 'en-GB')
  if (near === 'past') return `${past} ${past === 1 ? 'day' : 'days'} past on the first day`
  if (near === 'maybe' && from !== null) return `may fall due from ${on(from)}`
  return `falls due ${on(due)}`
}

/** What a detour takes off: a point a minute. */
export function detourReason(extraS: number): Reason {
  const minutes = Math.round(extraS / 60)
  return { words: `${minutes} min of driving for this stop`, points: minutes === 0 ? 0 : -minutes }
}
