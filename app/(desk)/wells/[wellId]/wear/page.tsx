import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { partsOfWell } from '@/lib/records/parts'
import { wellWear } from '@/lib/records/well-wear'
import { Brushes } from './_page/brushes'
import { Cartridge } from './_page/cartridge'
import { Cautions } from './_page/cautions'
import { Lift } from './_page/lift'
import { PartsInPlace } from './_page/parts-in-place'
import { Prime } from './_page/prime'
import { Pump } from './_page/pump'

export const metadata: Metadata = { title: 'Wear and pump of a well' }

/** What wears at one well, what its pump gives and how far it can lift: each with its reason and what to measure next. */
export default async function WellWearPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const page = wellWear(db, viewer, wellId)
  if (!page) notFound()
  const { well, owner, facts, wear, yields } = page
  const { units } = viewer
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
        <PrintButton />
      </PageHead>
      <Cautions />
      <Cartridge cartridge={wear.cartridge} today={day} units={units} />
      <Brushes brushes={wear.brushes} today={day} units={units} />
      <Pump pump={wear.pump} yields={yields} wellId={wellId} units={units} />
      <Prime prime={wear.prime} units={units} />
      <Lift lift={wear.lift} units={units} />
      <PartsInPlace parts={partsOfWell(db, viewer, wellId)} facts={facts} today={day} units={units} />
    </>
  )
}
