import Link from 'next/link'
import { DueDate } from '@/app/(desk)/_due/due-table'
import { FleetTable, WellCell, WhereCells } from '@/app/(desk)/_due/well-cells'
import { ChainMark } from '@/app/ui/chain-banner'
import { showDay } from '@/app/ui/show-day'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import type { DueRow } from '@/lib/records/due-list'
import { GROUP_WORDS } from './words'

const HEADS = ['Well', 'Sample', 'Due', 'Last done', 'Area', 'Owner']

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
    <FleetTable caption={GROUP_WORDS.due} heads={HEADS}>
      {rows.map((row) => (
        <tr key={row.id}>
          <WellCell row={row} href={paths.wellWater(row.wellId)}>
            <ChainMark chain={row.chain} since={row.chainOn} units={units} />
          </WellCell>
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
          <WhereCells row={row} />
        </tr>
      ))}
    </FleetTable>
  )
}
