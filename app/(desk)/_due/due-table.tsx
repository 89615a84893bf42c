import { ChainMark } from '@/app/ui/chain-banner'
import { showDay } from '@/app/ui/show-day'
import { type Day, daysShown, type UnitSystem } from '@/lib/domain/quantity'
import { sayDistance } from '@/lib/domain/upkeep/due-words'
import { consequenceOfRank, type Urgency } from '@/lib/domain/upkeep/rank'
import { paths } from '@/lib/paths'
import type { DueRow } from '@/lib/records/due-list'
import { FleetTable, WellCell, WhereCells } from './well-cells'
import { ConsequenceMark, URGENCY_WORDS } from './words'

const HEADS = ['Well', 'Duty', 'Due', 'Why', 'Area', 'Owner']

type Props = { rows: readonly DueRow[]; urgency: Urgency; today: Day; units: UnitSystem }

export function DueTable({ rows, urgency, today, units }: Props) {
  return (
    <FleetTable caption={URGENCY_WORDS[urgency]} heads={HEADS} choose>
      {rows.map((row) => (
        <DueLine key={row.id} {...{ row, today, units }} />
      ))}
    </FleetTable>
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
      <WellCell row={row} href={paths.well(row.wellId)}>
        <ChainMark chain={row.chain} since={row.chainOn} units={units} />
      </WellCell>
      <td className="pair">
        <span>{row.dutyName}</span>
        <ConsequenceMark consequence={consequenceOfRank(row.rank)} />
      </td>
      <td className="pair due">
        <DueDate {...{ row, today, units }} />
      </td>
      <td className="why">{daysShown(row.reason, units)}</td>
      <WhereCells row={row} />
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
