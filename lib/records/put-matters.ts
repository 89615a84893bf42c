import type Database from 'better-sqlite3'
import type { Matter } from '@/lib/domain/logbook/owner-matters'
import type { WellRow } from './rows'
import { prepared } from './statements'

/** Stores what is open at a well in place of what was. Call within the transaction that reckoned it. */
export function putMatters(
  sqlite: Database.Database,
  well: Pick<WellRow, 'id' | 'ownerId'>,
  matters: readonly Matter[],
  previous: 'known' | 'none',
): void {
  if (previous === 'known') prepared(sqlite, 'DELETE FROM "Matter" WHERE "wellId" = ?').run(well.id)
  for (const matter of matters) {
    const later = matter.kind === 'visit' && matter.urgent ? 0 : 1
    prepared(sqlite, INSERT).run(
      matter.id,
      well.id,
      matter.kind,
      matter.state,
      later,
      matter.on,
      JSON.stringify(matter),
      well.ownerId,
    )
  }
}

const INSERT =
  'INSERT INTO "Matter" ("id","wellId","kind","state","later","onDay","payload","ownerId") VALUES (?,?,?,?,?,?,?,?)'
