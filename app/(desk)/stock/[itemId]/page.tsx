import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { addDays } from '@/lib/domain/quantity/day'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { shelfItem, stockBook } from '@/lib/records/stock-items'
import { stockOverview } from '@/lib/records/stock-overview'
import { partName, ShelfMark, sayShelf } from '../_page/words'
import { saveRule, writeMove } from '../actions'
import { MoveForm } from '../move-form'
import { Book } from './book'
import { RuleForm } from './rule-form'

export const metadata: Metadata = { title: 'A part on the shelf' }

type Props = { params: Promise<{ itemId: string }>; searchParams: Promise<Params> }

const LINES_SHOWN = 100
const DAYS_AHEAD = 30

/** One kind of part: how many are there, its book, when it is ordered. */
export default async function StockItemPage({ params, searchParams }: Props) {
  const { itemId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const item = shelfItem(db, viewer, itemId)
  if (!item) notFound()
  const { part, model, shelf, countedOn, reorderAt, upTo, version } = item
  const day = today()
  const line = stockOverview(db, viewer, addDays(day, DAYS_AHEAD)).find((one) => one.item?.id === itemId)
  if (!line) throw new Error(`stock item ${itemId} is in no line of the overview`)
  const saved = textParam(await searchParams, 'saved')
  const lines = stockBook(db, viewer, item, LINES_SHOWN)
  return (
    <>
      <PageHead title={partName(part, model)}>
        <Link href={paths.stock()} prefetch={false}>
          Back to the stock
        </Link>
      </PageHead>
      <div role="status" className={saved ? 'done' : undefined}>
        {saved === 'rule' ? 'The level is saved.' : saved ? 'It is in the book.' : ''}
      </div>
      <p>
        <ShelfMark standing={line.standing} /> <span className="muted">{line.standing.why}</span>
      </p>
      <p className="text">
        On the shelf: <strong>{sayShelf(shelf)}</strong>
        {countedOn ? `, last counted on ${showDay(countedOn, viewer.units)}` : ''}. The duties due within{' '}
        {DAYS_AHEAD} days will use {line.needed}
        {line.inCase > 0 ? `, and ${line.inCase} is to go along in case` : ''}.
      </p>
      <section aria-labelledby="move" className="stack-tight no-print">
        <h2 id="move">Count, receive or take</h2>
        <MoveForm
          action={writeMove}
          moveId={newId()}
          day={day}
          initial={{ part, model: model ?? '' }}
          kinds={null}
        />
      </section>
      <section aria-labelledby="level" className="stack-tight no-print">
        <h2 id="level">When to order</h2>
        <RuleForm
          action={saveRule.bind(null, itemId)}
          initial={{ reorderAt: String(reorderAt ?? ''), upTo: String(upTo ?? '') }}
          version={String(version)}
        />
      </section>
      <section aria-labelledby="book" className="stack-tight">
        <h2 id="book">Book</h2>
        <Book lines={lines} units={viewer.units} />
        {lines.length === LINES_SHOWN ? (
          <p className="muted">The newest {LINES_SHOWN} lines; all of them are in the export.</p>
        ) : null}
      </section>
    </>
  )
}
