import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { describeFact } from '@/lib/domain/logbook/describe'
import type { UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import type { WellPlace } from '@/lib/records/place'

/** Every measurement, the latest first, and who found the head or did not. */
export function PlaceHistory({ place, units }: { place: WellPlace; units: UnitSystem }) {
  const { history, searches, measured } = place
  if (history.length === 0 && searches.length === 0) return null
  return (
    <section className="stack-tight" aria-labelledby="history">
      <h2 id="history">Measured and searched</h2>
      <ul className="plain-list">
        {history.map((line) => {
          const words = describeFact(line.fact, units)
          return (
            <li key={line.id} className="log-line">
              {showDay(line.on, units)}
              {line.by ? `, ${line.by}` : ''}: {line.stands ? words : <s>{words}</s>}
              {line.stands ? (line.id === measured?.id ? ' This one counts.' : '') : ' Withdrawn.'}{' '}
              {line.stands ? (
                <span className="no-print">
                  <Link href={paths.withdraw(line.id)} prefetch={false}>
                    Withdraw<span className="unseen"> the measurement of {showDay(line.on, units)}</span>
                  </Link>
                </span>
              ) : null}
            </li>
          )
        })}
        {searches.map(({ entryId, on, by, found }) => (
          <li key={entryId} className="log-line">
            {showDay(on, units)}
            {by ? `, ${by}` : ''}: {found ? 'head found.' : 'head not found.'}
          </li>
        ))}
      </ul>
    </section>
  )
}
