/** What a move costs, in the few words that stand on its button. */
import type { OrderCost } from './moves'
import type { Conflict } from './order'
import { lengthText } from './time-of-day'
import { nameOfWeekday, visitDaysWords, weekday } from './visit-days'

const HALF_MINUTE_S = 30

/**
 * "+12 min driving", "−4 min driving, home 9 min sooner", "no change": only what differs by a minute or so is said.
 * Who would be late by it stands last, with the label of the stop.
 */
export function moveWords(cost: OrderCost, labelOf: (id: string) => string): string {
  const words: string[] = []
  if (counts(cost.travelS)) words.push(`${cost.travelS > 0 ? '+' : '−'}${lengthText(cost.travelS)} driving`)
  // Waiting for an owner's hour can eat what driving saves: then the return says more.
  if (counts(cost.homeS) && counts(cost.homeS - cost.travelS)) {
    words.push(`home ${lengthText(cost.homeS)} ${cost.homeS > 0 ? 'later' : 'sooner'}`)
  }
  const newly = cost.newlyLate.map(({ id, byS }) => `${labelOf(id)} late by ${lengthText(byS)}`)
  if (newly.length > 0) words.push(...newly)
  else if (counts(cost.lateS)) {
    words.push(`${lengthText(cost.lateS)} ${cost.lateS > 0 ? 'more' : 'less'} late`)
  }
  return words.length === 0 ? 'no change' : words.join(', ')
}

const counts = (seconds: number) => Math.abs(seconds) >= HALF_MINUTE_S

/** What cannot be kept, as a sentence. `endAt` is when the truck should be back, HH:MM. */
export function conflictWords(conflict: Conflict, labelOf: (id: string) => string, endAt: string): string {
  if (conflict.kind === 'other-day') {
    const { id, day, onlyOn } = conflict
    return `${labelOf(id)}: the owner wishes visits ${visitDaysWords(onlyOn)}, and this round is on a ${nameOfWeekday(weekday(day))}.`
  }
  const by = lengthText(conflict.byS)
  if (conflict.kind === 'home-late') return `Home ${by} after ${endAt}.`
  const late = `${labelOf(conflict.id)}: work ends ${by} after the owner’s hour.`
  return conflict.alone ? `${late} It would even as the only stop of the day.` : late
}
