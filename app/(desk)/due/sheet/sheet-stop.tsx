import { ChainBanner } from '@/app/ui/chain-banner'
import { showDay } from '@/app/ui/show-day'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { CONSEQUENCE_WORDS, sayDistance } from '@/lib/domain/upkeep/due-words'
import { consequenceOfRank } from '@/lib/domain/upkeep/rank'
import { partsHint } from '@/lib/domain/upkeep/truck'
import type { DueRow } from '@/lib/records/due-list'
import type { SheetStop } from '@/lib/records/due-sheet'

/** What most visits read; each gets a line to write on. */
const READINGS = [
  'Hour meter',
  'Volume meter',
  'Level at rest',
  'Level pumping',
  'Flow',
  'Pressure before / after',
  'Amps / volts',
]

/** One well of the sheet: how to get there, what is to be done, and room to write. */
export function SheetStopSection({ stop, today, units }: { stop: SheetStop; today: Day; units: UnitSystem }) {
  const { well, owner, chains, items } = stop
  const place = [
    well.area,
    well.latitude !== null && well.longitude !== null
      ? `${well.latitude.toFixed(5)}, ${well.longitude.toFixed(5)}`
      : null,
    owner ? [owner.name, owner.phone].filter(Boolean).join(', ') : null,
  ].filter(Boolean)
  return (
    <section className="sheet stop" aria-labelledby={`stop-${well.id}`}>
      <h2 id={`stop-${well.id}`}>
        {well.label}
        {well.name ? ` – ${well.name}` : ''}
      </h2>
      <ChainBanner wellId={well.id} chains={chains} units={units} />
      {place.length > 0 ? <p>{place.join(' · ')}</p> : null}
      {well.access ? <p>Way in: {well.access}</p> : null}
      <ul className="plain-list stack-tight">
        {items.map((item) => (
          <SheetItem key={item.id} {...{ item, today, units }} />
        ))}
      </ul>
      <div className="write">
        {READINGS.map((reading) => (
          <div key={reading} className="write-line">
            <span>{reading}</span>
          </div>
        ))}
        <div className="write-line write-wide">
          <span>Note</span>
        </div>
        <div className="write-line write-wide">
          <span>Done by, date and time</span>
        </div>
      </div>
    </section>
  )
}

function SheetItem({ item, today, units }: { item: DueRow; today: Day; units: UnitSystem }) {
  const when =
    item.dueOn === null
      ? 'no date known'
      : `due ${showDay(item.dueOn, units)}, ${sayDistance(item.dueOn, today)}`
  const parts = partsHint(item.dutyKey)
  return (
    <li className="sheet-item">
      <span className="tick" aria-hidden="true" />
      <div>
        <strong>{item.dutyName}</strong> ({CONSEQUENCE_WORDS[consequenceOfRank(item.rank)].toLowerCase()}):{' '}
        {when}
        {item.lastDoneOn ? `, last done ${showDay(item.lastDoneOn, units)}` : ''}
        {parts.length > 0 ? <div className="muted">Take along: {parts.join(', ')}</div> : null}
      </div>
    </li>
  )
}
