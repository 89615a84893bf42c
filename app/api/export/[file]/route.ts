import { currentSession } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { TABLE_KINDS } from '@/lib/exchange/columns'
import { exportCsv } from '@/lib/exchange/export'
import { exportPlates } from '@/lib/exchange/export-plates'
import { exportRounds } from '@/lib/exchange/export-rounds'
import { exportStockCsv, STOCK_FILES } from '@/lib/exchange/export-stock'
import { getDb } from '@/lib/records/open'

/** Files of their own, which the import does not take back. */
const ONE_WAY = new Map([
  ['rounds.csv', exportRounds],
  ['plates.csv', exportPlates],
])

/** One of the plain files of the whole fleet, written as it is sent. */
export async function GET(_request: Request, { params }: { params: Promise<{ file: string }> }) {
  const { file } = await params
  const session = await currentSession()
  const kind = TABLE_KINDS.find((known) => `${known}.csv` === file)
  const shelf = STOCK_FILES.find((known) => `${known}.csv` === file)
  const oneWay = ONE_WAY.get(file)
  if (!(kind || shelf || oneWay) || !session || !mayFleet(session.viewer, 'export.run'))
    return new Response('Not found', { status: 404 })
  const db = await getDb()
  const { viewer } = session
  const rows = kind
    ? exportCsv(db, viewer, kind)
    : shelf
      ? exportStockCsv(db, viewer, shelf)
      : oneWay?.(db, viewer)
  if (!rows) return new Response('Not found', { status: 404 })
  const encoder = new TextEncoder()
  const body = new ReadableStream<Uint8Array>({
    pull(controller) {
      const { value, done } = rows.next()
      if (done) controller.close()
      else controller.enqueue(encoder.encode(value))
    },
    cancel() {
      rows.return(undefined)
    },
  })
  return new Response(body, {
    headers: {
      'Content-Type': 'text/csv; charset=utf-8',
      'Content-Disposition': `attachment; filename="${file}"`,
      'Cache-Control': 'no-store',
    },
  })
}
