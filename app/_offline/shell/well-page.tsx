import { useEffect } from 'react'
import { VisitWords } from '@/app/(desk)/_rounds/visit-words'
import { ChainBanner } from '@/app/ui/chain-banner'
import { PageHead } from '@/app/ui/page-head'
import { showDay } from '@/app/ui/show-day'
import { todayIn } from '@/lib/clock'
import { formatNumber } from '@/lib/domain/quantity'
import { sayDistance } from '@/lib/domain/upkeep/due-words'
import type { PhoneWell } from '@/lib/exchange/phone/shape'
import { paths } from '@/lib/paths'
import { words } from '../take-along'

type Props = { well: PhoneWell; zone: string; takenAt: string }

/** A well as it was taken along: how to get there, what is due, what was done last. */
export function OfflineWell({ well, zone, takenAt }: Props) {
  const day = todayIn(zone, Date.now())
  useEffect(() => {
    document.title = `${well.label} – Wellround`
  }, [well])
  return (
    <>
      <ChainBanner wellId={well.id} chains={well.chains} units={well.units} linked={false} />
      <PageHead title={[well.label, well.name].filter(Boolean).join(', ')} lead={lead(well)}>
        <a className="button" href={paths.visit(well.id)}>
          Log a visit
        </a>
        <a className="button button-quiet" href={paths.newTest(well.id)}>
          Run a test
        </a>
        <a className="button button-quiet" href={paths.newSample(well.id)}>
          Log a lab sheet
        </a>
        <a className="button button-quiet" href={paths.findWell(well.id)}>
          Find the head
        </a>
      </PageHead>
      <p className="muted">From what is on this phone, last updated {words(takenAt)}.</p>
      <p className="muted text">
        Not here without signal: earlier tests and samples with their reports, charts, visits before the last
        five, corrections, and measuring the place anew.
      </p>
      <section aria-labelledby="way" className="stack-tight">
        <h2 id="way">The way there</h2>
        <div className="sheet stack-tight">
          <Coordinate well={well} />
          {well.access ? <p>Way in: {well.access}</p> : null}
          <VisitWords well={well} />
          {well.closedFrom && well.closedTo ? (
            <p>
              Closed every year from {well.closedFrom} to {well.closedTo} (month-day)
              {well.closedWhy ? `: ${well.closedWhy}` : ''}.
            </p>
          ) : null}
          {well.notes ? <p>{well.notes}</p> : null}
          {well.owner?.phone ? (
            <p>
              {well.owner.name}{' '}
              <a href={`tel:${well.owner.phone.replace(/[^\d+]/g, '')}`}>{well.owner.phone}</a>
            </p>
          ) : null}
        </div>
      </section>
      <section aria-labelledby="due" className="stack-tight">
        <h2 id="due">Duties</h2>
        {well.duties.length === 0 ? <p className="muted">This well has no duties yet.</p> : null}
        <ul>
          {well.duties.map(({ key, name, due, why }) => (
            <li key={key}>
              <strong>{name}</strong>:{' '}
              {due ? `${sayDistance(due, day)}, ${showDay(due, well.units)}` : 'no date known'}
              {why ? <span className="muted"> {why}</span> : null}
            </li>
          ))}
        </ul>
      </section>
      <section aria-labelledby="lately" className="stack-tight">
        <h2 id="lately">The last visits</h2>
        {well.visits.length === 0 ? <p className="muted">Nothing is written yet.</p> : null}
        {well.visits.map(({ on, by, lines }) => (
          <article className="sheet stack-tight" key={`${on}${lines.join()}`}>
            <h3>
              {showDay(on, well.units)}
              {by ? <span className="muted"> by {by}</span> : null}
            </h3>
            <ul className="plain-list">
              {lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </article>
        ))}
      </section>
    </>
  )
}

const lead = ({ owner, area }: PhoneWell) => [owner?.name, area].filter(Boolean).join(' · ')

function Coordinate({ well: { latitude, longitude } }: { well: PhoneWell }) {
  if (latitude === null || longitude === null) return <p className="muted">No coordinate is known.</p>
  return (
    <p>
      <a href={`geo:${latitude},${longitude}`}>
        {formatNumber(latitude, 5, 6)}, {formatNumber(longitude, 5, 6)}
      </a>
    </p>
  )
}
