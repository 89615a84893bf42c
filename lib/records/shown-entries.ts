import type { Viewer } from '@/lib/access/viewer'
import type { Db } from './db'
import { entryRowsOfWell } from './entries'
import type { EntryRow, WellRow } from './rows'
import { prepared } from './statements'

/** Who wrote a line is told no more where they are forgotten, or where the reader is of another household. */
export const FORMER_OWNER = 'a former owner'

/**
 * The entries of a well as this viewer may read them. The outfit reads all. A household reads everything that was measured
 * and done, whoever held the well then; what people wrote in their own words before it came to them stays with the outfit,
 * and so do the names of another household's people. The caller has asked whether the viewer may see the well.
 */
export function entriesShownTo(db: Db, viewer: Viewer, well: Pick<WellRow, 'id' | 'heldSince'>): EntryRow[] {
  const rows = entryRowsOfWell(db.sqlite, well.id)
  const named = rows.map((row) => entryAsShown(db, viewer, row))
  return viewer.role === 'owner' && well.heldSince !== null
    ? withoutWordsBefore(named, well.heldSince)
    : named
}

/** One line with the name of its author as this viewer may read it. */
export function entryAsShown(db: Db, viewer: Viewer, row: EntryRow): EntryRow {
  return row.source === 'owner' ? { ...row, byName: authorOf(db, viewer, row) } : row
}

/** The name of a household's person as they call themselves now; never the text that was stored beside the line. */
function authorOf(db: Db, viewer: Viewer, row: EntryRow): string {
  const author =
    row.authorId === null
      ? undefined
      : prepared<{ name: string }>(db.sqlite, 'SELECT "name" FROM "User" WHERE "id" = ?').get(row.authorId)
  if (row.authorId === null || !author) return FORMER_OWNER
  if (viewer.role !== 'owner' || row.authorId === viewer.userId) return author.name
  const household = prepared<{ ownerId: string }>(
    db.sqlite,
    'SELECT "ownerId" FROM "Membership" WHERE "userId" = ? AND "until" IS NULL',
  ).all(row.authorId)
  return household.some(({ ownerId }) => viewer.ownerIds.includes(ownerId)) ? author.name : FORMER_OWNER
}

/** Kinds that say what was measured or done at the well. Any other kind, of later versions too, is words between people. */
export const OF_THE_WELL: readonly string[] = [
  'service-done',
  'meter-reading',
  'level-reading',
  'flow-reading',
  'pressure-reading',
  'valve-test',
  'brush-length',
  'electrical-reading',
  'recovery-test',
  'drawdown-test',
  'step-test',
  'tank-level',
  'place-measured',
  'confirmation',
  'sample',
  'sanitary-inspection',
  'water-step',
  'event',
]

/** Fields in which people name people, streets or kitchens; what stands in their place where one must stand. */
export const PERSONAL: Readonly<Record<string, string | null>> = {
  sampler: null,
  sampleId: null,
  point: null,
  to: 'the household of that time',
  reason: 'kept by the outfit',
  text: 'kept by the outfit',
}

/** Lines taken in before `instant`, without what people wrote in their own words and whatever corrects it. */
function withoutWordsBefore(rows: readonly EntryRow[], instant: string): EntryRow[] {
  const gone = new Set(
    rows.filter((row) => row.recordedAt < instant && !aboutTheWell(row)).map((row) => row.id),
  )
  const about = (row: EntryRow) => row.supersedes ?? row.withdraws
  // A correction may be corrected: what leads to a line that is gone goes with it, however long the way.
  for (let before = -1; before !== gone.size; ) {
    before = gone.size
    for (const row of rows) if (gone.has(about(row) ?? '')) gone.add(row.id)
  }
  return rows
    .filter((row) => !gone.has(row.id))
    .map((row) => (row.recordedAt < instant ? { ...row, payload: impersonal(row.payload) } : row))
}

function aboutTheWell(row: EntryRow): boolean {
  return OF_THE_WELL.includes(row.kind) || row.supersedes !== null || row.withdraws !== null
}

function impersonal(payload: string): string {
  return JSON.stringify(
    JSON.parse(payload, (key, value: unknown) => {
      if (typeof value !== 'string' || !Object.hasOwn(PERSONAL, key)) return value
      return PERSONAL[key] ?? undefined
    }),
  )
}
