import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { sayWater } from '@/lib/domain/water/standing-words'
import type { WaterViewGroup } from '@/lib/forms/water-query'
import { paths } from '@/lib/paths'
import type { WaterRow } from '@/lib/records/water-fleet'
import { GROUP_WORDS } from './words'

type Props = { rows: readonly WaterRow[]; group: WaterViewGroup; today: Day; units: UnitSystem }

/** The wells of one group: what is said of the water, by which edition of which limits, and what comes next. */
export function WaterTable({ rows, group, today, units }: Props) {
  return (
    <div className="table-frame">
      <table className="table table-cards due-table">
        <caption className="unseen">{GROUP_WORDS[group]}</caption>
        <thead>
          <tr>
            <th scope="col">Well</th>
            <th scope="col">Standing</th>
            <th scope="col">Last sample</th>
            <th scope="col">Area</th>
            <th scope="col">Owner</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <WaterLine key={row.wellId} {...{ row, today, units }} />
          ))}
        </tbody>
      </table>
    </div>
  )
}

function WaterLine({ row, today, units }: { row: WaterRow; today: Day; units: UnitSystem }) {
  const { water } = row
  const { tone, word, says } = sayWater(water, today, (day) => showDay(day, units))
  const [chain] = water.chains
  return (
    <tr>
      <th scope="row" className="pair">
        <Link href={paths.wellWater(row.wellId)} prefetch={false}>
          {row.label}
        </Link>
        {row.wellName ? <span className="muted">{row.wellName}</span> : null}
      </th>
      <td className="why">
        <Status tone={tone}>{word}</Status>
        <p>{says}</p>
        {chain ? (
          <p>
            Next: {chain.next}{' '}
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
      <td data-label={row.area ? 'Area' : undefined}>{row.area}</td>
      <td data-label={row.ownerName ? 'Owner' : undefined}>{row.ownerName}</td>
    </tr>
  )
}
