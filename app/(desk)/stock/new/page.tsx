import type { Metadata } from 'next'
import Link from 'next/link'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { PART_KINDS } from '@/lib/domain/logbook/kinds'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { writeMove } from '../actions'
import { MoveForm } from '../move-form'

export const metadata: Metadata = { title: 'Count, receive or take' }

/** A line of the stock book for any part; an address may name the part. */
export default async function NewStockPage({ searchParams }: { searchParams: Promise<Params> }) {
  await deskViewer()
  const asked = await searchParams
  const initial = Object.fromEntries(['part', 'model', 'kind'].map((name) => [name, textParam(asked, name)]))
  return (
    <>
      <PageHead
        title="Count, receive or take"
        lead="A line stays in the book. One that was wrong is put right by a count."
      >
        <Link href={paths.stock()} prefetch={false}>
          Back to the stock
        </Link>
      </PageHead>
      <MoveForm action={writeMove} moveId={newId()} day={today()} initial={initial} kinds={PART_KINDS} />
    </>
  )
}
