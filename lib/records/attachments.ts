import { createHash } from 'node:crypto'
import { may } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { readContent } from './attachment-content'
import { writeChange } from './changes'
import type { Db } from './db'
import { entryRow } from './entries'
import { type FileStore, filesOf } from './file-store'
import type { Attachment } from './generated/client'
import { newId } from './ids'
import { noteSecurity } from './security-log'
import { shownName } from './shown-name'
import { prepared } from './statements'
import { transaction } from './transaction'
import { visibleWell } from './wells'

export type AttachmentRow = Attachment

export type Attached =
  | { kind: 'stored'; row: AttachmentRow }
  /** The same file hangs on this line already. */
  | { kind: 'already'; row: AttachmentRow }
  | { kind: 'refused'; message: string }
  /** No such line for this viewer, whether it exists or not. */
  | { kind: 'no-such-entry' }

const COLUMNS = [
  'id',
  'wellId',
  'entryId',
  'name',
  'type',
  'bytes',
  'sha256',
  'stored',
  'at',
  'byUserId',
  'byName',
  'about',
] as const satisfies readonly (keyof AttachmentRow)[]

const INSERT = `INSERT INTO "Attachment" (${COLUMNS.map((c) => `"${c}"`).join(',')})
  VALUES (${COLUMNS.map(() => '?').join(',')})`

/**
 * Hangs a photo or a PDF on a line of a logbook; `about` says what it shows, where somebody said so. The file is on the disk before the record that names it, so that there is
 * never a record without its file; a file whose record could not be written is removed, or swept away at the next start.
 */
export async function attach(
  db: Db,
  viewer: Viewer,
  entryId: string,
  file: {
    name: string
    bytes: Uint8Array
    /** Made on the device that sends it, so that sending twice stores once; made here where there is none. */
    id?: string
    about?: string
  },
  at: string,
  files: FileStore = filesOf(db),
): Promise<Attached> {
  const wellId = recordableWell(db, viewer, entryId)
  if (wellId === null) return { kind: 'no-such-entry' }
  const content = await readContent(file.bytes)
  if (content.kind === 'refused') {
    noteSecurity(db, { what: 'file-refused', by: viewer.userId, about: `entry ${entryId}` })
    return content
  }
  const sha256 = createHash('sha256').update(content.bytes).digest('hex')
  const twin = sameFile(db, entryId, sha256, file.id)
  if (twin) return { kind: 'already', row: twin }
  const row: AttachmentRow = {
    id: file.id ?? newId(),
    wellId,
    entryId,
    name: `${shownName(file.name).replace(/\.[^.]*$/, '') || 'sheet'}.${content.extension}`,
    type: content.type,
    bytes: content.bytes.length,
    sha256,
    stored: await files.put(content.bytes),
    at,
    byUserId: viewer.userId,
    byName: viewer.name,
    about: file.about ?? null,
  }
  try {
    const outcome = await transaction(db, () => insert(db, viewer, row))
    if (outcome.kind !== 'stored') await files.remove(row.stored)
    return outcome
  } catch (error) {
    // Should this fail too, the sweep at the next start takes the file away; the first error is the one to tell.
    await files.remove(row.stored).catch(() => undefined)
    throw error
  }
}

/** Asked once more within the transaction: while the file was being written, rights and rows may have changed. */
function insert(db: Db, viewer: Viewer, row: AttachmentRow): Attached {
  if (recordableWell(db, viewer, row.entryId) === null) return { kind: 'no-such-entry' }
  const twin = sameFile(db, row.entryId, row.sha256, row.id)
  if (twin) return { kind: 'already', row: twin }
  prepared(db.sqlite, INSERT).run(...COLUMNS.map((column) => row[column]))
  const { name, type, bytes, sha256, about } = row
  writeChange(db.sqlite, viewer, row.at, {
    action: 'file attached',
    targetKind: 'entry',
    targetId: row.entryId,
    wellId: row.wellId,
    after: { name, type, bytes, sha256, ...(about === null ? {} : { about }) },
  })
  return { kind: 'stored', row }
}

/** The well of a line to which this viewer may add; null where there is none. */
function recordableWell(db: Db, viewer: Viewer, entryId: string): string | null {
  const entry = entryRow(db.sqlite, entryId)
  const well = entry && visibleWell(db, viewer, entry.wellId)
  return well && may(viewer, 'entry.record', well.ownerId) ? well.id : null
}

/** What hangs there already: the same bytes, or the same sending of them drawn anew by another edition of the program. */
function sameFile(db: Db, entryId: string, sha256: string, id?: string): AttachmentRow | undefined {
  return prepared<AttachmentRow>(
    db.sqlite,
    'SELECT * FROM "Attachment" WHERE "entryId" = ? AND ("sha256" = ? OR "id" = ?)',
  ).get(entryId, sha256, id ?? null)
}

/** What hangs on a line, oldest first; none where the viewer may not see the well. */
export function attachmentsOf(db: Db, viewer: Viewer, entryId: string): AttachmentRow[] {
  return prepared<AttachmentRow>(
    db.sqlite,
    'SELECT * FROM "Attachment" WHERE "entryId" = ? ORDER BY "at", "id"',
  )
    .all(entryId)
    .filter((row) => shownTo(db, viewer, row))
}

/** A lab's sheet names whom it was for: a household is shown the files that came since the well is theirs. */
function shownTo(db: Db, viewer: Viewer, row: AttachmentRow): boolean {
  const well = visibleWell(db, viewer, row.wellId)
  if (!well) return false
  return viewer.role !== 'owner' || well.heldSince === null || row.at >= well.heldSince
}

/** What hangs on the lines of a well, oldest first; none where the viewer may not see it. */
export function attachmentsOfWell(db: Db, viewer: Viewer, wellId: string): AttachmentRow[] {
  if (!visibleWell(db, viewer, wellId)) return []
  return prepared<AttachmentRow>(
    db.sqlite,
    'SELECT * FROM "Attachment" WHERE "wellId" = ? ORDER BY "at", "id"',
  ).all(wellId)
}

/**
 * An attachment with its bytes; null when there is none for this viewer, whether it exists or not. Throws where the file is
 * gone or is not the one that was stored: a damaged disk must not look like an absent sheet.
 */
export async function openAttachment(
  db: Db,
  viewer: Viewer,
  id: string,
  files: FileStore = filesOf(db),
): Promise<{ row: AttachmentRow; bytes: Buffer } | null> {
  const row = prepared<AttachmentRow>(db.sqlite, 'SELECT * FROM "Attachment" WHERE "id" = ?').get(id)
  if (!row || !shownTo(db, viewer, row)) return null
  const bytes = await files.read(row.stored)
  if (createHash('sha256').update(bytes).digest('hex') !== row.sha256)
    throw new Error(`the file of attachment ${row.id} is not the one that was stored`)
  return { row, bytes }
}

/** A file younger than this may be one whose record is just being written, by a server that runs beside. */
const SETTLED_MS = 10 * 60 * 1000

/** Removes files that no record names, left behind by a write that was cut short; answers how many. `now` in ms since 1970. */
export function sweepAttachments(db: Db, now: number, files: FileStore = filesOf(db)): Promise<number> {
  const rows = prepared<{ stored: string }>(db.sqlite, 'SELECT "stored" FROM "Attachment"').all()
  return files.sweep(new Set(rows.map((row) => row.stored)), now - SETTLED_MS)
}
