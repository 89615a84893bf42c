import Link from 'next/link'
import { doubtSaid, partNamed, warrantySaid } from '@/lib/domain/logbook/part-words'
import type { RegisterPart } from '@/lib/domain/pump'
import { type Day, daysBetween } from '@/lib/domain/quantity/day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { paths } from '@/lib/paths'
import { showDay } from './show-day'
import { TableFrame } from './table-frame'

type Props = {
  label: string
  wellId: string
  /** The whole register, to say by what a part was followed. */
  parts: readonly RegisterPart[]
  shown: readonly RegisterPart[]
  /** The last day by part on which its kind was changed without being named. */
  unnamed: ReadonlyMap<string, Day>
  units: UnitSystem
  today: Day
  mayEdit: boolean
}

/** Parts of a well's register, one a line: what, since when, under which warranty, how long it served, and who wrote it. */
export function PartTable({ label, shown, ...more }: Props) {
  return (
    <TableFrame label={label}>
      <table className="table table-cards">
        <thead>
          <tr>
            <th scope="col">Part</th>
            <th scope="col">Model or size</th>
            <th scope="col">Fitted</th>
            <th scope="col">Warranty</th>
            <th scope="col">In place</th>
            <th scope="col">From</th>
          </tr>
        </thead>
        <tbody>
          {shown.map((part) => (
            <PartLine key={part.key} part={part} {...more} />
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}

type LineProps = Omit<Props, 'label' | 'shown'> & { part: RegisterPart }

function PartLine({ part, parts, wellId, unnamed, units, today, mayEdit }: LineProps) {
  const { kind, count, fittedOn, notes } = part
  return (
    <tr>
      <th scope="row">{count > 1 ? `${kind}, ${count}` : kind}</th>
      <td data-label="Model or size">
        <span className="pair">
          <span>{partNamed(part) || <span className="muted">not recorded</span>}</span>
          {notes ? <span className="hint">{notes}</span> : null}
        </span>
      </td>
      <td data-label="Fitted">{fittedOn ? showDay(fittedOn, units) : 'day not recorded'}</td>
      <td data-label="Warranty">{warrantySaid(part.warrantyUntil, today, (day) => showDay(day, units))}</td>
      <td data-label="In place">
        <InPlace part={part} parts={parts} unnamed={unnamed.get(part.key) ?? null} units={units} />
      </td>
      <td data-label="From">
        <From part={part} wellId={wellId} mayEdit={mayEdit} />
      </td>
    </tr>
  )
}

type InPlaceProps = Pick<LineProps, 'part' | 'parts' | 'units'> & { unnamed: Day | null }

function InPlace({ part, parts, unnamed, units }: InPlaceProps) {
  const { fittedOn, removedOn, endedBy } = part
  if (removedOn === null) {
    const doubt = doubtSaid(part, unnamed, (day) => showDay(day, units))
    return doubt ?? 'yes'
  }
  const then = byWhom(
    part,
    parts.find(({ key }) => key === endedBy),
  )
  const served = fittedOn === null ? '' : `, after ${servedFor(daysBetween(fittedOn, removedOn))}`
  return (
    <span className="pair">
      <span>
        until {showDay(removedOn, units)}
        {served}
      </span>
      {then ? <span className="hint">{then}</span> : null}
    </span>
  )
}

/** By what a part was followed, where that says more than its own line: another model, or one written by hand. */
function byWhom(part: RegisterPart, next: RegisterPart | undefined): string | null {
  if (!next) return null
  if (next.entryId === null) return 'then the newer one that was written by hand'
  return partNamed(next) === partNamed(part) ? null : `then ${partNamed(next) || 'one without a name'}`
}

/** Whole days up to two months, whole months up to two years, then years. */
function servedFor(days: number): string {
  if (days < 61) return days === 1 ? '1 day' : `${days} days`
  if (days < 731) return `${Math.round(days / 30.44)} months`
  return `${(days / 365.25).toFixed(1)} years`
}

function From({
  part: { kind, entryId, listedId },
  wellId,
  mayEdit,
}: Pick<LineProps, 'part' | 'wellId' | 'mayEdit'>) {
  const words = entryId === null ? 'by hand' : listedId === null ? 'a visit' : 'by hand and a visit'
  return (
    <>
      {words}{' '}
      {listedId !== null && mayEdit ? (
        <Link className="no-print" href={paths.part(wellId, listedId)} prefetch={false}>
          Change<span className="unseen"> {kind}</span>
        </Link>
      ) : null}
      {listedId === null && entryId !== null ? (
        <Link className="no-print" href={paths.correct(entryId)} prefetch={false}>
          Correct<span className="unseen"> the visit’s line of {kind}</span>
        </Link>
      ) : null}
    </>
  )
}
