import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { mayFleet } from '@/lib/access/rules'
import { today } from '@/lib/clock'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { grantsOfWell } from '@/lib/records/grants'
import { getDb } from '@/lib/records/open'
import { wellWithOwner } from '@/lib/records/wells'
import { saveSale, takeGrantBack } from './actions'
import { SaleForm } from './sale-form'

export const metadata: Metadata = { title: 'A property is sold' }

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

/** Hands a well to another household, and shows who of before may still read about it. */
export default async function SalePage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const found = mayFleet(viewer, 'well.edit') ? wellWithOwner(db, viewer, wellId) : null
  if (!found) notFound()
  const { well, owner } = found
  const grants = grantsOfWell(db, viewer, wellId)
  const done = textParam(await searchParams, 'done') !== ''
  return (
    <>
      <PageHead
        title={`Hand ${well.label} over`}
        lead={owner ? `It belongs to ${owner.name} now.` : 'It belongs to nobody in the register yet.'}
      >
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
        {owner ? (
          <Link className="button button-quiet" href={paths.household(owner.id)} prefetch={false}>
            Invite {owner.name}
          </Link>
        ) : null}
      </PageHead>
      {done ? (
        <p className="done" role="status">
          The well is handed over. Whoever had it before sees it no more, but for what is granted below.
        </p>
      ) : null}
      <p className="text">
        The records stay with the well. The new household reads what was measured, tested and done; names,
        notes and scanned sheets from before stay with you. What the former household wished of visits (hours,
        days) is let go of. The new household can read the words of the way in: look through them under{' '}
        <Link href={paths.wellEdit(wellId)} prefetch={false}>
          Edit
        </Link>{' '}
        before you invite it, and ask about gate code and dogs.
      </p>
      {done ? (
        <p>
          <Link href={paths.sale(wellId)} prefetch={false}>
            Hand it over once more
          </Link>
        </p>
      ) : (
        <SaleForm
          key={well.ownerId ?? ''}
          action={saveSale.bind(null, wellId)}
          household={owner?.name ?? null}
          wellName={tellsOf(well.name, owner?.name ?? null) ? '' : (well.name ?? '')}
          today={today()}
        />
      )}
      {grants.length === 0 ? null : (
        <section className="sheet" aria-labelledby="grants">
          <h2 id="grants">Who of before may still read</h2>
          <ul className="plain-list stack">
            {grants.map((grant) => (
              <li key={grant.id} className="row">
                <span>
                  {grant.household}, up to {showDay(grant.upTo, viewer.units)}
                </span>
                <form action={takeGrantBack.bind(null, wellId)}>
                  <input type="hidden" name="id" value={grant.id} />
                  <button type="submit" className="button button-quiet">
                    Take back<span className="unseen"> from {grant.household}</span>
                  </button>
                </form>
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  )
}

/** Whether the name of a well has a word of the household's name in it, which the next one should not read there. */
function tellsOf(wellName: string | null, household: string | null): boolean {
  const words = (text: string | null) => (text ?? '').toLowerCase().match(/\p{L}{3,}/gu) ?? []
  const own = new Set(words(household))
  return words(wellName).some((word) => own.has(word))
}
