import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { ownViewer } from '@/app/ui/session'
import { describeFact } from '@/lib/domain/logbook/describe'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { ownWell } from '@/lib/records/own-well'
import { saveAnswer } from './actions'
import { AnswerForm } from './answer-form'

export const metadata: Metadata = { title: 'A question about what you wrote' }

type Props = { params: Promise<{ wellId: string; entryId: string }> }

/** A question of the outfit about a line of the household, and the place to answer it. */
export default async function AnswerPage({ params }: Props) {
  const { wellId, entryId } = await params
  const viewer = await ownViewer()
  const well = ownWell(await getDb(), viewer, wellId)
  const matter = well?.matters.find(({ id }) => id === entryId)
  if (matter?.kind !== 'look' || matter.question === null) notFound()
  return (
    <>
      <PageHead title="A question about what you wrote">
        <Link className="button button-quiet" href={paths.ownWell(wellId)} prefetch={false}>
          Back to your well
        </Link>
      </PageHead>
      <dl className="facts">
        <div>
          <dt>You wrote</dt>
          <dd>{describeFact(matter.fact, viewer.units)}</dd>
        </div>
        <div>
          <dt>The outfit asks</dt>
          <dd>{matter.question}</dd>
        </div>
        {matter.answer === null ? null : (
          <div>
            <dt>You answered</dt>
            <dd>{matter.answer}</dd>
          </div>
        )}
      </dl>
      <AnswerForm action={saveAnswer.bind(null, wellId, entryId)} visitId={newId()} />
      <p className="text">
        If it was a slip, say here what is right: the outfit mends the line.
        {matter.fact.kind === 'sample' ? (
          <>
            {' '}
            You can also{' '}
            <Link href={paths.ownSheet(wellId)} prefetch={false}>
              send the lab sheet in again
            </Link>
            .
          </>
        ) : null}
      </p>
    </>
  )
}
