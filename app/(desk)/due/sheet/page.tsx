import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { isStockHint } from '@/lib/domain/logbook/duty-parts'
import { truckList } from '@/lib/domain/upkeep/truck'
import { listParam, type Params } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { dueSheet, SHEET_ITEMS_MAX } from '@/lib/records/due-sheet'
import { getDb } from '@/lib/records/open'
import { getOutfit } from '@/lib/records/settings'
import { pickListOf } from '@/lib/records/stock'
import { PickListSection } from './pick-list'
import { SheetStopSection } from './sheet-stop'

export const metadata: Metadata = { title: 'Work sheet' }

export default async function SheetPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  const ids = listParam(await searchParams, 'ids')
  const db = await getDb()
  const stops = dueSheet(db, viewer, ids)
  if (stops.length === 0) return <NothingChosen />
  const day = today()
  const outfit = getOutfit(db)
  const truck = truckList(stops.flatMap((stop) => stop.items.map((item) => item.dutyKey))).filter(
    ({ part }) => !isStockHint(part),
  )
  const picks = pickListOf(
    db,
    viewer,
    stops.map(({ well, items }) => ({
      wellId: well.id,
      label: well.label,
      dutyKeys: items.map((item) => item.dutyKey),
    })),
  )
  const items = stops.reduce((sum, stop) => sum + stop.items.length, 0)
  return (
    <>
      <PageHead
        title="Work sheet"
        lead={`${[outfit.name, outfit.contact].filter(Boolean).join(', ')}${outfit.name || outfit.contact ? ' · ' : ''}Printed ${showDay(day, viewer.units)} · ${items} ${items === 1 ? 'duty' : 'duties'} at ${stops.length} ${stops.length === 1 ? 'well' : 'wells'}`}
      >
        <PrintButton />
        <Link href={paths.due()} prefetch={false}>
          Back to the due list
        </Link>
      </PageHead>
      {ids.length > SHEET_ITEMS_MAX ? (
        <p>A sheet holds {SHEET_ITEMS_MAX} duties: the rest of those chosen is left out.</p>
      ) : null}
      <PickListSection lines={picks} />
      {truck.length > 0 ? (
        <section className="sheet" aria-labelledby="truck">
          <h2 id="truck">Besides, on the truck</h2>
          <ul className="truck">
            {truck.map(({ part, duties }) => (
              <li key={part}>
                <span className="tick" aria-hidden="true" /> {part}
                {duties > 1 ? <span className="muted"> (for {duties})</span> : null}
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      {stops.map((stop) => (
        <SheetStopSection key={stop.well.id} stop={stop} today={day} units={viewer.units} />
      ))}
    </>
  )
}

function NothingChosen() {
  return (
    <>
      <PageHead title="Work sheet" />
      <EmptyState title="Nothing was chosen">
        <p>Tick the duties that you want on the sheet, then press “Print a sheet of those chosen”.</p>
        <p>
          <Link href={paths.due()} prefetch={false}>
            Back to the due list
          </Link>
        </p>
      </EmptyState>
    </>
  )
}
