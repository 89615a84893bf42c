import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { today } from '@/lib/clock'
import type { Params } from '@/lib/forms/list-filters'
import { readWhatIf } from '@/lib/forms/supply-what-if'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { wellSupply } from '@/lib/records/well-supply'
import { Missing } from './_page/missing'
import { Year } from './_page/year'

export const metadata: Metadata = { title: 'Supply of a well' }

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

/** Whether the water lasts through a usual year, by the hour, and what would mend it where it does not. */
export default async function SupplyPage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const day = today()
  const page = wellSupply(await getDb(), viewer, wellId, day)
  if (!page) notFound()
  const { well, owner, side, basis } = page
  const mayEdit = mayFleet(viewer, 'well.edit')
  return (
    <>
      <PageHead
        title={`Supply of ${well.label}${well.name ? `, ${well.name}` : ''}`}
        lead={[owner?.name, well.area].filter(Boolean).join(' · ')}
      >
        <Link className="button" href={paths.well(wellId)} prefetch={false}>
          To the well
        </Link>
        {mayEdit ? (
          <Link className="button button-quiet" href={paths.wellSupplyFacts(wellId)} prefetch={false}>
            Supply facts
          </Link>
        ) : null}
        {basis?.kind === 'plan' ? <PrintButton /> : null}
      </PageHead>
      {side === null ? <NothingStated wellId={wellId} mayEdit={mayEdit} /> : null}
      {basis?.kind === 'cannot-say' ? <Missing missing={basis.missing} /> : null}
      {basis?.kind === 'plan' ? (
        <Year
          page={page}
          basis={basis}
          whatIf={readWhatIf(await searchParams, viewer.units)}
          today={day}
          units={viewer.units}
        />
      ) : null}
    </>
  )
}

function NothingStated({ wellId, mayEdit }: { wellId: string; mayEdit: boolean }) {
  return (
    <EmptyState title="Nobody wrote down yet what drives this pump">
      <p>
        With sun or mains, the flow of the pump and the water asked for, this page says how long the tank
        lasts through a year, when it first runs short, and what would mend it.
      </p>
      <p>
        {mayEdit ? (
          <Link href={paths.wellSupplyFacts(wellId)} prefetch={false}>
            State what drives the pump
          </Link>
        ) : (
          'An installer can state it here.'
        )}
      </p>
    </EmptyState>
  )
}
