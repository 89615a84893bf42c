import Link from 'next/link'
import { Status } from '@/app/ui/status'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { primeOf } from '@/lib/domain/logbook/prime-standing'
import { pumpStanding } from '@/lib/domain/logbook/pump-standing'
import { mostUrgent } from '@/lib/domain/logbook/wear-words'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { paths } from '@/lib/paths'
import type { WellPage } from '@/lib/records/wells'

type Props = {
  well: WellPage['well']
  equipment: WellPage['equipment']
  standing: WellPage['standing']
  facts: readonly CurrentFact[]
  today: Day
  units: UnitSystem
}

/** The one sentence about wear and pump that presses most; the charts and reasons have a page of their own. */
export function Wear({ well, equipment, standing, facts, today, units }: Props) {
  if (!standing) return null
  const { tone, word, says } = mostUrgent(
    standing.duties,
    { prime: primeOf(facts), pump: pumpStanding(facts, equipment, well.installedOn) },
    today,
    units,
  )
  return (
    <section aria-labelledby="wear" className="stack-tight">
      <h2 id="wear">Wear and pump</h2>
      <p>
        <Status tone={tone}>{word}</Status>
      </p>
      <p className="text">{says}</p>
      <p className="no-print">
        <Link href={paths.wellWear(well.id)} prefetch={false}>
          Cartridge, brushes, pump and lift
        </Link>
      </p>
    </section>
  )
}
