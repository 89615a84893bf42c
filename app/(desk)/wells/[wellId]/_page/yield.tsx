import Link from 'next/link'
import { YieldMark } from '@/app/ui/yield-mark'
import { inUnits, sayOutlook } from '@/lib/domain/logbook/yield-words'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { paths } from '@/lib/paths'
import type { WellPage } from '@/lib/records/wells'

type Props = { wellId: string; standing: WellPage['standing']; units: UnitSystem; today: Day }

/** What the well's yield does, in a sentence; the years and the evidence have a page of their own. */
export function Yield({ wellId, standing, units, today }: Props) {
  if (!standing) return null
  const { sentence, next, outlook } = standing.yield
  return (
    <section aria-labelledby="yield" className="sheet stack-tight">
      <h2 id="yield">Yield</h2>
      <YieldMark of={standing.yield} />
      <p>{inUnits(sentence, units)}</p>
      {outlook.to75Percent ? <p>75 % of baseline: {sayOutlook(outlook.to75Percent, today)}.</p> : null}
      {outlook.belowDemand ? <p>Below demand: {sayOutlook(outlook.belowDemand, today)}.</p> : null}
      <p className="muted">Next: {inUnits(next, units)}</p>
      <p>
        <Link href={paths.wellYield(wellId)} prefetch={false}>
          The years, the evidence and the tests
        </Link>
      </p>
    </section>
  )
}
