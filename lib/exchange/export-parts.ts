import { stringify } from 'csv-stringify/sync'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Db } from '@/lib/records/db'
import { everyPart } from '@/lib/records/part-register'
import { guarded } from './guard'

/** Tells spreadsheet programs that the file is UTF-8. */
const BYTE_ORDER_MARK = '\uFEFF'

const HEADINGS = [
  'well',
  'part',
  'model',
  'size',
  'count',
  'fitted',
  'warranty_until',
  'removed',
  'from',
  'notes',
]

/**
 * The register of parts of every well, as its page shows it: what people wrote and what visits fitted, those taken out
 * among them. For reading on: the import does not take it back.
 * Throws  NotAllowed unless the viewer may export.
 */
export function* exportParts(db: Db, viewer: Viewer): Generator<string> {
  demandFleet(viewer, 'export.run')
  yield BYTE_ORDER_MARK + stringify([HEADINGS])
  for (const { label, parts } of everyPart(db, viewer)) {
    yield stringify(
      parts.map(({ kind, model, size, count, fittedOn, warrantyUntil, removedOn, notes, ...part }) =>
        [
          label,
          kind,
          model ?? '',
          size ?? '',
          String(count),
          fittedOn ?? '',
          warrantyUntil ?? '',
          removedOn ?? '',
          part.entryId === null ? 'by hand' : part.listedId === null ? 'visit' : 'by hand and visit',
          notes ?? '',
        ].map(guarded),
      ),
    )
  }
}
