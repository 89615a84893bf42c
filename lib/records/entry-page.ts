import { may } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { type CurrentFact, currentFacts } from '@/lib/domain/logbook/entries'
import type { Db } from './db'
import { entriesOfWell, entryRow } from './entries'
import { visibleWell } from './wells'

/** A fact that holds, with its well, for the pages that correct or withdraw it. */
export type EntryPage = { wellId: string; label: string; current: CurrentFact }

/**
 * The fact first written in the entry of that id, as it holds now; null when there is none that
 * this viewer may correct: withdrawn already, a correction itself, foreign, or never there.
 */
export function entryPage(db: Db, viewer: Viewer, entryId: string): EntryPage | null {
  const row = entryRow(db.sqlite, entryId)
  const well = row && visibleWell(db, viewer, row.wellId)
  if (!well || !may(viewer, 'entry.correct', well.ownerId)) return null
  const current = currentFacts(entriesOfWell(db.sqlite, well.id)).find((fact) => fact.id === entryId)
  return current ? { wellId: well.id, label: well.label, current } : null
}
