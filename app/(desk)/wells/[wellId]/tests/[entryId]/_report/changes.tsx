import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { describeFact } from '@/lib/domain/logbook/describe'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { paths } from '@/lib/paths'
import type { TestLine } from '@/lib/records/well-tests'

type Props = { test: TestLine; units: UnitSystem }

/** Says above everything else that a test was withdrawn or corrected. */
export function Stands({ test, units }: Props) {
  const last = test.history.findLast((step) => step.kind !== 'written' && step.stands)
  if (test.stands && last?.kind !== 'corrected') return null
  return (
    <p className="text">
      {test.stands ? (
        <Status tone="note">Corrected</Status>
      ) : (
        <Status tone="alarm">Withdrawn: counts for nothing</Status>
      )}
      {last && 'reason' in last
        ? ` on ${showDay(last.recordedAt.slice(0, 10), units)}${last.by ? ` by ${last.by}` : ''}. Reason: ${last.reason}`
        : null}
    </p>
  )
}

/** Every step in the life of the line, and the ways to change it. */
export function Changes({ test, units }: Props) {
  return (
    <section
      aria-labelledby="changes"
      className={test.history.length > 1 ? 'stack-tight' : 'stack-tight no-print'}
    >
      <h2 id="changes">In the logbook</h2>
      <ol className="plain-list">
        {test.history.map((step) => (
          <li key={step.id}>
            {showDay(step.recordedAt.slice(0, 10), units)}
            {step.by ? `, ${step.by}` : ''}: {step.kind}
            {'reason' in step ? `, because: ${step.reason}` : ''}
            {step.stands ? '' : ' (taken back since)'}
            {'fact' in step ? <span className="muted"> – {describeFact(step.fact, units)}</span> : null}
          </li>
        ))}
      </ol>
      {test.stands ? (
        <p className="row no-print">
          <Link href={paths.correct(test.id)} prefetch={false}>
            Correct this test
          </Link>
          <Link href={paths.withdraw(test.id)} prefetch={false}>
            Withdraw it
          </Link>
        </p>
      ) : null}
    </section>
  )
}
