import { showDay } from '@/app/ui/show-day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import type { WellPage } from '@/lib/records/wells'

/** Meter readings that were not used, and why; nothing where there are none. */
export function SetAside({ standing, units }: { standing: WellPage['standing']; units: UnitSystem }) {
  if (!standing) return null
  const rows = [
    ...standing.meters.hours.setAside.map((row) => ({ ...row, meter: 'Hour meter' })),
    ...standing.meters.volume.setAside.map((row) => ({ ...row, meter: 'Volume meter' })),
  ]
  if (rows.length === 0) return null
  return (
    <section aria-labelledby="aside" className="sheet stack-tight">
      <h2 id="aside">Readings not used</h2>
      <ul>
        {rows.map(({ id, on, why, meter }) => (
          <li key={id}>
            {meter}, {showDay(on, units)}: {why} <a href={`#line-${id}`}>See the line</a>
          </li>
        ))}
      </ul>
    </section>
  )
}
