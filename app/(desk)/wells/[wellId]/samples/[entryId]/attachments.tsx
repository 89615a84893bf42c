import { showDay } from '@/app/ui/show-day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import type { FormState } from '@/lib/forms/form'
import { paths } from '@/lib/paths'
import type { AttachmentRow } from '@/lib/records/attachments'
import { AttachForm } from './attach-form'

type Props = {
  attachments: readonly AttachmentRow[]
  action: (before: FormState, form: FormData) => Promise<FormState>
  units: UnitSystem
}

/** The paper itself: photos in sight, PDFs as downloads, and a place to add one. */
export function Attachments({ attachments, action, units }: Props) {
  return (
    <section className="sheet stack no-print" aria-labelledby="paper">
      <h2 id="paper">The original sheet</h2>
      {attachments.length === 0 ? <p className="muted">No photo or PDF of it is attached.</p> : null}
      <ul className="plain-list stack">
        {attachments.map((row) => (
          <li key={row.id} className="stack-tight">
            <a href={paths.attachment(row.id)} download={row.type === 'image/jpeg' ? undefined : row.name}>
              {row.type === 'image/jpeg' ? (
                // biome-ignore lint/performance/noImgElement: a private file behind sign-in; nothing may cache or resize it
                <img
                  className="paper"
                  src={paths.attachment(row.id)}
                  alt={`The sheet: ${row.name}`}
                  loading="lazy"
                />
              ) : (
                `Download ${row.name}`
              )}
            </a>
            <span className="muted">
              {row.name}, {sayBytes(row.bytes)}, attached by {row.byName} on{' '}
              {showDay(row.at.slice(0, 10), units)}
            </span>
          </li>
        ))}
      </ul>
      <AttachForm action={action} />
    </section>
  )
}

const sayBytes = (bytes: number) =>
  bytes < 1_000_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`
