import { revalidatePath } from 'next/cache'
import { currentSession, deskSession } from '@/app/ui/session'
import type { Viewer } from '@/lib/access/viewer'
import { now, today } from '@/lib/clock'
import { BATCH_BYTES_MAX } from '@/lib/domain/limits'
import { readLimited, TOO_LARGE } from '@/lib/exchange/batch/limits'
import type { WholeRefusal } from '@/lib/exchange/batch/shape'
import { takeBatch } from '@/lib/exchange/batch/take'
import type { Db } from '@/lib/records/db'
import { getDb } from '@/lib/records/open'
import { noteSecurity } from '@/lib/records/security-log'

/**
 * Takes in what phones wrote without signal. A route with a version, not an action: what waits on a phone must still be
 * taken after the pages were built anew. Only from pages of this site (proxy.ts) and as JSON.
 */
export async function POST(request: Request): Promise<Response> {
  if (!(await currentSession())) return whole({ status: 401, ...SIGN_IN })
  const session = await deskSession()
  if (!session) return new Response('Not found', { status: 404 })
  const { viewer } = session
  const db = await getDb()
  if (!request.headers.get('content-type')?.startsWith('application/json'))
    return refused(db, viewer, { status: 400, wrong: 'This is no batch of records', todo: 'Send JSON' })
  const bytes = await readLimited(request, BATCH_BYTES_MAX)
  if (bytes === null) return refused(db, viewer, TOO_LARGE)
  const clock = { at: now(), today: today() }
  const taken = await takeBatch(db, viewer, new TextDecoder().decode(bytes), clock)
  if (!taken.ok) return refused(db, viewer, taken.refusal)
  if (taken.reply.answers.some(({ outcome }) => outcome === 'stored')) revalidatePath('/', 'layout')
  return Response.json(taken.reply, { headers: { 'Cache-Control': 'no-store' } })
}

const SIGN_IN = {
  wrong: 'Nobody is signed in',
  todo: 'Sign in again; what was saved on the phone is sent then',
}

/** A body that this program never sends is noted: its phones send what the server reads. */
function refused(db: Db, viewer: Viewer, refusal: WholeRefusal): Response {
  noteSecurity(db, { what: 'body-refused', by: viewer.userId, about: `batch ${refusal.status}` })
  return whole(refusal)
}

function whole({ status, wrong, todo }: Omit<WholeRefusal, 'status'> & { status: number }): Response {
  return Response.json({ wrong, todo }, { status, headers: { 'Cache-Control': 'no-store' } })
}
