/** What stays on a stop after its closing. */
import { addDays, type Day } from '@/lib/domain/quantity'
import { closeStop, type NextStep } from './closing'
import { AGAIN_KEY, type ChosenStep, type FollowUp, type PlannedDuty, type StopClosing } from './stop-shape'

/** Where the person asks to come again and no duty says how soon. Common practice, no published source. */
const AGAIN_DAYS = 30

/** The duties of a stop that are duties of its well: those that a visit can tick. */
export function wellDuties(planned: readonly PlannedDuty[]): PlannedDuty[] {
  return planned.filter((duty) => duty.ticked && duty.key !== AGAIN_KEY)
}

/**
 * The follow-ups of a closing: what stays due always, the other suggestions as far as the person kept them, and the
 * person's own words. `doneKeys` are the duties that the visit's lines name; `on` is the day of the closing; `hasTies`
 * null where nobody looked whether ties are on record.
 */
export function followUpsOf(
  closing: Pick<StopClosing, 'outcome' | 'said' | 'steps' | 'other'>,
  planned: readonly PlannedDuty[],
  doneKeys: ReadonlySet<string>,
  on: Day,
  hasTies: boolean | null,
): FollowUp[] {
  const kept = nextSteps(closing, planned, doneKeys, hasTies).flatMap((step) =>
    followUp(step, closing.steps, on),
  )
  const again: FollowUp[] =
    closing.steps.includes('visit-again') && !kept.some((step) => step.kind === 'visit-again')
      ? [{ kind: 'visit-again', words: `Come again within ${AGAIN_DAYS} days.`, by: addDays(on, AGAIN_DAYS) }]
      : []
  const own: FollowUp[] = closing.other === '' ? [] : [{ kind: 'other', words: closing.other, by: null }]
  return [...kept, ...again, ...own]
}

function nextSteps(
  { outcome, said }: Pick<StopClosing, 'outcome' | 'said'>,
  planned: readonly PlannedDuty[],
  doneKeys: ReadonlySet<string>,
  hasTies: boolean | null,
): NextStep[] {
  const duties = wellDuties(planned)
  const done = duties.filter((duty) => doneKeys.has(duty.key))
  switch (outcome) {
    case 'done':
      return closeStop({ outcome, done })
    case 'partly':
      return closeStop({
        outcome,
        done,
        left: duties.filter((duty) => !doneKeys.has(duty.key)).map((duty) => ({ ...duty, why: said })),
      })
    case 'not-found':
      return closeStop({ outcome, planned, tried: said, hasTies })
    case 'no-access':
      return closeStop({ outcome, planned, why: said })
  }
}

function followUp(step: NextStep, chosen: readonly ChosenStep[], on: Day): FollowUp[] {
  switch (step.kind) {
    case 'log-done':
    case 'log-note':
      return []
    case 'stays-due':
      return [{ kind: step.kind, words: step.words, by: null }]
    case 'visit-again':
      return chosen.includes(step.kind)
        ? [{ kind: step.kind, words: step.words, by: addDays(on, step.withinDays) }]
        : []
    default:
      return chosen.includes(step.kind) ? [{ kind: step.kind, words: step.words, by: null }] : []
  }
}
