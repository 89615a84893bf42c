import { showDay } from '@/app/ui/show-day'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { YieldStanding } from '@/lib/domain/yield/decline/types'

/** Readings that were not taken as they stand, each with its reason; nothing where there are none. */
export function ReadingsMended({ standing, units }: { standing: YieldStanding; units: UnitSystem }) {
  const rows = standing.points.filter((point) => point.setAside !== null)
  if (rows.length === 0) return null
  return (
    <section aria-labelledby="mended" className="stack-tight">
      <h2 id="mended">Readings mended or left out</h2>
      <p>
        The logbook stays as written; correct a line there if you know better, and this page reckons anew.
      </p>
      <ul>
        {rows.map(({ on, setAside }) => (
          <li key={`${on} ${setAside}`}>
            {showDay(on, units)}: {setAside}
          </li>
        ))}
      </ul>
    </section>
  )
}
