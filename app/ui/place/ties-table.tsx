import { TableFrame } from '@/app/ui/table-frame'
import type { MeasuredPlace, PlaceFound } from '@/lib/domain/logbook/place-record'
import { sayReach } from '@/lib/domain/logbook/place-words'
import { type Candidate, letterOf } from '@/lib/domain/place'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'

type Props = { measured: MeasuredPlace; found: PlaceFound; units: UnitSystem }

/** Each mark with its tape, how the tape lay, and how far it misses the place that all agree on. */
export function TiesTable({ measured, found, units }: Props) {
  const { marks, ties } = measured.fact
  if (marks.list.length === 0) return null
  const say = (m: number) => formatQuantity(m, 'distance', units)
  const chosen = found.choice?.kind === 'one' ? found.choice.chosen.candidate : null
  const checked = chosen !== null && ties.length > 2
  return (
    <TableFrame label="Ties to marks">
      <table className="table table-cards">
        <thead>
          <tr>
            <th scope="col">Mark</th>
            <th scope="col">Tape to the head</th>
            <th scope="col">How it lay</th>
            {checked ? <th scope="col">Off by</th> : null}
          </tr>
        </thead>
        <tbody>
          {marks.list.map(({ name, about }, i) => {
            const tie = ties.find((one) => one.mark === name)
            return (
              <tr key={name}>
                <th scope="row">
                  {letterOf(i)}: {name}
                  {about ? <span className="muted small"> {about}</span> : null}
                </th>
                <td data-label="Tape to the head">{tie ? say(tie.tape.si) : 'no tape'}</td>
                <td data-label="How it lay">{slopeWords(tie, units)}</td>
                {checked ? <td data-label="Off by">{offWords(chosen, name, units)}</td> : null}
              </tr>
            )
          })}
        </tbody>
      </table>
    </TableFrame>
  )
}

function slopeWords(tie: MeasuredPlace['fact']['ties'][number] | undefined, units: UnitSystem): string {
  if (!tie) return ''
  if (!tie.slope) return 'level'
  return 'rise' in tie.slope
    ? `rising ${formatQuantity(tie.slope.rise.si, 'distance', units)} to the head`
    : `at ${tie.slope.typed}`
}

/** How much longer or shorter the tape is than the way to the place. */
function offWords(candidate: Candidate, mark: string, units: UnitSystem): string {
  const residual = candidate.residuals.find((one) => one.mark === mark)
  if (!residual) return ''
  const size = Math.abs(residual.overM)
  if (size < 0.005) return 'nothing'
  return `${sayReach(size, units)} too ${residual.lengthM > residual.foundM ? 'long' : 'short'}`
}
