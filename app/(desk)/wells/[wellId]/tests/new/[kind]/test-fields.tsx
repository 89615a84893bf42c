'use client'

import { type FormEvent, useMemo, useRef } from 'react'
import { v7 } from 'uuid'
import { AskedAgain } from '@/app/ui/asked-again'
import { ErrorSummary } from '@/app/ui/error-summary'
import { SubmitButton } from '@/app/ui/submit-button'
import type { Sending } from '@/app/ui/use-sending'
import { withQuestions } from '@/app/ui/with-questions'
import type { TestedWell } from '@/lib/domain/logbook/test-result'
import type { Day } from '@/lib/domain/quantity/day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { draftFrom, emptyDraft, type TestKind } from '@/lib/forms/test/draft'
import type { Units } from '../../../visit/units'
import { AfterFields, BeforeFields } from './fields'
import { KeptWords } from './kept-words'
import { Live } from './live'
import { PlainRows } from './plain-rows'
import { ReadingRows } from './reading-rows'
import { Stopwatch } from './stopwatch'
import { isReading, useTestDraft, withTyped } from './use-test-draft'

export type TestFieldsProps = {
  kind: TestKind
  draftKey: string
  visitId: string
  day: Day
  by: string
  symbols: Units
  units: UnitSystem
  well: TestedWell
  restHint: string
  /** A test that waits on this phone and is opened again, with its clock. */
  mend?: { id: string; typed: Readonly<Record<string, string>>; marks?: string | undefined }
}

/**
 * A well test as it is run: before the pump, the clock and its readings, what they say so far, and sending. Without
 * script a plain table stands in for the clock; with it everything is kept on the device from the first keystroke.
 */
export function TestFields(props: TestFieldsProps & { sending: Sending }) {
  const { kind, draftKey, visitId, day, by, symbols, units, well, restHint, mend } = props
  const element = useRef<HTMLFormElement>(null)
  const { state, pending, form } = props.sending
  // The summary takes the focus for each new answer, and must not for each tap of the clock.
  const problems = useMemo(() => withQuestions(state), [state])
  const begin = () =>
    mend
      ? (draftFrom(mend.marks ?? null) ?? withTyped(kind, emptyDraft(mend.id), kept(mend.typed)))
      : emptyDraft(v7())
  // What waits already is where the test begins, and is not put on top of it once more.
  const early = () => ({ ...(mend ? {} : kept(state.typed)), ...typedIn(element.current) })
  const { test, act, discard } = useTestDraft(draftKey, kind, begin, early)
  const shown = test ? { ...state, typed: test.draft.fields } : state
  const keep = (event: FormEvent<HTMLFormElement>) => {
    const field = event.target
    if (!isField(field) || isReading(kind, field.name) || !isOurs(field.name)) return
    act({ type: 'field', name: field.name, text: field.value })
  }
  const parts = { kind, state: shown, units: symbols }
  return (
    <form className="form well-test" noValidate ref={element} onInput={keep} {...form}>
      <ErrorSummary state={problems} />
      {test?.restored ? (
        <p className="done" role="status">
          This test was begun earlier on this device and was put back.
        </p>
      ) : null}
      <input
        type="hidden"
        name="visitId"
        key={test?.draft.visitId}
        defaultValue={test?.draft.visitId ?? state.typed.visitId ?? visitId}
      />
      <BeforeFields key={`before-${test?.edition}`} {...parts} restHint={restHint} />
      {test && kind !== 'step' ? (
        <Stopwatch kind={kind} draft={test.draft} kept={test.kept} act={act} />
      ) : null}
      <fieldset className="field stack-tight" id="readings" tabIndex={-1}>
        <legend>{kind === 'step' ? 'Steps' : 'Readings'}</legend>
        <p className="hint">{HINTS[kind]}</p>
        <AskedAgain state={state} field="readings" />
        {test && kind !== 'step' ? (
          <ReadingRows draft={test.draft} state={state} unit={symbols.depth} act={act} />
        ) : (
          <PlainRows key={`rows-${test?.edition}`} {...parts} />
        )}
      </fieldset>
      {test && kind !== 'step' ? <Live kind={kind} draft={test.draft} well={well} units={units} /> : null}
      <AfterFields key={`after-${test?.edition}`} state={shown} day={day} by={by} />
      <div className="visit-save stack-tight">
        <SubmitButton sending={test ? pending : undefined} busy="Sending…">
          Save the test
        </SubmitButton>
        {test && kind === 'step' ? (
          <KeptWords kept={test.kept} begun={Object.keys(test.draft.fields).length > 0} />
        ) : null}
        {test && test.kept !== 'no' && !mend ? <ThrowAway discard={discard} /> : null}
      </div>
    </form>
  )
}

const HINTS = {
  recovery: 'Time since the pump stopped, and the level as the water rises.',
  drawdown: 'Time since the pump started, and the level as the water falls.',
  step: 'Each rate on a line of its own, in the order pumped: its flow, how long it ran, and the level at its end.',
}

function ThrowAway({ discard }: { discard: () => void }) {
  return (
    <details>
      <summary>Throw this test away</summary>
      <p className="row">
        Every reading on this device is lost.
        <button type="button" className="button button-quiet" onClick={discard}>
          Yes, throw it away
        </button>
      </p>
    </details>
  )
}

type FormField = HTMLInputElement | HTMLTextAreaElement
const isField = (target: EventTarget | null): target is FormField =>
  target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement

/** Answers belong to one question, the number of the visit to nobody's typing. */
const isOurs = (name: string) =>
  name !== '' && name !== 'visitId' && !name.startsWith('answer:') && !name.startsWith('$')

const kept = (typed: Readonly<Record<string, string>>) =>
  Object.fromEntries(Object.entries(typed).filter(([name]) => isOurs(name)))

/** What somebody typed before the page came alive: fields that differ from what the page came with. */
function typedIn(form: HTMLFormElement | null): Record<string, string> {
  const fields = [...(form?.elements ?? [])].filter(isField)
  return Object.fromEntries(
    fields.flatMap((field) =>
      isOurs(field.name) && field.value !== field.defaultValue ? [[field.name, field.value]] : [],
    ),
  )
}
