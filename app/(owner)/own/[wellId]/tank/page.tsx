import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { ownViewer } from '@/app/ui/session'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { visibleWell } from '@/lib/records/wells'
import { saveTank } from './actions'
import { TankForm } from './tank-form'

export const metadata: Metadata = { title: 'How full is the tank?' }

/** The second tap of two: the button pressed is the reading. */
export default async function TankPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await ownViewer()
  if (!visibleWell(await getDb(), viewer, wellId)) notFound()
  return (
    <>
      <PageHead title="How full is the tank?" lead="Press the one that fits. It is saved at once.">
        <Link className="button button-quiet" href={paths.ownWell(wellId)} prefetch={false}>
          Back to your well
        </Link>
      </PageHead>
      <TankForm action={saveTank.bind(null, wellId)} visitId={newId()} />
      <p className="muted text">Look from outside only. Do not climb on the tank and do not reach into it.</p>
    </>
  )
}
