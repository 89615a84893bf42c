import { showDay } from '@/app/ui/show-day'
import type { FollowUp } from '@/lib/domain/place'
import type { UnitSystem } from '@/lib/domain/quantity'

/** What is to follow on a stop; nothing where nothing is. */
export function StepList({
  steps,
  units,
  settled = false,
}: {
  steps: readonly FollowUp[]
  units: UnitSystem
  settled?: boolean
}) {
  if (steps.length === 0) return null
  return (
    <>
      <p>{settled ? 'To follow, settled since:' : 'To follow:'}</p>
      <ul>
        {steps.map((step) => (
          <li key={step.words}>
            {step.words}
            {step.by ? ` By ${showDay(step.by, units)}.` : ''}
          </li>
        ))}
      </ul>
    </>
  )
}
