import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { mayFleet } from '@/lib/access/rules'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { platesOfWell } from '@/lib/records/plates'
import { visibleWell } from '@/lib/records/wells'
import { makeMissing, takeBack } from '../../../plates/actions'

export const metadata: Metadata = { title: 'Plates of a well' }

/** The codes that were printed for one well, and how to take one back. */
export default async function WellPlatesPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const well = visibleWell(db, viewer, wellId)
  if (!well) notFound()
  const plates = platesOfWell(db, viewer, wellId)
  const counts = plates.some((plate) => plate.revokedAt === null)
  const mayEdit = mayFleet(viewer, 'plate.edit')
  const day = (at: string) => showDay(at.slice(0, 10), viewer.units)
  return (
    <>
      <PageHead
        title={`Plates of ${well.label}${well.name ? `, ${well.name}` : ''}`}
        lead="A plate on the lid or the pump opens this well’s page for those who may see it, and nothing for others."
      >
        {counts ? (
          <Link className="button" href={paths.plateSheet({ wells: wellId })} prefetch={false}>
            Print the plate
          </Link>
        ) : null}
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          To the well
        </Link>
      </PageHead>
      {plates.length === 0 ? <p>No plate has been made for this well.</p> : null}
      <ul className="plain-list stack-tight">
        {plates.map(({ code, createdAt, createdBy, revokedAt }) => (
          <li key={code} className="row">
            <span>
              {code.slice(0, 4)}…, made {day(createdAt)} by {createdBy}
              {revokedAt ? `, taken back ${day(revokedAt)}` : ''}
            </span>
            {revokedAt === null && mayEdit ? (
              <form action={takeBack}>
                <input type="hidden" name="code" value={code} />
                <button type="submit" className="button button-quiet">
                  Take back<span className="unseen"> the plate {code.slice(0, 4)}</span>
                </button>
              </form>
            ) : null}
          </li>
        ))}
      </ul>
      {!counts && mayEdit ? (
        <form action={makeMissing}>
          <input type="hidden" name="wells" value={wellId} />
          <button type="submit" className="button">
            Make a plate
          </button>
        </form>
      ) : null}
      {!counts && !mayEdit ? <p>An installer can make one.</p> : null}
    </>
  )
}
