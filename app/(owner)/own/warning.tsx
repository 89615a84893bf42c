import { ChainBanner } from '@/app/ui/chain-banner'
import { NoticeSheet } from '@/app/ui/notice-sheet'
import type { Viewer } from '@/lib/access/viewer'
import { summarizeWater } from '@/lib/domain/logbook/water-summary'
import { writeNotice } from '@/lib/domain/water/notice'
import { noticeFactsOf, openChainsOf } from '@/lib/domain/water/notice-facts'
import { readNoticeContact } from '@/lib/forms/notice-contact'
import type { Outfit } from '@/lib/records/settings'
import type { WellWater } from '@/lib/records/well-water'

/** What the household is warned of until it is cleared, with the whole notice below it; nothing where nothing is open. */
export function Warning({
  found,
  viewer,
  outfit,
}: {
  found: WellWater | null
  viewer: Viewer
  outfit: Outfit
}) {
  const chains = found ? openChainsOf(found.water) : []
  if (!found || chains.length === 0) return null
  const { well } = found
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
