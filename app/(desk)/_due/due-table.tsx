import Link from 'next/link'
import { ChainMark } from '@/app/ui/chain-banner'
import { showDay } from '@/app/ui/show-day'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { sayDistance } from '@/lib/domain/upkeep/due-words'
import { consequenceOfRank, type Urgency } from '@/lib/domain/upkeep/rank'
import { paths } from '@/lib/paths'
import type { DueRow } from '@/lib/records/due-list'
import { ConsequenceMark, URGENCY_WORDS } from './words'

type Props = { rows: readonly DueRow[]; urgency: Urgency; today: Day; units: UnitSystem }

export function DueTable({ rows, urgency, today, units }: Props) {
  return (
    <div className="table-frame">
      <table className="table table-cards due-table">
        <caption className="unseen">{URGENCY_WORDS[urgency]}</caption>
        <thead>
          <tr>
            <th scope="col" className="no-print">
              <span className="unseen">Choose</span>
            </th>
            <th scope="col">Well</th>
            <th scope="col">Duty</th>
            <th scope="col">Due</th>
            <th scope="col">Why</th>
            <th scope="col">Area</th>
            <th scope="col">Owner</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <DueLine key={row.id} {...{ row, today, units }} />
          ))}
        </tbody>
      </table>
    </div>
  )
}

function DueLine({ row, today, units }: { row: DueRow; today: Day; units: UnitSystem }) {
  return (
    <tr>
      <td className="choose no-print">
        <label className="choose-box">
          <input type="checkbox" name="ids" value={row.id} />
          <span className="unseen">
            Choose {row.dutyName} at {row.label}
          </span>
        </label>
      </td>
      <th scope="row" className="pair">
        <Link href={paths.well(row.wellId)} prefetch={false}>
          {row.label}
        </Link>
        {row.wellName ? <span className="muted">{row.wellName}</span> : null}
        <ChainMark chain={row.chain} since={row.chainOn} units={units} />
      </th>
      <td className="pair">
        <span>{row.dutyName}</span>
        <ConsequenceMark consequence={consequenceOfRank(row.rank)} />
      </td>
      <td className="pair due">
        <DueDate {...{ row, today, units }} />
      </td>
      <td className="why">{row.reason}</td>
      <td data-label={row.area ? 'Area' : undefined}>{row.area}</td>
      <td data-label={row.ownerName ? 'Owner' : undefined}>{row.ownerName}</td>
    </tr>
  )
}

/** The date, how far it is, and the interval where it is not the same day at both ends. */
export function DueDate({
  row,
  today,
  units,
}: {
  row: Pick<DueRow, 'dueOn' | 'fromOn' | 'toOn'>
  today: Day
  units: UnitSystem
}) {
  if (row.dueOn === null) return <>not known</>
  const interval = intervalWords(row, units)
  return (
    <>
      <span className="number">{showDay(row.dueOn, units)}</span>
      <span className={row.dueOn < today ? 'overdue' : 'muted'}>{sayDistance(row.dueOn, today)}</span>
      {interval ? <span className="muted">{interval}</span> : null}
    </>
  )
}

/** The ends of the 80 % interval in words; null where the calendar decides. */
function intervalWords(
  { dueOn, fromOn, toOn }: Pick<DueRow, 'dueOn' | 'fromOn' | 'toOn'>,
  units: UnitSystem,
): string | null {
  if (fromOn === null && toOn === null) return null
  if (fromOn === dueOn && toOn === dueOn) return null
  if (fromOn === null) return `likely before ${toOn ? showDay(toOn, units) : ''}`
  if (toOn === null) return `likely after ${showDay(fromOn, units)}`
  return `likely ${showDay(fromOn, units)} to ${showDay(toOn, units)}`
}
