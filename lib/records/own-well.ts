import type { Viewer } from '@/lib/access/viewer'
import type { Standing } from '@/lib/domain/logbook/appraise'
import type { LogVisit } from '@/lib/domain/logbook/history'
import type { Db } from './db'
import { logbookOf } from './logbook-of-well'
import { wellPage } from './wells'

/** What a household is shown of one of its wells: no contact of others, no notes of the desk, no change record. */
export type OwnWell = {
  id: string
  label: string
  name: string | null
  standing: Standing | null
  visits: LogVisit[]
  samples: { entryId: string; on: string; unconfirmed: boolean }[]
}

/** A well of the viewer's household; null when there is none for this viewer, whether it exists or not. */
export function ownWell(db: Db, viewer: Viewer, wellId: string): OwnWell | null {
  const page = wellPage(db, viewer, wellId)
  if (!page) return null
  const { visits } = logbookOf(page.entries)
  const samples = visits.flatMap((visit) =>
    visit.lines.flatMap(({ id, stands, fact }) =>
      stands && fact.kind === 'sample'
        ? [
            {
              entryId: id,
              on: fact.sampledAt.slice(0, 10),
              unconfirmed: fact.enteredBy === 'owner' && fact.confirmedBy === undefined,
            },
          ]
        : [],
    ),
  )
  const { id, label, name } = page.well
  return { id, label, name, standing: page.standing, visits, samples }
}
