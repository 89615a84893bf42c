import Link from 'next/link'
import { ChainMark } from '@/app/ui/chain-banner'
import { showDay } from '@/app/ui/show-day'
import { YieldMark } from '@/app/ui/yield-mark'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { sayDistance } from '@/lib/domain/upkeep/due-words'
import { paths } from '@/lib/paths'
import type { WellListRow } from '@/lib/records/well-list'

type Props = { rows: readonly WellListRow[]; today: Day; units: UnitSystem; choosable: boolean }

export function WellTable({ rows, today, units, choosable }: Props) {
  return (
    <div className="table-frame">
      <table className="table table-cards due-table">
        <caption className="unseen">Wells</caption>
        <thead>
          <tr>
            {choosable ? (
              <th scope="col" className="no-print">
                <span className="unseen">Choose</span>
              </th>
            ) : null}
            <th scope="col">Well</th>
            <th scope="col">Owner</th>
            <th scope="col">Area</th>
            <th scope="col">Next due</th>
            <th scope="col">Yield</th>
            <th scope="col">Last visit</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.id}>
              {choosable ? (
                <td className="choose no-print">
                  <label className="choose-box">
                    <input type="checkbox" name="ids" value={row.id} />
                    <span className="unseen">Choose {row.label}</span>
                  </label>
                </td>
              ) : null}
              <th scope="row" className="pair">
                <Link href={paths.well(row.id)} prefetch={false}>
                  {row.label}
                </Link>
                {row.name ? <span className="muted">{row.name}</span> : null}
                <ChainMark chain={row.chain} since={row.chainOn} units={units} />
              </th>
              <td data-label={row.ownerName ? 'Owner' : undefined}>{row.ownerName}</td>
              <td data-label={row.area ? 'Area' : undefined}>{row.area}</td>
              <td data-label="Next due">
                <NextDue {...{ row, today, units }} />
              </td>
              <td data-label={row.yield ? 'Yield' : undefined}>
                {row.yield && !row.retiredOn ? <YieldMark of={row.yield} /> : null}
              </td>
              <td data-label="Last visit">
                {row.lastVisitOn ? showDay(row.lastVisitOn, units) : 'none yet'}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

function NextDue({ row, today, units }: { row: WellListRow; today: Day; units: UnitSystem }) {
  if (row.retiredOn) return <>retired {showDay(row.retiredOn, units)}</>
  if (row.nextDuty === null) return <>no duties yet</>
  if (row.nextDueOn === null) return <>{row.nextDuty}: no date known</>
  return (
    <>
      {row.nextDuty}: <span className="number">{showDay(row.nextDueOn, units)}</span>{' '}
      <span className={row.nextDueOn < today ? 'overdue' : 'muted'}>
        ({sayDistance(row.nextDueOn, today)})
      </span>
    </>
  )
}
