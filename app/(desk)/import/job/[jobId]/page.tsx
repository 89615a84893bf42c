import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { importJob } from '@/lib/exchange/jobs'
import { paths } from '@/lib/paths'
import { Outcome } from './outcome'
import { Progress } from './progress'

export const metadata: Metadata = { title: 'Import' }

/** An import on its way, and how it ended. Without script the page asks again every two seconds. */
export default async function JobPage({ params }: { params: Promise<{ jobId: string }> }) {
  const { jobId } = await params
  const viewer = await deskViewer()
  const job = importJob(viewer, jobId)
  if (!job) notFound()
  return (
    <>
      <PageHead title={job.outcome ? 'Import ended' : 'Importing'} />
      {job.outcome ? (
        <>
          <Outcome outcome={job.outcome} />
          <p className="row">
            <Link className="button" href={paths.due()} prefetch={false}>
              See what is due
            </Link>
            <Link className="button button-quiet" href={paths.imports()} prefetch={false}>
              All imports
            </Link>
          </p>
        </>
      ) : (
        <>
          <noscript>
            <meta httpEquiv="refresh" content="2" />
          </noscript>
          <Progress job={job} />
        </>
      )}
    </>
  )
}
