import Link from 'next/link'
import { MapSymbol } from '@/app/ui/map/map-key'
import { showDay } from '@/app/ui/show-day'
import { TableFrame } from '@/app/ui/table-frame'
import { formatNumber, formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import type { MapWell } from '@/lib/records/map-wells'

type Props = { wells: readonly MapWell[]; first: number; units: UnitSystem; byDistance: boolean }

/** Everything the map shows, as a table. */
export function MapList({ wells, first, units, byDistance }: Props) {
  if (wells.length === 0)
    return (
      <p>
        No well fits. Ask for less above, or{' '}
        <Link href={paths.map()} prefetch={false}>
          show all wells
        </Link>
        .
      </p>
    )
  return (
    <section className="stack-tight" aria-labelledby="list">
      <h2 id="list">The same as a list{first > 1 ? `, from number ${first}` : ''}</h2>
      <TableFrame label="Wells of the map">
        <table className="table table-cards">
          <thead>
            <tr>
              <th scope="col">Well</th>
              <th scope="col">Stands</th>
              <th scope="col">Next</th>
              {byDistance ? <th scope="col">Away</th> : null}
              <th scope="col">Where</th>
              <th scope="col">Head</th>
            </tr>
          </thead>
          <tbody>
            {wells.map((well) => (
              <tr key={well.id}>
                <th scope="row">
                  <Link href={paths.well(well.id)} prefetch={false}>
                    {well.label}
                    {well.name ? `, ${well.name}` : ''}
                  </Link>
                </th>
                <td data-label="Stands">
                  <MapSymbol status={well.status} />
                </td>
                <td data-label="Next">
                  {well.dueOn ? `${well.dutyName}, ${showDay(well.dueOn, units)}` : 'not known'}
                </td>
                {byDistance ? (
                  <td data-label="Away">
                    {well.awayM === null ? 'not known' : formatQuantity(well.awayM, 'route', units)}
                  </td>
                ) : null}
                <td data-label="Where">{[well.area, coordinate(well)].filter(Boolean).join(': ')}</td>
                <td data-label="Head">
                  <Link href={paths.findWell(well.id)} prefetch={false}>
                    Find<span className="unseen"> {well.label}</span>
                  </Link>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
    </section>
  )
}

function coordinate({ latitude, longitude }: MapWell): string {
  return latitude === null || longitude === null
    ? 'no coordinate'
    : `${formatNumber(latitude, 4, 5)}, ${formatNumber(longitude, 4, 5)}`
}
