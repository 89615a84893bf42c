import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { today } from '@/lib/clock'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { visibleDuty } from '@/lib/records/duties'
import { getDb } from '@/lib/records/open'
import { partRegisterOf } from '@/lib/records/part-register'
import { wellWear } from '@/lib/records/well-wear'
import { Brushes } from './_page/brushes'
import { Cartridge } from './_page/cartridge'
import { Cautions } from './_page/cautions'
import { Frost } from './_page/frost'
import { Lift } from './_page/lift'
import { PartsInPlace } from './_page/parts-in-place'
import { Prime } from './_page/prime'
import { Pump } from './_page/pump'
import { takeInterval } from './actions'

export const metadata: Metadata = { title: 'Wear and pump of a well' }

const DONE: Readonly<Record<string, string>> = {
  interval:
    'The duty is set to the interval that this well’s own cartridges suggest. The change record keeps what it was.',
  clash: 'Nothing was changed: somebody else changed the duty since the page was opened. Look at it again.',
}

/** What wears at one well, what its pump gives and how far it can lift: each with its reason and what to measure next. */
type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

export default async function WellWearPage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const page = wellWear(db, viewer, wellId)
  if (!page) notFound()
  const { well, owner, equipment, facts, wear, yields } = page
  const duty = wear.cartridge.kind === 'known' ? visibleDuty(db, viewer, wear.cartridge.dutyId) : null
  const done = DONE[textParam(await searchParams, 'done')]
  const { units } = viewer
  const parts = partRegisterOf(db, viewer, wellId)
  const day = today()
  return (
    <>
      <PageHead
        title={`Wear and pump of ${well.label}${well.name ? `, ${well.name}` : ''}`}
        lead={[owner?.name, well.area].filter(Boolean).join(' · ')}
      >
        <Link className="button" href={paths.well(wellId)} prefetch={false}>
          To the well
        </Link>
        <Link className="button button-quiet" href={paths.wellSupply(wellId)} prefetch={false}>
          Supply
        </Link>
        <PrintButton />
      </PageHead>
      <div role="status" className={done ? 'done' : undefined}>
        {done ?? ''}
      </div>
      <Cautions />
      <Cartridge
        cartridge={wear.cartridge}
        today={day}
        units={units}
        take={
          duty && mayFleet(viewer, 'duty.edit')
            ? { action: takeInterval.bind(null, wellId), version: duty.version }
            : null
        }
      />
      <Brushes brushes={wear.brushes} today={day} units={units} />
      <Pump
        pump={wear.pump}
        part={parts.find(({ kind, removedOn }) => kind === 'pump' && removedOn === null)}
        model={equipment.pump}
        yields={yields}
        wellId={wellId}
        today={day}
        units={units}
      />
      <Prime prime={wear.prime} units={units} />
      <Lift lift={wear.lift} today={day} units={units} />
      <Frost equipment={equipment} units={units} />
      <PartsInPlace
        wellId={wellId}
        parts={parts}
        facts={facts}
        equipment={equipment}
        today={day}
        units={units}
        mayEdit={mayFleet(viewer, 'well.edit')}
      />
    </>
  )
}
