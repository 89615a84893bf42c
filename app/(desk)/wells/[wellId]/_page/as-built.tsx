import { showDay } from '@/app/ui/show-day'
import { TableFrame } from '@/app/ui/table-frame'
import { formatNumber, formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import { WELL_QUANTITIES, type WellQuantity, wellTypedTexts } from '@/lib/forms/well-form'
import type { WellPage } from '@/lib/records/wells'

type Props = { well: WellPage['well']; owner: WellPage['owner']; units: UnitSystem }

/** How the well was built, where it is, whose it is. Unknown is said, never shown as zero. */
export function AsBuilt({ well, owner, units }: Props) {
  const typed = wellTypedTexts(well.typed)
  const rows = (Object.keys(WELL_QUANTITIES) as WellQuantity[]).map((name) => {
    const si = well[name]
    return {
      name,
      label: WELL_QUANTITIES[name].label,
      value: si === null ? null : formatQuantity(si, WELL_QUANTITIES[name].use, units),
      typed: typed[name],
    }
  })
  const known = rows.filter((row) => row.value !== null)
  const unknown = rows.filter((row) => row.value === null)
  return (
    <section aria-labelledby="built" className="stack">
      <h2 id="built">As built, place and owner</h2>
      <div className="sheet stack-tight">
        <Place well={well} />
        {well.access ? <p>{well.access}</p> : null}
        {well.closedFrom && well.closedTo ? (
          <p>
            Closed from {well.closedFrom} to {well.closedTo} (month-day)
            {well.closedWhy ? `: ${well.closedWhy}` : ''}.
          </p>
        ) : null}
        {owner ? (
          <p>
            Owner: {owner.name}
            {owner.phone ? (
              <>
                {', '}
                <a href={`tel:${owner.phone.replace(/[^\d+]/g, '')}`}>{owner.phone}</a>
              </>
            ) : null}
            {owner.email ? (
              <>
                {', '}
                <a href={`mailto:${encodeURIComponent(owner.email)}`}>{owner.email}</a>
              </>
            ) : null}
          </p>
        ) : (
          <p className="muted">No owner is named.</p>
        )}
        {well.notes ? <p>{well.notes}</p> : null}
      </div>
      <TableFrame label="Measures of the well">
        <table className="table">
          <tbody>
            <tr>
              <th scope="row">Installed</th>
              <td>{well.installedOn ? showDay(well.installedOn, units) : 'not known'}</td>
            </tr>
            {known.map(({ name, label, value, typed: text }) => (
              <tr key={name}>
                <th scope="row">{label}</th>
                <td>
                  {value}
                  {text ? <span className="muted small"> (typed: {text})</span> : null}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
      {unknown.length > 0 ? (
        <p className="muted">Not known: {unknown.map((row) => row.label.toLowerCase()).join(', ')}.</p>
      ) : null}
    </section>
  )
}

function Place({ well }: { well: WellPage['well'] }) {
  if (well.latitude === null || well.longitude === null)
    return <p className="muted">No coordinate is known.</p>
  const text = `${formatNumber(well.latitude, 0, 6)}, ${formatNumber(well.longitude, 0, 6)}`
  return (
    <p>
      Coordinate <a href={`geo:${well.latitude},${well.longitude}`}>{text}</a>
    </p>
  )
}
