import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { ChainBanner } from '@/app/ui/chain-banner'
import { EmptyState } from '@/app/ui/empty-state'
import { NoticeSheet } from '@/app/ui/notice-sheet'
import { PageHead } from '@/app/ui/page-head'
import { signedInViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import type { Viewer } from '@/lib/access/viewer'
import { summarizeWater } from '@/lib/domain/logbook/water-summary'
import { writeNotice } from '@/lib/domain/water/notice'
import { noticeFactsOf, openChainsOf } from '@/lib/domain/water/notice-facts'
import { readNoticeContact } from '@/lib/forms/notice-contact'
import type { Db } from '@/lib/records/db'
import { getDb } from '@/lib/records/open'
import { getOutfit } from '@/lib/records/settings'
import { type WellListRow, wellList } from '@/lib/records/well-list'
import { wellWater } from '@/lib/records/well-water'

export const metadata: Metadata = { title: 'Your wells' }

/** More than a household has; the list is not paged. */
const WELLS_MAX = 200

export default async function OwnPage() {
  const viewer = await signedInViewer()
  if (viewer.role !== 'owner') redirect('/')
  const db = await getDb()
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
              <h2>{well.name ?? `Well ${well.label}`}</h2>
              <Warning db={db} viewer={viewer} well={well} />
              <p>
                {well.lastVisitOn
                  ? `Last visit on ${showDay(well.lastVisitOn, viewer.units)}`
                  : 'No visit has been written down yet'}
              </p>
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

/** What the household is warned of until it is cleared, with the whole notice below it; nothing where nothing is open. */
function Warning({ db, viewer, well }: { db: Db; viewer: Viewer; well: WellListRow }) {
  if (well.chain === null) return null
  const found = wellWater(db, viewer, well.id)
  const chains = found ? openChainsOf(found.water) : []
  if (!found || chains.length === 0) return null
  const outfit = getOutfit(db)
  const notice = writeNotice({
    well: well.name ?? `well ${well.label}`,
    ...noticeFactsOf(found.water, chains),
    doing: null,
    contact: readNoticeContact({}, outfit),
    locale: viewer.units === 'us' ? 'en-US' : 'en-GB',
  })
  return (
    <>
      <ChainBanner
        wellId={well.id}
        chains={summarizeWater(found.water).chains}
        units={viewer.units}
        linked={false}
      />
      {notice.kind === 'cannot-say' ? (
        <p>Ask the outfit that looks after your well for the notice that tells all of it.</p>
      ) : (
        <details>
          <summary>Read the whole notice</summary>
          <NoticeSheet notice={notice} well={well.name ?? `Well ${well.label}`} />
        </details>
      )}
    </>
  )
}
