import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Chain } from '@/lib/domain/water/chain'
import { DUG_WELL_DOUBTS } from '@/lib/domain/water/tables/disinfection'
import { paths } from '@/lib/paths'

/** Bacteria that came back after a disinfection: a fault of the well, with what to look at, and no call for more chlorine. */
export function FaultSection({ chain, wellId, units }: { chain: Chain; wellId: string; units: UnitSystem }) {
  const { fault } = chain
  if (fault === null || chain.closed !== null) return null
  return (
    <section className="sheet" aria-labelledby="fault">
      <h2 id="fault">{fault.certain ? 'The well has a fault' : 'The well may have a fault'}</h2>
      <p>{fault.text}</p>
      <p>
        Disinfected {showDay(fault.disinfectedOn, units)}; bacteria found again{' '}
        {showDay(fault.positiveOn, units)}.
      </p>
      <h3>What to inspect, in this order</h3>
      <ol>
        {fault.inspect.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ol>
      <p>
        <Link href={paths.inspection(wellId)} prefetch={false}>
          Fill in a sanitary inspection
        </Link>
      </p>
      <details>
        <summary>What is published about chlorine in dug wells</summary>
        <ul>
          {DUG_WELL_DOUBTS.map((doubt) => (
            <li key={doubt.text}>
              {doubt.text} ({doubt.source}, {doubt.date})
            </li>
          ))}
        </ul>
      </details>
    </section>
  )
}
