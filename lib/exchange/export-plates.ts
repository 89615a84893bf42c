import { stringify } from 'csv-stringify/sync'
import type { Viewer } from '@/lib/access/viewer'
import type { Db } from '@/lib/records/db'
import { everyPlate } from '@/lib/records/plates'
import { guarded } from './guard'

/** Tells spreadsheet programs that the file is UTF-8. */
const BYTE_ORDER_MARK = '\uFEFF'

/**
 * Every code printed for a lid or a pump, those taken back among them. For reading on: the import does not take it back.
 * Throws  NotAllowed unless the viewer may export.
 */
export function* exportPlates(db: Db, viewer: Viewer): Generator<string> {
  yield BYTE_ORDER_MARK + stringify([['well', 'code', 'made', 'made_by', 'taken_back']])
  for (const { label, code, createdAt, createdBy, revokedAt } of everyPlate(db, viewer)) {
    yield stringify([[label, code, createdAt, createdBy, revokedAt ?? ''].map(guarded)])
  }
}
