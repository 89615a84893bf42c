import { type CurrentFact, currentFacts } from '@/lib/domain/logbook/entries'
import { type LogVisit, logbookVisits } from '@/lib/domain/logbook/history'
import { type EntryRow, entryOf } from './rows'

/** A well's stored entries as its logbook reads, and the facts that hold now. */
export function logbookOf(rows: readonly EntryRow[]): { visits: LogVisit[]; facts: CurrentFact[] } {
  const entries = rows.map((row) => ({ ...entryOf(row), recordedAt: row.recordedAt }))
  return { visits: logbookVisits(entries), facts: currentFacts(entries) }
}
