import Link from 'next/link'
import { FleetTable, WellCell, WhereCells } from '@/app/(desk)/_due/well-cells'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { type Day, daysShown, type UnitSystem } from '@/lib/domain/quantity'
import { sayWater } from '@/lib/domain/water/standing-words'
import type { WaterViewGroup } from '@/lib/forms/water-query'
import { paths } from '@/lib/paths'
import type { WaterRow } from '@/lib/records/water-fleet'
import { GROUP_WORDS } from './words'

const HEADS = ['Well', 'Standing', 'Last sample', 'Area', 'Owner']

type Props = { rows: readonly WaterRow[]; group: WaterViewGroup; today: Day; units: UnitSystem }

/** The wells of one group: what is said of the water, by which edition of which limits, and what comes next. */
export function WaterTable({ rows, group, today, units }: Props) {
  return (
    <FleetTable caption={GROUP_WORDS[group]} heads={HEADS}>
      {rows.map((row) => (
        <WaterLine key={row.wellId} {...{ row, today, units }} />
      ))}
    </FleetTable>
  )
}

function WaterLine({ row, today, units }: { row: WaterRow; today: Day; units: UnitSystem }) {
  const { water } = row
  const { tone, word, says } = sayWater(water, today, (day) => showDay(day, units))
  const [chain] = water.chains
  return (
    <tr>
      <WellCell row={row} href={paths.wellWater(row.wellId)} />
      <td className="why">
        <Status tone={tone}>{word}</Status>
        <p>{says}</p>
        {chain ? (
          <p>
            Next: {daysShown(chain.next, units)}{' '}
            <Link href={paths.chain(row.wellId, chain.key)} prefetch={false}>
              Steps<span className="unseen"> at {row.label}</span>
            </Link>
          </p>
        ) : null}
        {water.asOf === null ? null : (
          <details>
            <summary className="small-summary">
              Judged by {water.schemeName}
              <span className="unseen"> at {row.label}</span>
            </summary>
            <p>Edition: {water.edition}</p>
          </details>
        )}
      </td>
      <td data-label="Last sample">{water.asOf === null ? 'none' : showDay(water.asOf, units)}</td>
      <WhereCells row={row} />
    </tr>
  )
}
