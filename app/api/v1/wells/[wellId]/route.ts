import { deskSession } from '@/app/ui/session'
import { zone } from '@/lib/clock'
import { photoIds, type TakenWell } from '@/lib/exchange/phone/shape'
import { phoneWell } from '@/lib/exchange/phone/well'
import { getDb } from '@/lib/records/open'

/** One well as a phone carries it into the woods. Not there for anybody outside the desk. */
export async function GET(_request: Request, { params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const session = await deskSession()
  const well = session ? phoneWell(await getDb(), session.viewer, wellId) : null
  if (!well) return new Response('Not found', { status: 404 })
  const taken: TakenWell = { version: 1, zone: zone(), pictures: photoIds([well]), well }
  return Response.json(taken, { headers: { 'Cache-Control': 'no-store' } })
}
