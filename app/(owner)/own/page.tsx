import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { ownViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { today } from '@/lib/clock'
import { sayWaterToOwner } from '@/lib/domain/logbook/owner-water'
import type { WaterSummary } from '@/lib/domain/logbook/water-summary'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { ownWater } from '@/lib/records/own-well'
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
  const show = (day: string) => showDay(day, viewer.units)
  const waterOf = (wellId: string) => ownWater(db, viewer, wellId)
  return (
    <>
      <PageHead
        title="Your wells"
        lead="The wells of your household: how the water is, as far as is known, and when somebody was last there."
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
              {well.chain === null ? <Verdict water={waterOf(well.id)} show={show} /> : null}
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

/** How the water of a well stands, in the words of its own page. */
function Verdict({ water, show }: { water: WaterSummary | null; show: (day: string) => string }) {
  const said = water && sayWaterToOwner(water, today(), show)
  return (
    <p>
      Water: <Status tone={said?.tone ?? 'unsure'}>{said?.word ?? 'Nothing is known yet'}</Status>
    </p>
  )
}
