import { revalidatePath } from 'next/cache'
import { currentSession, deskSession } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { ATTACHMENT_BYTES_MAX, sayBytes } from '@/lib/domain/limits'
import { readLimited } from '@/lib/exchange/batch/limits'
import { takePhoto } from '@/lib/exchange/batch/photo'
import { getDb } from '@/lib/records/open'

/** Takes in one photo of a visit that was written without signal: its bytes as they are, the rest in the address. */
export async function POST(request: Request): Promise<Response> {
  const headers = { 'Cache-Control': 'no-store' }
  if (!(await currentSession()))
    return Response.json({ wrong: 'Nobody is signed in', todo: 'Sign in again' }, { status: 401, headers })
  const session = await deskSession()
  if (!session) return new Response('Not found', { status: 404 })
  const bytes = await readLimited(request, ATTACHMENT_BYTES_MAX)
  if (bytes === null)
    return Response.json(
      {
        outcome: 'refused',
        why: [
          {
            field: 'photo',
            wrong: `The photo is larger than ${sayBytes(ATTACHMENT_BYTES_MAX)}`,
            todo: 'Take it smaller',
          },
        ],
      },
      { headers },
    )
  const about = Object.fromEntries(new URL(request.url).searchParams)
  const outcome = await takePhoto(await getDb(), session.viewer, about, bytes, now())
  if (outcome.outcome === 'stored') revalidatePath('/', 'layout')
  return Response.json(outcome, { headers })
}
