import { DropDraft } from '@/app/ui/drop-draft'
import { showDay } from '@/app/ui/show-day'
import { ATTACHMENT_BYTES_MAX, sayBytes } from '@/lib/domain/limits'
import { describeFact } from '@/lib/domain/logbook/describe'
import type { LogVisit } from '@/lib/domain/logbook/history'
import { partsEntered } from '@/lib/domain/logbook/part-words'
import type { RegisterPart } from '@/lib/domain/pump'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import type { WellPage } from '@/lib/records/wells'

type Props = {
  visits: readonly LogVisit[]
  parts: readonly RegisterPart[]
  savedVisit: string
  corrected: boolean
  withdrawn: boolean
  /** A photo of the visit could not be taken. */
  photoRefused: boolean
  draftKey: string
  standing: WellPage['standing']
  units: UnitSystem
}

/** Says what was just stored, and what became of the due dates of the work done. */
export function Saved(props: Props) {
  const { visits, parts, savedVisit, corrected, withdrawn, photoRefused, draftKey, standing, units } = props
  const visit = savedVisit === '' ? undefined : visits.find((one) => one.visitId === savedVisit)
  if (corrected || withdrawn) {
    return (
      <p className="done" role="status">
        {corrected ? 'The correction is stored.' : 'The line is withdrawn.'} The due dates and the register of
        parts are reckoned anew.
      </p>
    )
  }
  if (!visit) return null
  const done = new Set(visit.lines.flatMap(({ fact }) => (fact.kind === 'service-done' ? fact.duties : [])))
  const next = standing?.duties.filter((duty) => done.has(duty.key) && duty.due !== null) ?? []
  const entered = partsEntered(parts, new Set(visit.lines.map(({ id }) => id)), (day) => showDay(day, units))
  return (
    <div className="done" role="status">
      <DropDraft storageKey={draftKey} />
      <p>
        <strong>Saved: the visit of {showDay(visit.on, units)}.</strong>
      </p>
      <ul>
        {visit.lines.map((line) => (
          <li key={line.id}>{describeFact(line.fact, units)}</li>
        ))}
        {entered.map((said) => (
          <li key={said}>{said}</li>
        ))}
        {next.map((duty) => (
          <li key={duty.id}>
            {duty.name} is next due {showDay(duty.due ?? '', units)}.
          </li>
        ))}
      </ul>
      {photoRefused ? (
        <p>
          <strong>A photo was not stored:</strong> it is no JPEG, PNG or WebP of at most{' '}
          {sayBytes(ATTACHMENT_BYTES_MAX)}. The visit stands without it.
        </p>
      ) : null}
    </div>
  )
}
