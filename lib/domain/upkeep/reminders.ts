import { type Day, daysBetween } from '@/lib/domain/quantity/day'

/**
 * The lead time that a due date has reached on `today`: the shortest of `leadDays` that is not yet shorter than what is left.
 * Null while none is reached. Past due is as reached as the day itself, so that a server that stood still for a week tells
 * once, by the shortest lead, and not once for each lead it missed.
 */
export function reachedLead(dueOn: Day, today: Day, leadDays: readonly number[]): number | null {
  const left = daysBetween(today, dueOn)
  const reached = leadDays.filter((lead) => left <= lead)
  return reached.length === 0 ? null : Math.min(...reached)
}

/** One turn of a due item, from one time it was done to the next: what is told once. */
export type Turn = { itemId: string; lastDoneOn: Day | null; dueOn: Day; ofDuty: boolean }

/**
 * What makes a reminder the same reminder. A duty's date moves with its meters, so that its turn is named by when it was last
 * done; what the water asks for outside the duties (a test after a flood) is named by its date as well.
 */
export function reminderKey(userId: string, turn: Turn, lead: number): string {
  const since = turn.lastDoneOn ?? 'never'
  return [userId, turn.itemId, turn.ofDuty ? since : `${since}>${turn.dueOn}`, lead].join('|')
}
