import { showDay } from '@/app/ui/show-day'
import { TableFrame } from '@/app/ui/table-frame'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import { wellTypedTexts } from '@/lib/forms/well-form-texts'
import { WELL_QUANTITIES, type WellQuantity } from '@/lib/forms/well-quantities'
import type { WellPage } from '@/lib/records/wells'

type Props = { well: WellPage['well']; units: UnitSystem }

/** How the well was built. Unknown is said, never shown as zero. */
export function AsBuilt({ well, units }: Props) {
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
      <h2 id="built">As built</h2>
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
                  {text && text !== value?.replaceAll('\u00a0', ' ') ? (
                    <span className="muted small"> (typed: {text})</span>
                  ) : null}
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
