import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { supplyFactsOf } from '@/lib/domain/logbook/supply-facts'
import { formatQuantity } from '@/lib/domain/quantity'
import { supplyFormTexts, supplyUnits } from '@/lib/forms/supply-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { visibleWell } from '@/lib/records/wells'
import { storeSupply } from './actions'
import { SupplyForm } from './supply-form'

export const metadata: Metadata = { title: 'Supply facts' }

/** What drives a well's pump and what water is asked for, as the register keeps it. */
export default async function SupplyFactsPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const well = mayFleet(viewer, 'well.edit') ? visibleWell(await getDb(), viewer, wellId) : null
  if (!well) notFound()
  const { units } = viewer
  const demand = well.demandM3PerS === null ? null : formatQuantity(well.demandM3PerS, 'demand', units)
  const tank = well.storageM3 === null ? null : formatQuantity(well.storageM3, 'tank', units)
  return (
    <>
      <PageHead
        title={`Supply facts of ${well.label}`}
        lead="Blank is unknown. Tank, demand, intake, place and lift are those of the well's own form."
      >
        <Link href={paths.wellSupply(wellId)} prefetch={false}>
          Back to the supply
        </Link>
        <Link href={paths.wellEdit(wellId)} prefetch={false}>
          Edit the well
        </Link>
      </PageHead>
      <p className="text">
        Tank: {tank ?? 'not recorded'}. Demand in the register: {demand ?? 'not recorded'}.
      </p>
      <SupplyForm
        action={storeSupply.bind(null, wellId)}
        initial={supplyFormTexts(supplyFactsOf(well.supply), units)}
        units={supplyUnits(units)}
        demand={demand}
        version={String(well.version)}
      />
    </>
  )
}
