import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { levelSeries } from '@/lib/domain/logbook/series'
import { capacityForDemand, flowSeries, yieldMarks } from '@/lib/domain/logbook/yield-series'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { wellYield } from '@/lib/records/well-yield'
import { fleetCalls } from '@/lib/records/yield-list'
import { axisOf, demandLevel } from './_page/axis'
import { CapacityChart } from './_page/capacity-chart'
import { Evidence } from './_page/evidence'
import { FlowChart } from './_page/flow-chart'
import { ReadingsMended } from './_page/readings-mended'
import { TableChart } from './_page/table-chart'
import { Tests } from './_page/tests'
import { Verdict } from './_page/verdict'

export const metadata: Metadata = { title: 'Yield of a well' }

/** What is known of one well's yield: the verdict, the years behind it, how sure it is, and what to measure next. */
export default async function WellYieldPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const page = wellYield(db, viewer, wellId)
  if (!page) notFound()
  const { well, owner, register, facts, standing } = page
  const { units } = viewer
  const day = today()
  const rest = levelSeries(facts).rest
  const flow = flowSeries(facts)
  const marks = yieldMarks(facts)
  const demand = demandLevel(standing, capacityForDemand(register, rest))
  const axis = axisOf(standing, [...rest, ...flow], marks, demand, { today: day, units })
  return (
    <>
      <PageHead
        title={`Yield of ${well.label}${well.name ? `, ${well.name}` : ''}`}
        lead={[owner?.name, well.area].filter(Boolean).join(' · ')}
      >
        <Link className="button" href={paths.well(wellId)} prefetch={false}>
          To the well
        </Link>
        <PrintButton />
      </PageHead>
      <Verdict {...{ standing, register, marks, units }} calls={fleetCalls(db, viewer)} today={day} />
      <section aria-labelledby="years" className="stack">
        <h2 id="years">Over the years</h2>
        <CapacityChart {...{ standing, demand, axis, units }} today={day} />
        <TableChart {...{ standing, rest, axis, units }} />
        {standing.capacity === null && flow.length > 0 ? <FlowChart {...{ flow, axis, units }} /> : null}
      </section>
      <Evidence {...{ standing, units }} />
      <ReadingsMended {...{ standing, units }} />
      <Tests {...{ wellId, facts, units }} />
    </>
  )
}
