import { now, today } from '@/lib/clock'
import { calendarOf } from '@/lib/exchange/calendar'
import { feedEvents } from '@/lib/records/feed-events'
import { feedViewer } from '@/lib/records/feed-viewer'
import { getDb } from '@/lib/records/open'

type Context = { params: Promise<{ file: string }> }

/** The private calendar of whoever holds the address. Wrong, old and shut-out addresses answer alike. */
export async function GET(_request: Request, { params }: Context): Promise<Response> {
  const { file } = await params
  const db = await getDb()
  const found = await feedViewer(db, file.replace(/\.ics$/, ''))
  if (found.kind === 'wait')
    return new Response('Asked too often. Try again later.\n', {
      status: 429,
      headers: { 'Content-Type': 'text/plain', 'Retry-After': String(found.seconds) },
    })
  if (found.kind === 'absent')
    return new Response('Not found\n', { status: 404, headers: { 'Content-Type': 'text/plain' } })
  return new Response(calendarOf('Wells', feedEvents(db, found.viewer, today(), now())), {
    headers: {
      'Content-Type': 'text/calendar; charset=utf-8',
      'Content-Disposition': 'attachment; filename="wells.ics"',
    },
  })
}
