import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { addDays } from '@/lib/domain/quantity/day'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { stockDays } from '@/lib/forms/stock-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { getOutfit } from '@/lib/records/settings'
import { stockOverview } from '@/lib/records/stock-overview'
import { partName } from '../_page/words'

export const metadata: Metadata = { title: 'Buy list' }

/** What to order, to be printed and taken along; what nobody counted stands apart. */
export default async function BuyPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  const days = stockDays(textParam(await searchParams, 'days'))
  const db = await getDb()
  const day = today()
  const lines = stockOverview(db, viewer, addDays(day, days))
  const buy = lines.filter(({ standing }) => (standing.order ?? 0) > 0)
  const count = lines.filter(({ standing }) => standing.kind === 'count first')
  const outfit = getOutfit(db)
  return (
    <>
      <PageHead
        title="Buy list"
        lead={[outfit.name, `${showDay(day, viewer.units)}, for what is due within ${days} days`]
          .filter(Boolean)
          .join(' · ')}
      >
        <PrintButton />
        <Link href={paths.stock({ days: String(days) })} prefetch={false}>
          Back to the stock
        </Link>
      </PageHead>
      {buy.length === 0 ? (
        <EmptyState title="Nothing to buy, by the book">
          <p>No part that was counted is at its reorder level or short for what is due.</p>
        </EmptyState>
      ) : (
        <ul className="plain-list stack-tight">
          {buy.map(({ part, model, item, standing }) => (
            <li key={`${part} ${model}`} className="sheet-item">
              <span className="tick" aria-hidden="true" />
              <span>
                <strong>
                  {standing.order} × {partName(part, model)}
                </strong>{' '}
                <span className="muted">
                  ({item?.shelf ?? 0} on the shelf; {standing.why})
                </span>
              </span>
            </li>
          ))}
        </ul>
      )}
      {count.length > 0 ? (
        <section aria-labelledby="count" className="stack-tight">
          <h2 id="count">Count first</h2>
          <p className="muted text">
            How many of these to buy cannot be said: nobody knows how many are there.
          </p>
          <ul className="plain-list stack-tight">
            {count.map(({ part, model, needed, standing }) => (
              <li key={`${part} ${model}`} className="sheet-item">
                <span className="tick" aria-hidden="true" />
                <span>
                  {partName(part, model)}{' '}
                  <span className="muted">
                    ({needed} needed; {standing.why})
                  </span>
                </span>
              </li>
            ))}
          </ul>
        </section>
      ) : null}
    </>
  )
}
