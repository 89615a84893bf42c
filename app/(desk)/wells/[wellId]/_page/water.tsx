import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { sayWater } from '@/lib/domain/water/standing-words'
import { paths } from '@/lib/paths'
import type { WellPage } from '@/lib/records/wells'

type Props = { wellId: string; standing: WellPage['standing']; today: Day; units: UnitSystem }

/** What can be said of the water, in a line; the whole of it has its own page. */
export function Water({ wellId, standing, today, units }: Props) {
  if (!standing) return null
  const { tone, word, says } = sayWater(standing.water, today, (day) => showDay(day, units))
  return (
    <section aria-labelledby="water" className="stack-tight">
      <h2 id="water">Water</h2>
      <p>
        <Status tone={tone}>{word}</Status>
      </p>
      <p className="text">{says}</p>
      <p className="row no-print">
        <Link href={paths.wellWater(wellId)} prefetch={false}>
          Water of the well
        </Link>
        <Link href={paths.sampling(wellId)} prefetch={false}>
          Sampling sheet
        </Link>
      </p>
    </section>
  )
}
