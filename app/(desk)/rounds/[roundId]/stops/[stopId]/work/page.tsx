import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { ChainBanner } from '@/app/ui/chain-banner'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { Status } from '@/app/ui/status'
import { daysShown } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { stopWork } from '@/lib/records/stop-work'
import { StopWords } from '../../../../../_rounds/visit-words'
import { saveWork } from './actions'
import { WorkForm } from './work-form'

export const metadata: Metadata = { title: 'Work at a stop' }

type Props = { params: Promise<{ roundId: string; stopId: string }> }

/** What is planned at one stop, to be changed where it stands on the round. */
export default async function StopWorkPage({ params }: Props) {
  const { roundId, stopId } = await params
  const viewer = await deskViewer()
  const work = stopWork(await getDb(), viewer, roundId, stopId)
  if (!work) notFound()
  const { round, stop, choices, setUpMinutes, reckoned } = work
  const over = round.status === 'closed' || stop.outcome !== null
  return (
    <>
      <PageHead
        title={`Work at ${stop.label}`}
        lead={[stop.wellName, `stop ${stop.position} of ${round.name}`].filter(Boolean).join(' · ')}
      >
        <Link href={`${paths.round(roundId)}#stop-${stopId}`} prefetch={false}>
          Back to the round
        </Link>
      </PageHead>
      <ChainBanner wellId={stop.wellId} chains={stop.chains} units={viewer.units} />
      {over ? (
        <p>
          <Status tone="note">
            {stop.outcome === null ? 'This round is closed' : 'This stop is closed'}: what was planned stays
            as it was.
          </Status>
        </p>
      ) : null}
      <StopWords stop={{ ...stop, note: null }} />
      {over ? null : (
        <WorkForm
          action={saveWork.bind(null, roundId, stopId)}
          version={stop.version}
          choices={choices.map((choice) => ({ ...choice, why: daysShown(choice.why, viewer.units) }))}
          setUpMinutes={setUpMinutes}
          minutes={stop.minutes === reckoned ? null : stop.minutes}
          note={stop.note}
        />
      )}
    </>
  )
}
