import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { ownViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { getOutfit } from '@/lib/records/settings'
import { wellList } from '@/lib/records/well-list'
import { wellWater } from '@/lib/records/well-water'
import { PastWells } from './past-wells'
import { Warning } from './warning'

export const metadata: Metadata = { title: 'Your wells' }

/** More than a household has; the list is not paged. */
const WELLS_MAX = 200

export default async function OwnPage() {
  const viewer = await ownViewer()
  const db = await getDb()
  const outfit = getOutfit(db)
  const { rows } = wellList(db, viewer, {}, null, WELLS_MAX)
  return (
    <>
      <PageHead
        title="Your wells"
        lead="The wells of your household, and when somebody was last there to look after them."
      />
      {rows.length === 0 ? (
        <EmptyState title="No well stands here yet">
          <p>The outfit that looks after your well has not yet tied one to your account. Ask them to.</p>
        </EmptyState>
      ) : (
        <ul className="plain-list stack">
          {rows.map((well) => (
            <li key={well.id} className="sheet">
              <h2>
                <Link href={paths.ownWell(well.id)} prefetch={false}>
                  {well.name ?? `Well ${well.label}`}
                </Link>
              </h2>
              <Warning
                found={well.chain === null ? null : wellWater(db, viewer, well.id)}
                viewer={viewer}
                outfit={outfit}
              />
              <p>
                {well.lastVisitOn
                  ? `Last visit on ${showDay(well.lastVisitOn, viewer.units)}`
                  : 'No visit has been written down yet'}
              </p>
            </li>
          ))}
        </ul>
      )}
      <PastWells viewer={viewer} />
    </>
  )
}
