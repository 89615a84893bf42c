import { showDay } from '@/app/ui/show-day'
import { describeFact } from '@/lib/domain/logbook/describe'
import type { LogVisit } from '@/lib/domain/logbook/history'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import type { OwnWell } from '@/lib/records/own-well'

const SHOWN = 4

/** What was done and read, newest first; older visits are folded away. */
export function Visits({ well, units }: { well: OwnWell; units: UnitSystem }) {
  const visits = well.visits.filter((visit) => visit.lines.some((line) => line.stands))
  const older = visits.slice(SHOWN)
  return (
    <section className="stack" aria-labelledby="done">
      <h3 id="done">What was done and read</h3>
      {visits.length === 0 ? <p>Nothing is written down yet.</p> : null}
      {visits.slice(0, SHOWN).map((visit) => (
        <Visit key={visit.visitId} visit={visit} units={units} />
      ))}
      {older.length === 0 ? null : (
        <details className="section">
          <summary>{older.length === 1 ? 'One earlier visit' : `${older.length} earlier visits`}</summary>
          <div className="section-body stack">
            {older.map((visit) => (
              <Visit key={visit.visitId} visit={visit} units={units} />
            ))}
          </div>
        </details>
      )}
    </section>
  )
}

function Visit({ visit, units }: { visit: LogVisit; units: UnitSystem }) {
  return (
    <article className="sheet stack-tight">
      <h4>
        {showDay(visit.on, units)}
        {visit.by.length > 0 ? <span className="muted"> by {visit.by.join(', ')}</span> : null}
      </h4>
      <ul className="plain-list">
        {visit.lines
          .filter((line) => line.stands)
          .map((line) => (
            <li key={line.id}>{describeFact(line.fact, units)}</li>
          ))}
      </ul>
    </article>
  )
}
