import { revalidatePath } from 'next/cache'
import { currentSession } from '@/app/ui/session'
import { now, today } from '@/lib/clock'
import { BATCH_BYTES_MAX, readLimited, TOO_LARGE } from '@/lib/exchange/batch/limits'
import type { WholeRefusal } from '@/lib/exchange/batch/shape'
import { takeBatch } from '@/lib/exchange/batch/take'
import { getDb } from '@/lib/records/open'

/**
 * Takes in what phones wrote without signal. A route with a version, not an action: what waits on a phone must still be
 * taken after the pages were built anew. Only from pages of this site (proxy.ts) and as JSON.
 */
export async function POST(request: Request): Promise<Response> {
  const session = await currentSession()
  if (!session) return whole({ status: 401, ...SIGN_IN })
  if (session.viewer.role === 'owner') return new Response('Not found', { status: 404 })
  if (!request.headers.get('content-type')?.startsWith('application/json'))
    return whole({ status: 400, wrong: 'This is no batch of records', todo: 'Send JSON' })
  const bytes = await readLimited(request, BATCH_BYTES_MAX)
  if (bytes === null) return whole(TOO_LARGE)
  const clock = { at: now(), today: today() }
  const taken = await takeBatch(await getDb(), session.viewer, new TextDecoder().decode(bytes), clock)
  if (!taken.ok) return whole(taken.refusal)
  if (taken.reply.answers.some(({ outcome }) => outcome === 'stored')) revalidatePath('/', 'layout')
  return Response.json(taken.reply, { headers: { 'Cache-Control': 'no-store' } })
}

const SIGN_IN = {
  wrong: 'Nobody is signed in',
  todo: 'Sign in again; what was saved on the phone is sent then',
}

function whole({ status, wrong, todo }: Omit<WholeRefusal, 'status'> & { status: number }): Response {
  return Response.json({ wrong, todo }, { status, headers: { 'Cache-Control': 'no-store' } })
}
