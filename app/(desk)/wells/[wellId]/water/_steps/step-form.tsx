'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { type Asking, withQuestions } from '@/app/ui/with-questions'
import type { Day } from '@/lib/domain/quantity/day'
import { type FormStep, StepFields } from './step-fields'

const FRESH: Asking = { typed: {}, errors: {}, questions: {} }

export type StepFormProps = {
  action: (before: Asking, form: FormData) => Promise<Asking>
  step: FormStep
  /** The chain it is about; blank for steps that are about the well. */
  chain: string
  visitId: string
  day: Day
  by: string
  /** What the fields offer before anything was typed. */
  initial?: Readonly<Record<string, string>>
  volumeUnit: string
}

/** Writes one step of a chain into the logbook. */
export function StepForm({ action, step, chain, visitId, day, by, initial = {}, volumeUnit }: StepFormProps) {
  const [state, send] = useActionState(action, FRESH)
  const prefix = `${step}-`
  return (
    <form className="form" action={send} noValidate>
      <ErrorSummary state={withQuestions(state)} prefix={prefix} />
      <input type="hidden" name="visitId" value={state.typed.visitId ?? visitId} />
      <input type="hidden" name={`water:${step}`} value="1" />
      <input type="hidden" name="waterChain" value={chain} />
      <div className="fields">
        <Field state={state} prefix={prefix} name="date" label="Day" type="date" initial={day} />
        <Field state={state} prefix={prefix} name="by" label="Done by" initial={by} autoComplete="name" />
      </div>
      <StepFields {...{ state, step, prefix, initial, volumeUnit }} />
      <div>
        <SubmitButton>{SAVE_WORDS[step]}</SubmitButton>
      </div>
    </form>
  )
}

const SAVE_WORDS: Record<FormStep, string> = {
  notice: 'Write down the notice',
  disinfected: 'Write down the disinfection',
  flushed: 'Write down the flushing',
  remedied: 'Write down what was done',
  'well-repaired': 'Write down the repair',
  'chain-closed': 'Close without clear samples',
}
