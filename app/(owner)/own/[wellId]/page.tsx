import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { DropDraft } from '@/app/ui/drop-draft'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { ownViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { OWNER_CAUTION } from '@/lib/domain/logbook/owner-advice'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { ownWell } from '@/lib/records/own-well'
import { getOutfit } from '@/lib/records/settings'
import { wellWater } from '@/lib/records/well-water'
import { Warning } from '../warning'
import { HoldingUp } from './_page/holding-up'
import { Next } from './_page/next'
import { Visits } from './_page/visits'
import { Waiting } from './_page/waiting'
import { YourWater } from './_page/your-water'

export const metadata: Metadata = { title: 'Your well' }

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

/** One well for its household: the water, the well, what is next, what was done, and what they can do here. */
export default async function OwnWellPage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await ownViewer()
  const db = await getDb()
  const well = ownWell(db, viewer, wellId)
  if (!well) notFound()
  const show = (day: string) => showDay(day, viewer.units)
  const contact = getOutfit(db)
  return (
    <>
      <PageHead
        title={well.name ?? `Well ${well.label}`}
        lead={[contact.name, contact.contact].filter(Boolean).join(', ') || undefined}
      >
        <Link className="button" href={paths.ownTank(wellId)} prefetch={false}>
          Tank level
        </Link>
        <Link className="button" href={paths.ownReading(wellId)} prefetch={false}>
          Meter reading
        </Link>
        <Link className="button" href={paths.ownSheet(wellId)} prefetch={false}>
          Send in a lab sheet
        </Link>
        <Link className="button button-quiet" href={paths.ownAsk(wellId)} prefetch={false}>
          Ask for a visit
        </Link>
        <Link className="button button-quiet" href={paths.ownHelp(wellId)} prefetch={false}>
          What to do if
        </Link>
        <Link className="button button-quiet" href={paths.ownFind(wellId)} prefetch={false}>
          Where it is
        </Link>
        <PrintButton />
      </PageHead>
      <Saved wellId={wellId} how={textParam(await searchParams, 'saved')} />
      <Warning
        found={standingHasChain(well.standing) ? wellWater(db, viewer, wellId) : null}
        viewer={viewer}
        outfit={contact}
      />
      <Waiting well={well} units={viewer.units} />
      <YourWater well={well} show={show} />
      <section className="stack" aria-labelledby="well">
        <h2 id="well">Your well</h2>
        <HoldingUp well={well} units={viewer.units} />
        <Next well={well} show={show} />
        <Visits well={well} units={viewer.units} />
      </section>
      <p className="text">{OWNER_CAUTION}</p>
    </>
  )
}

const standingHasChain = (standing: { water: { chains: readonly unknown[] } } | null) =>
  (standing?.water.chains.length ?? 0) > 0

function Saved({ wellId, how }: { wellId: string; how: string }) {
  if (how === '') return null
  return (
    <p className="done no-print" role="status">
      <DropDraft storageKey={how === 'asked' ? `ask-${wellId}` : `reading-${wellId}`} />
      {how === 'asked'
        ? 'Thank you. The outfit sees that you ask for a visit. Their answer will stand here.'
        : 'Thank you. It is written down, and the outfit can see it.'}
    </p>
  )
}
