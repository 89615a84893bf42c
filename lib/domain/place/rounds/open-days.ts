/** On which days of a round a well can be visited. */
import type { Day } from '@/lib/domain/quantity'
import type { LeftOut, WellDue } from './due-types'
import { weekday, wishedDaysWords } from './visit-days'

/** Why nobody can come on that day; null where they can. */
export function shutOn(well: WellDue, day: Day): 'closed-season' | 'owner-away' | null {
  const { closed, wishes } = well
  if (closed) {
    const monthDay = day.slice(5)
    const wraps = closed.from > closed.to
    const after = monthDay >= closed.from
    const before = monthDay <= closed.to
    if (wraps ? after || before : after && before) return 'closed-season'
  }
  return wishes.notOn.includes(weekday(day)) ? 'owner-away' : null
}

/** Why a well can be visited on none of the days; null where it can on one. */
export function shutOnAll(well: WellDue, days: readonly Day[]): Pick<LeftOut, 'code' | 'why'> | null {
  if (well.at === null)
    return { code: 'no-coordinate', why: 'It has no coordinate, so its way is not known.' }
  const reasons = days.map((day) => shutOn(well, day))
  if (reasons.some((reason) => reason === null)) return null
  if (reasons.every((reason) => reason === 'owner-away')) {
    const wished = [1, 2, 3, 4, 5, 6, 7].filter((day) => !well.wishes.notOn.includes(day))
    return {
      code: 'owner-away',
      why: `The owner wishes visits ${wishedDaysWords(wished)}, and none of these days is one.`,
    }
  }
  return {
    code: 'closed-season',
    why: `It cannot be reached on these days: ${well.closed?.why ?? 'closed season'}.`,
  }
}
