import type { Viewer } from '@/lib/access/viewer'
import { wellDuties } from '@/lib/domain/place'
import type { Db } from '@/lib/records/db'
import { stopPage } from '@/lib/records/rounds'

/** What the visit form must know of the stop that the visit closes. `ticked` are the duties planned there. */
export type StopToClose = {
  id: string
  roundId: string
  words: string
  ticked: string[]
  left: string[]
  others: string[]
  note: string | null
}

/** The open stop of that id at this well; null where the address names none, or one that is not open there. */
export function stopToClose(db: Db, viewer: Viewer, wellId: string, stopId: string): StopToClose | null {
  const found = stopId === '' ? null : stopPage(db, viewer, stopId)
  if (!found || found.stop.wellId !== wellId) return null
  const { round, stop } = found
  const duties = wellDuties(stop.duties)
  return {
    id: stop.id,
    roundId: round.id,
    words: `Stop ${stop.position} of ${round.name}`,
    ticked: duties.map((duty) => duty.key),
    left: duties.map((duty) => duty.name),
    others: stop.duties.filter((duty) => !duty.ticked).map((duty) => duty.name),
    note: stop.note,
  }
}
