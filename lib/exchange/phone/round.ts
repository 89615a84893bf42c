import type { Viewer } from '@/lib/access/viewer'
import { daysShown } from '@/lib/domain/quantity'
import type { Db } from '@/lib/records/db'
import { roundPage } from '@/lib/records/rounds'
import { type PhoneRound, phoneRoundSchema } from './shape'
import { phoneWell } from './well'

/** What a phone may carry of a round: its stops in order, and its wells. Null when there is none for this viewer. */
export function phoneRound(db: Db, viewer: Viewer, roundId: string): PhoneRound | null {
  const page = roundPage(db, viewer, roundId)
  if (!page) return null
  const { round, stops } = page
  const wellIds = [...new Set(stops.map(({ wellId }) => wellId))]
  return phoneRoundSchema.parse({
    ...round,
    stops: stops.map((stop) => ({
      ...stop,
      duties: stop.duties.map((duty) => ({ ...duty, why: daysShown(duty.why, viewer.units) })),
    })),
    wells: wellIds.flatMap((wellId) => phoneWell(db, viewer, wellId) ?? []),
    units: viewer.units,
  })
}
