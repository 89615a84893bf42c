import { stringify } from 'csv-stringify/sync'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Db } from '@/lib/records/db'
import { allMoves, shelf } from '@/lib/records/stock-items'
import { textCell } from './export-cells'

/** Tells spreadsheet programs that the file is UTF-8. */
const BYTE_ORDER_MARK = '\uFEFF'

export const STOCK_FILES = ['stock', 'stock-book'] as const

/**
 * The shelf as a plain file, for spreadsheets: its items with what is there, or every line of its book. A shelf that was
 * never counted is a blank cell.
 * Throws  NotAllowed unless the viewer may export.
 */
export function* exportStockCsv(
  db: Db,
  viewer: Viewer,
  file: (typeof STOCK_FILES)[number],
): Generator<string> {
  demandFleet(viewer, 'export.run')
  yield BYTE_ORDER_MARK
  if (file === 'stock') {
    yield stringify([['part', 'model', 'on_shelf', 'last_counted', 'reorder_at', 'up_to']])
    for (const { part, model, shelf: there, countedOn, reorderAt, upTo } of shelf(db, viewer)) {
      yield stringify([
        [textCell(part), textCell(model), number(there), countedOn ?? '', number(reorderAt), number(upTo)],
      ])
    }
    return
  }
  yield stringify([['part', 'model', 'date', 'what', 'count', 'reason', 'by']])
  for (const { part, model, on, kind, count, reason, byName } of allMoves(db, viewer)) {
    yield stringify([
      [textCell(part), textCell(model), on, kind, String(count), textCell(reason), textCell(byName)],
    ])
  }
}

const number = (value: number | null) => (value === null ? '' : String(value))
