import type { Viewer } from '@/lib/access/viewer'
import type { Day } from '@/lib/domain/quantity/day'
import type { Consequence } from '@/lib/domain/upkeep/types'
import type { Db } from './db'
import { type DueRow, dueCounts, duePage } from './due-list'

/** What needs attention today, over everything the viewer may see. Counts stop at COUNT_MAX. */
export type DueOverview = {
  past: Record<Consequence, number>
  week: number
  unknown: number
  /** The first duty that is not past due, where there is one with a date. */
  next: DueRow | null
}

/** The numbers of the status strip, whatever the list below it is filtered by. */
export function dueOverview(db: Db, viewer: Viewer, today: Day): DueOverview {
  const past = (consequence: Consequence) => dueCounts(db, viewer, today, { consequence }).past
  const { week, unknown } = dueCounts(db, viewer, today, {})
  return {
    past: { health: past('health'), supply: past('supply'), wear: past('wear') },
    week,
    unknown,
    next: firstAhead(db, viewer, today),
  }
}

function firstAhead(db: Db, viewer: Viewer, today: Day): DueRow | null {
  for (const urgency of ['week', 'month', 'later'] as const) {
    const [first] = duePage(db, viewer, today, urgency, {}, null, 1).rows
    if (first) return first
  }
  return null
}
