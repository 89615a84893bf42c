import { currentSession } from '@/app/ui/session'
import { importJob } from '@/lib/exchange/jobs'

/** How far an import is, for the page that waits for it. Not there for anybody but who started it. */
export async function GET(_request: Request, { params }: { params: Promise<{ jobId: string }> }) {
  const session = await currentSession()
  const { jobId } = await params
  const job = session ? importJob(session.viewer, jobId) : null
  if (!job) return new Response('Not found', { status: 404 })
  const { id, phase, done, total } = job
  return Response.json({ id, phase, done, total }, { headers: { 'Cache-Control': 'no-store' } })
}
