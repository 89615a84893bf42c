import { currentSession, noteDenied } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { now, today } from '@/lib/clock'
import { TABLE_KINDS } from '@/lib/exchange/columns'
import { exportCsv } from '@/lib/exchange/export'
import { exportParts } from '@/lib/exchange/export-parts'
import { exportPlates } from '@/lib/exchange/export-plates'
import { exportRounds } from '@/lib/exchange/export-rounds'
import { exportSlot } from '@/lib/exchange/export-slots'
import { exportStockCsv, STOCK_FILES } from '@/lib/exchange/export-stock'
import { wholeExport, wholeFits } from '@/lib/exchange/whole'
import { getDb } from '@/lib/records/open'

/** Files of their own, which the import does not take back. */
const ONE_WAY = new Map([
  ['rounds.csv', exportRounds],
  ['parts.csv', exportParts],
  ['plates.csv', exportPlates],
])
/** Every table and every attached file in one archive. */
const WHOLE = 'everything.zip'

/** One of the plain files of the whole fleet, or everything, written as it is sent. */
export async function GET(_request: Request, { params }: { params: Promise<{ file: string }> }) {
  const { file } = await params
  const session = await currentSession()
  const kind = TABLE_KINDS.find((known) => `${known}.csv` === file)
  const shelf = STOCK_FILES.find((known) => `${known}.csv` === file)
  const oneWay = ONE_WAY.get(file)
  if (!(kind || shelf || oneWay || file === WHOLE) || !session) return absent()
  if (!mayFleet(session.viewer, 'export.run')) {
    await noteDenied(session.viewer, 'export.run')
    return absent()
  }
  const db = await getDb()
  const { viewer } = session
  if (file === WHOLE) return whole(viewer)
  const rows = kind
    ? exportCsv(db, viewer, kind)
    : shelf
      ? exportStockCsv(db, viewer, shelf)
      : oneWay?.(db, viewer)
  if (!rows) return absent()
  return sent(utf8(rows), file, 'text/csv; charset=utf-8')
}

async function whole(viewer: Viewer): Promise<Response> {
  const db = await getDb()
  if (!mayFleet(viewer, 'user.manage')) return absent()
  if (!wholeFits(db, viewer))
    return new Response(
      'The attached files are more than one archive holds: copy the data folder instead.\n',
      {
        status: 409,
        headers: { 'Content-Type': 'text/plain; charset=utf-8' },
      },
    )
  return sent(wholeExport(db, viewer, now()), `wellround-${today()}.zip`, 'application/zip')
}

const absent = () => new Response('Not found', { status: 404 })

async function* utf8(rows: Generator<string>): AsyncGenerator<Uint8Array> {
  const encoder = new TextEncoder()
  for (const text of rows) yield encoder.encode(text)
}

/** Sent piece by piece as it is made. A fault cuts the connection, so that half a file is not taken for a whole one. */
function sent(pieces: AsyncGenerator<Uint8Array>, name: string, type: string): Response {
  const free = exportSlot()
  if (!free)
    return new Response('Other exports are being written. Try again in a moment.\n', {
      status: 429,
      headers: { 'Content-Type': 'text/plain; charset=utf-8', 'Retry-After': '10' },
    })
  const body = new ReadableStream<Uint8Array>({
    async pull(controller) {
      try {
        const { value, done } = await pieces.next()
        if (!done) return controller.enqueue(value)
      } catch (error) {
        free()
        throw error
      }
      free()
      controller.close()
    },
    async cancel() {
      free()
      await pieces.return(undefined)
    },
  })
  return new Response(body, {
    headers: {
      'Content-Type': type,
      'Content-Disposition': `attachment; filename="${name}"`,
      'Cache-Control': 'no-store',
    },
  })
}
