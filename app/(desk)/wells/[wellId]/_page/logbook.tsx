import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { describeFact } from '@/lib/domain/logbook/describe'
import type { HistoryStep, LogLine, LogVisit } from '@/lib/domain/logbook/history'
import { typedTexts } from '@/lib/domain/logbook/typed-text'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { paths } from '@/lib/paths'

/** A photo or a file that hangs on a line. */
type LogFile = { id: string; entryId: string; type: string }

/** Visits in full sight; older ones are folded away. */
const VISITS_OPEN = 12

/** The logbook, newest visit first: every line as it reads now, with what was corrected or taken back in sight. */
export function Logbook({
  wellId,
  visits,
  units,
  files,
}: {
  wellId: string
  visits: readonly LogVisit[]
  units: UnitSystem
  files: readonly LogFile[]
}) {
  const older = visits.slice(VISITS_OPEN)
  return (
    <section aria-labelledby="logbook" className="stack">
      <h2 id="logbook">Logbook</h2>
      {visits.length === 0 ? (
        <p className="muted">
          Nothing is written yet. Log the first visit, or import the sheets that you have.
        </p>
      ) : null}
      {visits.slice(0, VISITS_OPEN).map((visit) => (
        <Visit key={visit.visitId} {...{ wellId, visit, units, files }} />
      ))}
      {older.length > 0 ? (
        <details className="section">
          <summary>{older.length} earlier visits</summary>
          <div className="section-body">
            {older.map((visit) => (
              <Visit key={visit.visitId} {...{ wellId, visit, units, files }} />
            ))}
          </div>
        </details>
      ) : null}
    </section>
  )
}

type VisitProps = { wellId: string; visit: LogVisit; units: UnitSystem; files: readonly LogFile[] }

function Visit({ wellId, visit, units, files }: VisitProps) {
  // Those of a lab sheet stand on the sheet's own page.
  const lines = new Set(visit.lines.filter(({ fact }) => fact.kind !== 'sample').map(({ id }) => id))
  const own = files.filter(({ entryId }) => lines.has(entryId))
  return (
    <article className="sheet stack-tight">
      <h3>
        {showDay(visit.on, units)}
        {visit.time ? `, ${visit.time}` : ''}
        {visit.by.length > 0 ? <span className="muted"> by {visit.by.join(', ')}</span> : null}
      </h3>
      <ul className="plain-list">
        {visit.lines.map((line) => (
          <Line key={line.id} wellId={wellId} line={line} units={units} />
        ))}
      </ul>
      {own.length > 0 ? (
        <p className="row no-print">
          {own.map(({ id, type }, i) => (
            <a key={id} href={paths.attachment(id)}>
              {type === 'image/jpeg' ? 'Photo' : 'File'} {i + 1} <span className="unseen">of this visit</span>
            </a>
          ))}
        </p>
      ) : null}
    </article>
  )
}

function Line({ wellId, line, units }: { wellId: string; line: LogLine; units: UnitSystem }) {
  const typed = typedTexts(line.fact)
  const words = describeFact(line.fact, units)
  return (
    <li id={`line-${line.id}`} className="log-line">
      <span>
        {line.stands ? words : <s>{words}</s>}
        {line.stands ? null : <strong> Withdrawn.</strong>}
      </span>
      {line.fact.kind === 'sample' ? (
        <Link className="no-print" href={paths.sample(wellId, line.id)} prefetch={false}>
          What this sheet says
        </Link>
      ) : null}
      {line.stands || typed.length > 0 ? (
        <details className="log-more">
          <summary aria-label={`More about: ${words}`}>more</summary>
          {typed.length > 0 ? (
            <p className="muted">As typed: {typed.map((t) => `${t.what} "${t.typed}"`).join(', ')}</p>
          ) : null}
          {line.stands ? (
            <p className="row no-print">
              <Link href={paths.correct(line.id)} prefetch={false}>
                Correct this line
              </Link>
              <Link href={paths.withdraw(line.id)} prefetch={false}>
                Withdraw it
              </Link>
            </p>
          ) : null}
        </details>
      ) : null}
      {line.history.length > 1 ? (
        <ol className="log-history">
          {line.history.map((step) => (
            <Step key={step.id} step={step} now={words} units={units} />
          ))}
        </ol>
      ) : null}
    </li>
  )
}

/** One step in the life of a line: who, when, why; words that no longer count are struck through. */
function Step({ step, now, units }: { step: HistoryStep; now: string; units: UnitSystem }) {
  const who = step.by ? ` by ${step.by}` : ''
  const when = showDay(step.recordedAt.slice(0, 10), units)
  const lapsed = step.stands ? '' : ' (taken back since)'
  if (step.kind === 'withdrawn' || step.kind === 'restored') {
    return (
      <li>
        {step.kind === 'withdrawn' ? 'Withdrawn' : 'Restored'}
        {who} on {when}. Reason: {step.reason}
        {lapsed}
      </li>
    )
  }
  const said = describeFact(step.fact, units)
  return (
    <li>
      {step.kind === 'written' ? `Written${who}, taken in on ${when}: ` : `Corrected${who} on ${when}: `}
      {said === now && step.stands ? said : <s>{said}</s>}
      {step.kind === 'corrected' ? ` Reason: ${step.reason}${lapsed}` : ''}
    </li>
  )
}
