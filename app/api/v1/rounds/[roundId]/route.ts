import { deskSession } from '@/app/ui/session'
import { zone } from '@/lib/clock'
import { phoneRound } from '@/lib/exchange/phone/round'
import { photoIds, type TakenRound } from '@/lib/exchange/phone/shape'
import { getDb } from '@/lib/records/open'

/** One round with its wells as a phone carries it. Not there for anybody outside the desk. */
export async function GET(_request: Request, { params }: { params: Promise<{ roundId: string }> }) {
  const { roundId } = await params
  const session = await deskSession()
  const round = session ? phoneRound(await getDb(), session.viewer, roundId) : null
  if (!round) return new Response('Not found', { status: 404 })
  const taken: TakenRound = { version: 1, zone: zone(), pictures: photoIds(round.wells), round }
  return Response.json(taken, { headers: { 'Cache-Control': 'no-store' } })
}
