import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { testReadings, testResult } from '@/lib/domain/logbook/test-result'
import { findings } from '@/lib/forms/test/findings'
import { kindOf, TEST_WORDS } from '@/lib/forms/test/words'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { testsOfWell } from '@/lib/records/well-tests'

export const metadata: Metadata = { title: 'Tests' }

/** Every test of a well, newest first, each with its one sentence. */
export default async function TestsPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const page = testsOfWell(await getDb(), viewer, wellId)
  if (!page) notFound()
  const { well, tests } = page
  return (
    <>
      <PageHead title={`Tests of ${well.label}`} lead={well.name ?? undefined}>
        <Link className="button" href={paths.newTest(wellId)} prefetch={false}>
          Run a test
        </Link>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      {tests.length === 0 ? (
        <EmptyState title="No test yet">
          <p>A recovery test takes half an hour and tells how much the well gives.</p>
        </EmptyState>
      ) : null}
      <ul className="plain-list stack-tight">
        {tests.map((test) => {
          const readings = testReadings(test.fact)
          const found = findings(readings, testResult(readings, well), viewer.units)
          const title = `${TEST_WORDS[kindOf(test.fact)].title}, ${showDay(test.on, viewer.units)}`
          return (
            <li key={test.id} className="sheet stack-tight">
              <h2>
                <Link href={paths.test(wellId, test.id)} prefetch={false}>
                  {title}
                </Link>
              </h2>
              {test.stands ? (
                <p>
                  {found.refused ? <Status tone="unsure">No result</Status> : null} {found.says}
                </p>
              ) : (
                <p>
                  <Status tone="alarm">Withdrawn: counts for nothing</Status>
                </p>
              )}
            </li>
          )
        })}
      </ul>
    </>
  )
}
