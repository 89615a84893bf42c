import { showDay } from '@/app/ui/show-day'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { CONSEQUENCE_WORDS, sayDistance } from '@/lib/domain/upkeep/due-words'
import { consequenceOfRank } from '@/lib/domain/upkeep/rank'
import type { DueRow } from '@/lib/records/due-list'
import type { SheetStop } from '@/lib/records/due-sheet'
import { SheetDuty } from '../../_rounds/sheet-duty'
import { SheetHead } from '../../_rounds/sheet-head'
import { WriteLines } from '../../_rounds/write-lines'

/** One well of the sheet: how to get there, what is to be done, and room to write. */
export function SheetStopSection({ stop, today, units }: { stop: SheetStop; today: Day; units: UnitSystem }) {
  const { well, owner, chains, items } = stop
  const { latitude, longitude } = well
  const at = latitude !== null && longitude !== null ? { latitude, longitude } : null
  return (
    <section className="sheet stop" aria-labelledby={`stop-${well.id}`}>
      <SheetHead well={{ ...well, at, owner }} headingId={`stop-${well.id}`} chains={chains} units={units} />
      <ul className="plain-list stack-tight">
        {items.map((item) => (
          <SheetItem key={item.id} {...{ item, today, units }} />
        ))}
      </ul>
      <WriteLines />
    </section>
  )
}

function SheetItem({ item, today, units }: { item: DueRow; today: Day; units: UnitSystem }) {
  const when =
    item.dueOn === null
      ? 'no date known'
      : `due ${showDay(item.dueOn, units)}, ${sayDistance(item.dueOn, today)}`
  return (
    <SheetDuty dutyKey={item.dutyKey}>
      <strong>{item.dutyName}</strong> ({CONSEQUENCE_WORDS[consequenceOfRank(item.rank)].toLowerCase()}):{' '}
      {when}
      {item.lastDoneOn ? `, last done ${showDay(item.lastDoneOn, units)}` : ''}
    </SheetDuty>
  )
}
