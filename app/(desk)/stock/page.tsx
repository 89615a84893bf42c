import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { SelectField } from '@/app/ui/field'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { Status } from '@/app/ui/status'
import { today } from '@/lib/clock'
import { addDays } from '@/lib/domain/quantity/day'
import { EMPTY_FORM } from '@/lib/forms/form'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { STOCK_DAYS, stockDays } from '@/lib/forms/stock-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { type StockLine, stockOverview } from '@/lib/records/stock-overview'
import { StockTable } from './_page/stock-table'

export const metadata: Metadata = { title: 'Stock' }

/** The shelf against what the duties due soon will use. */
export default async function StockPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  const days = stockDays(textParam(await searchParams, 'days'))
  const lines = stockOverview(await getDb(), viewer, addDays(today(), days))
  return (
    <>
      <PageHead
        title="Stock"
        lead="What is on the shelf, and what the duties due soon will use. Parts that a visit fits leave the shelf by themselves."
      >
        <Link className="button" href={paths.newStock()} prefetch={false}>
          Count, receive or take
        </Link>
        {lines.length > 0 ? (
          <Link
            className="button button-quiet"
            href={paths.stockBuy({ days: String(days) })}
            prefetch={false}
          >
            Buy list
          </Link>
        ) : null}
      </PageHead>
      {lines.length === 0 ? (
        <EmptyState title="Nothing is on the stock book yet">
          <p>
            Count one kind of part, such as a cartridge of one size: from then on every visit that fits one
            takes it off the shelf, and this page says what lacks for the duties that are due.
          </p>
          <p>
            <Link href={paths.newStock({ kind: 'counted' })} prefetch={false}>
              Count the first part
            </Link>
          </p>
        </EmptyState>
      ) : (
        <>
          <Lacking lines={lines} days={days} />
          <form className="row no-print" action={paths.stock()} method="get">
            <SelectField
              state={EMPTY_FORM}
              name="days"
              label="Look ahead"
              initial={String(days)}
              options={STOCK_DAYS.map((n) => ({ value: String(n), label: `${n} days` }))}
            />
            <button className="button button-quiet" type="submit">
              Show
            </button>
          </form>
          <StockTable lines={lines} days={days} />
          <p className="muted text">
            What a duty takes is common practice, no published source; the size is that of the part fitted
            last at each well. A duty counts once, however often it would come round. A count tells the whole
            shelf: lines of days before it no longer count.
          </p>
        </>
      )}
    </>
  )
}

/** The one sentence that somebody opens this page for. */
function Lacking({ lines, days }: { lines: readonly StockLine[]; days: number }) {
  const of = (kind: StockLine['standing']['kind']) =>
    lines.filter(({ standing }) => standing.kind === kind).length
  const [short, order, count] = [of('short'), of('order'), of('count first')]
  const words = [
    ...(short > 0
      ? [`${short} ${short === 1 ? 'part is' : 'parts are'} short for what is due within ${days} days`]
      : []),
    ...(order > 0 ? [`${order} to be ordered`] : []),
    ...(count > 0 ? [`${count} to be counted first: nobody knows how many are there`] : []),
  ]
  if (words.length === 0)
    return (
      <p>
        <Status tone="calm">Nothing lacks for what is due within {days} days, by the book</Status>
      </p>
    )
  return (
    <p>
      <Status tone={short > 0 ? 'alarm' : order > 0 ? 'watch' : 'unsure'}>{words.join('; ')}</Status>
    </p>
  )
}
