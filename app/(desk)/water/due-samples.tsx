import Link from 'next/link'
import { DueDate } from '@/app/(desk)/_due/due-table'
import { ChainMark } from '@/app/ui/chain-banner'
import { showDay } from '@/app/ui/show-day'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import type { DueRow } from '@/lib/records/due-list'
import { GROUP_WORDS } from './words'

/** The samples that fall due, each with the way to its sampling sheet. */
export function DueSamples({
  rows,
  today,
  units,
}: {
  rows: readonly DueRow[]
  today: Day
  units: UnitSystem
}) {
  return (
    <div className="table-frame">
      <table className="table table-cards due-table">
        <caption className="unseen">{GROUP_WORDS.due}</caption>
        <thead>
          <tr>
            <th scope="col">Well</th>
            <th scope="col">Sample</th>
            <th scope="col">Due</th>
            <th scope="col">Last done</th>
            <th scope="col">Area</th>
            <th scope="col">Owner</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.id}>
              <th scope="row" className="pair">
                <Link href={paths.wellWater(row.wellId)} prefetch={false}>
                  {row.label}
                </Link>
                {row.wellName ? <span className="muted">{row.wellName}</span> : null}
                <ChainMark chain={row.chain} since={row.chainOn} units={units} />
              </th>
              <td className="pair">
                <span>{row.dutyName}</span>
                <Link href={paths.sampling(row.wellId)} prefetch={false}>
                  Sampling sheet<span className="unseen"> for {row.label}</span>
                </Link>
              </td>
              <td className="pair due">
                <DueDate {...{ row, today, units }} />
              </td>
              <td data-label="Last done">{row.lastDoneOn ? showDay(row.lastDoneOn, units) : 'not known'}</td>
              <td data-label={row.area ? 'Area' : undefined}>{row.area}</td>
              <td data-label={row.ownerName ? 'Owner' : undefined}>{row.ownerName}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
