import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { wellWater } from '@/lib/records/well-water'
import { Bacteria } from './_page/bacteria'
import { Chains } from './_page/chains'
import { Findings } from './_page/findings'
import { History } from './_page/history'
import { Sanitary } from './_page/sanitary'
import { StandingSaid } from './_page/standing-said'
import { TakenBackPositives } from './_page/taken-back'
import { Tests } from './_page/tests'
import { SavedStep } from './_steps/saved-step'

export const metadata: Metadata = { title: 'Water of the well' }

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

/** The water of one well: what can be said of it first, then what is missing, what comes next, and its history. */
export default async function WellWaterPage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const found = wellWater(await getDb(), viewer, wellId)
  if (!found) notFound()
  const { well, owner, water, settings } = found
  const { units } = viewer
  const day = today()
  return (
    <>
      <PageHead
        title={`Water of ${well.label}${well.name ? `, ${well.name}` : ''}`}
        lead={[owner?.name, well.area].filter(Boolean).join(' · ')}
      >
        <Link className="button" href={paths.newSample(wellId)} prefetch={false}>
          Enter a lab sheet
        </Link>
        <Link className="button button-quiet" href={paths.sampling(wellId)} prefetch={false}>
          Sampling sheet
        </Link>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      <SavedStep
        facts={found.facts}
        visitId={textParam(await searchParams, 'saved')}
        wellId={wellId}
        units={units}
      />
      <StandingSaid water={water} wellId={wellId} today={day} units={units} />
      <Chains wellId={wellId} chains={water.chains} units={units} />
      <TakenBackPositives wellId={wellId} takenBack={found.takenBack} units={units} />
      <Findings findings={water.findings} wellId={wellId} units={units} />
      <Tests wellId={wellId} duties={water.duties} today={day} units={units} />
      <Bacteria wellId={wellId} water={water} units={units} />
      <Sanitary wellId={wellId} sanitary={water.sanitary} units={units} />
      <History wellId={wellId} water={water} settings={settings} today={day} units={units} />
    </>
  )
}
