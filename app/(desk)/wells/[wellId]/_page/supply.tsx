import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import type { SupplySummary } from '@/lib/domain/logbook/supply-standing'
import { supplyTone } from '@/lib/domain/logbook/supply-words'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { paths } from '@/lib/paths'
import type { WellPage } from '@/lib/records/wells'

type Props = { wellId: string; standing: WellPage['standing']; today: Day; units: UnitSystem }

/** Whether the water lasts, in a sentence; the year by the hour has a page of its own. */
export function Supply({ wellId, standing, today, units }: Props) {
  if (!standing) return null
  const { supply } = standing
  return (
    <section aria-labelledby="supply" className="stack-tight">
      <h2 id="supply">Supply</h2>
      {supply === null ? (
        <p className="muted text">Nobody wrote down yet what drives this pump and what is asked of it.</p>
      ) : (
        <Said supply={supply} today={today} units={units} />
      )}
      <p className="no-print">
        <Link href={paths.wellSupply(wellId)} prefetch={false}>
          How long the water lasts
        </Link>
      </p>
    </section>
  )
}

function Said({ supply, today, units }: { supply: SupplySummary; today: Day; units: UnitSystem }) {
  if (supply.kind === 'cannot-say') {
    return (
      <>
        <p>
          <Status tone="unsure">Cannot say</Status>
        </p>
        <p className="text">How long the water lasts cannot be said. Missing: {supply.missing.join('; ')}.</p>
      </>
    )
  }
  const { tone, word } = supplyTone(supply, today)
  const { firstShortDay, shortDays, from } = supply
  return (
    <>
      <p>
        <Status tone={tone}>{word}</Status>
      </p>
      <p className="text">
        Reckoned by the hour from {showDay(from, units)}:{' '}
        {firstShortDay === null
          ? 'the tank is never short in a usual year.'
          : `${shortDays} short ${shortDays === 1 ? 'day' : 'days'}, the first on ${showDay(firstShortDay, units)}.`}
      </p>
    </>
  )
}
