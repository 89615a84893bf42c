import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { summarizeWater } from '@/lib/domain/logbook/water-summary'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import type { NextStep, WaterStanding } from '@/lib/domain/water/appraise'
import { sayWater } from '@/lib/domain/water/standing-words'
import { paths } from '@/lib/paths'

type Props = { water: WaterStanding; wellId: string; today: Day; units: UnitSystem }

/** What can be said of the water, in plain words; what is missing; what to do next. */
export function StandingSaid({ water, wellId, today, units }: Props) {
  const { tone, word, says } = sayWater(summarizeWater(water), today, (day) => showDay(day, units))
  return (
    <section className="sheet" aria-labelledby="standing">
      <h2 id="standing">What can be said</h2>
      <p className="standing-said">
        <Status tone={tone}>{word}</Status>
      </p>
      <p>{says}</p>
      {water.notTested.length > 0 ? (
        <p>
          <strong>Missing:</strong> {water.notTested.join(', ')}.
        </p>
      ) : null}
      <NextSteps steps={water.next} wellId={wellId} />
      <p className="muted small">
        Judged by {water.schemeName}; edition: {water.edition}. A test speaks for what was tested, at that
        tap, on that day.
      </p>
    </section>
  )
}

/** Steps of chains first, then questions, repeats; the yearly tests have their own table below. */
function NextSteps({ steps, wellId }: { steps: readonly NextStep[]; wellId: string }) {
  const shown = steps.filter((step) => step.kind !== 'test')
  if (shown.length === 0) return null
  return (
    <div className="stack-tight">
      <h3>Next</h3>
      <ul>
        {shown.map((step) => (
          <li key={`${step.kind} ${step.text}`}>
            {step.text}{' '}
            {step.kind === 'chain' ? (
              <Link href={paths.chain(wellId, step.chain)} prefetch={false}>
                Go to this step
              </Link>
            ) : null}
          </li>
        ))}
      </ul>
    </div>
  )
}
