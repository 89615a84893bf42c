import type { Metadata } from 'next'
import Link from 'next/link'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { TIMED_DUTIES, yardTexts } from '@/lib/forms/yard-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { getYard } from '@/lib/records/yard'
import { YardForm } from './yard-form'

export const metadata: Metadata = { title: 'Yard and days on the road' }

/** Where rounds start and end, the hours of a day, and how driving and work are reckoned. */
export default async function YardPage() {
  const viewer = await deskViewer()
  await demand(viewer, 'setting.edit')
  return (
    <>
      <PageHead
        title="Yard and days on the road"
        lead="Rounds start and end here. A round that is planned already keeps what it was planned with."
      >
        <Link href={paths.settings()} prefetch={false}>
          Back to the settings
        </Link>
      </PageHead>
      <YardForm texts={yardTexts(getYard(await getDb()))} duties={TIMED_DUTIES} />
    </>
  )
}
