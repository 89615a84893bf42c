import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import type { TakenBack } from '@/lib/domain/logbook/taken-back'
import type { UnitSystem } from '@/lib/domain/quantity'
import { SampleLink } from './sample-link'

type Props = { wellId: string; takenBack: readonly TakenBack[]; units: UnitSystem }

/** Positives that somebody withdrew or corrected away, with the name and the reason; nothing where there is none. */
export function TakenBackPositives({ wellId, takenBack, units }: Props) {
  if (takenBack.length === 0) return null
  return (
    <section className="stack-tight" aria-labelledby="taken-back">
      <h2 id="taken-back">Positives that were taken back</h2>
      <ul className="plain-list stack-tight">
        {takenBack.map(({ sampleId, sampledAt, names, how, by, reason, recordedAt }) => (
          <li key={sampleId}>
            <Status tone="unsure">{names.join(', ')}</Status>:{' '}
            <SampleLink wellId={wellId} sampleId={sampleId}>
              sheet of {showDay(sampledAt.slice(0, 10), units)}
            </SampleLink>
            , {how} on {showDay(recordedAt.slice(0, 10), units)}
            {by ? ` by ${by}` : ''}. Reason: {reason}
          </li>
        ))}
      </ul>
    </section>
  )
}
