import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import type { Chain, Step, StepName } from '@/lib/domain/water/chain'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import type { FormStep } from '../../_steps/step-fields'
import { StepForm } from '../../_steps/step-form'
import { saveWater } from '../../actions'

export type FormContext = { wellId: string; chain: Chain; day: Day; by: string; volumeUnit: string }

const STEP_NAMES: Record<StepName, string> = {
  notice: 'Tell the household',
  disinfect: 'Disinfect',
  remedy: 'Deal with the cause',
  flush: 'Flush',
  wait: 'Wait',
  resample: 'Sample again',
}

const FORM_OF: Record<StepName, FormStep | null> = {
  notice: 'notice',
  disinfect: 'disinfected',
  remedy: 'remedied',
  flush: 'flushed',
  wait: null,
  resample: null,
}

const TONES: Record<Step['state'], Tone> = { done: 'calm', next: 'watch', later: 'unsure' }

/** The steps in order; the next one stands open with its form. */
export function Steps({ units, ...context }: FormContext & { units: UnitSystem }) {
  const { chain, wellId, day } = context
  return (
    <section className="stack-tight" aria-labelledby="steps">
      <h2 id="steps">Steps</h2>
      <ol className="steps">
        {chain.steps.map((step) => (
          <li key={step.step} className={`step-${step.state}`}>
            <h3>{STEP_NAMES[step.step]}</h3>
            <p>
              <Status tone={TONES[step.state]}>{stateWords(step, units)}</Status>
            </p>
            {step.step === 'wait' && step.state === 'done' ? null : <p>{step.text}</p>}
            {step.earliest !== null && step.state !== 'done' ? (
              <p>
                {step.earliest > day ? 'Not before ' : 'Counts since '}
                <strong>{showDay(step.earliest, units)}</strong>.
              </p>
            ) : null}
            <Ways step={step.step} wellId={wellId} chain={chain} />
            {chain.closed === null ? <FormOf step={step} {...context} /> : null}
          </li>
        ))}
      </ol>
    </section>
  )
}

function stateWords({ state, on }: Step, units: UnitSystem): string {
  if (state === 'done') return on === null ? 'Done' : `Done on ${showDay(on, units)}`
  return state === 'next' ? 'Next' : 'Later'
}

/** Where the paper, the dose and the lab sheet of a step are. */
function Ways({ step, wellId, chain }: { step: StepName; wellId: string; chain: Chain }) {
  const ways: Partial<Record<StepName, { href: string; word: string }[]>> = {
    notice: [{ href: paths.notice(wellId, chain.key), word: 'Notice to print' }],
    disinfect: [{ href: paths.dose(wellId), word: 'Reckon the dose' }],
    resample: [
      { href: paths.sampling(wellId, { chain: chain.key }), word: 'Sampling sheet' },
      { href: paths.newSample(wellId), word: 'Enter the lab sheet' },
    ],
  }
  const own = chain.closed === null ? ways[step] : undefined
  if (!own) return null
  return (
    <p className="row no-print">
      {own.map(({ href, word }) => (
        <Link key={href} href={href} prefetch={false}>
          {word}
        </Link>
      ))}
    </p>
  )
}

function FormOf({ step, wellId, chain, day, by, volumeUnit }: FormContext & { step: Step }) {
  const name = FORM_OF[step.step]
  if (name === null) return null
  const form = (
    <StepForm
      action={saveWater.bind(null, wellId, chain.key)}
      step={name}
      chain={chain.key}
      visitId={newId()}
      initial={{ noticeKind: chain.notice }}
      {...{ day, by, volumeUnit }}
    />
  )
  if (step.state === 'next') return form
  return (
    <details className="no-print">
      <summary>
        {step.state === 'done' ? 'Write it down once more' : 'Write it down already'}
        <span className="unseen">: {STEP_NAMES[step.step]}</span>
      </summary>
      {form}
    </details>
  )
}
