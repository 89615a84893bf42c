import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { DropDraft } from '@/app/ui/drop-draft'
import { PageHead } from '@/app/ui/page-head'
import { ownViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { today } from '@/lib/clock'
import { describeFact } from '@/lib/domain/logbook/describe'
import { sayYieldToOwner } from '@/lib/domain/logbook/owner-words'
import { sayWater } from '@/lib/domain/water/standing-words'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { type OwnWell, ownWell } from '@/lib/records/own-well'
import { getOutfit } from '@/lib/records/settings'
import { wellWater } from '@/lib/records/well-water'
import { Warning } from '../warning'

export const metadata: Metadata = { title: 'Your well' }

const VISITS_SHOWN = 8
const DUTIES_SHOWN = 6

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

/** One well for its household: the water, what is next, how the well holds up, and what was done. */
export default async function OwnWellPage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await ownViewer()
  const db = await getDb()
  const well = ownWell(db, viewer, wellId)
  if (!well) notFound()
  const show = (day: string) => showDay(day, viewer.units)
  const { standing } = well
  const water = standing && sayWater(standing.water, today(), show)
  const contact = getOutfit(db)
  return (
    <>
      <PageHead
        title={well.name ?? `Well ${well.label}`}
        lead={[contact.name, contact.contact].filter(Boolean).join(', ') || undefined}
      >
        <Link className="button" href={paths.ownSheet(wellId)}>
          Send in a lab sheet
        </Link>
        <Link className="button button-quiet" href={paths.ownReading(wellId)}>
          Write down a reading
        </Link>
        <Link className="button button-quiet" href={paths.ownHelp(wellId)}>
          What to do if
        </Link>
      </PageHead>
      {textParam(await searchParams, 'saved') === '' ? null : (
        <p className="done" role="status">
          <DropDraft storageKey={`reading-${wellId}`} />
          Thank you. It is written down, and the outfit can see it.
        </p>
      )}
      <Warning
        found={standing?.water.chains.length ? wellWater(db, viewer, wellId) : null}
        viewer={viewer}
        outfit={contact}
      />
      <section className="sheet stack" aria-labelledby="water">
        <h2 id="water">Your water</h2>
        {water ? (
          <>
            <p className="verdict">
              <Status tone={water.tone}>{water.word}</Status>
            </p>
            <p className="text">{water.says}</p>
          </>
        ) : null}
        <Sheets well={well} show={show} />
      </section>
      <Next well={well} show={show} />
      <section className="sheet stack" aria-labelledby="well">
        <h2 id="well">How the well holds up</h2>
        <p className="text">{standing ? sayYieldToOwner(standing.yield, show) : 'Nothing is known yet.'}</p>
      </section>
      <section className="stack" aria-labelledby="done">
        <h2 id="done">What was done and read</h2>
        {well.visits.length === 0 ? <p>Nothing is written down yet.</p> : null}
        {well.visits.slice(0, VISITS_SHOWN).map((visit) => (
          <article key={visit.visitId} className="sheet stack-tight">
            <h3>
              {show(visit.on)}
              {visit.by.length > 0 ? <span className="muted"> by {visit.by.join(', ')}</span> : null}
            </h3>
            <ul className="plain-list">
              {visit.lines
                .filter((line) => line.stands)
                .map((line) => (
                  <li key={line.id}>{describeFact(line.fact, viewer.units)}</li>
                ))}
            </ul>
          </article>
        ))}
      </section>
    </>
  )
}

type Part = { well: OwnWell; show: (day: string) => string }

function Sheets({ well, show }: Part) {
  if (well.samples.length === 0) return null
  return (
    <>
      <h3>Lab sheets</h3>
      <ul className="plain-list">
        {well.samples.map(({ entryId, on, unconfirmed }) => (
          <li key={entryId}>
            <Link href={paths.ownSample(well.id, entryId)} prefetch={false}>
              Sheet of {show(on)}
            </Link>
            {unconfirmed ? ', sent in by you, not yet looked at' : ''}
          </li>
        ))}
      </ul>
    </>
  )
}

function Next({ well, show }: Part) {
  const due = (well.standing?.duties ?? [])
    .flatMap(({ id, name, due: on }) => (on === null ? [] : [{ id, name, on }]))
    .sort((a, b) => (a.on < b.on ? -1 : 1))
    .slice(0, DUTIES_SHOWN)
  return (
    <section className="sheet stack" aria-labelledby="next">
      <h2 id="next">What is next</h2>
      {due.length === 0 ? <p>Nothing is planned yet.</p> : null}
      <ul className="plain-list">
        {due.map(({ id, name, on }) => (
          <li key={id}>
            {name}: {on < today() ? `was due on ${show(on)}` : `by ${show(on)}`}
          </li>
        ))}
      </ul>
    </section>
  )
}
