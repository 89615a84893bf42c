'use client'

import { type ReactNode, useMemo } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, TextArea } from '@/app/ui/field'
import { Section } from '@/app/ui/section'
import type { Sending } from '@/app/ui/use-sending'
import { withQuestions } from '@/app/ui/with-questions'
import { SheetAbout } from './sheet-about'
import { SheetRows } from './sheet-rows'
import type { SheetState } from './sheet-state'

const DECIMALS = [
  { value: '', label: 'No number on it has a comma' },
  { value: 'point', label: '1,200.5: the comma marks thousands' },
  { value: 'comma', label: '1.200,5: the comma marks decimals' },
]

export type SheetFieldsProps = {
  draftKey: string
  visitId: string
  by: string
  temperatureUnit: string
  unitListOf: Readonly<Record<string, string>>
  /** Whether a household fills it in, mostly from paper: what they seldom need is folded away. */
  household?: boolean
  /** Where a photo of the sheet is taken with it. */
  photo?: ReactNode
}

/** The sheet form: paste, rows, and what the sheet says about the sample. It works without script. */
export function SheetFields(props: SheetFieldsProps & { sending: Sending }) {
  const { draftKey, visitId, by, temperatureUnit, unitListOf, household = false, photo } = props
  const { pending, form } = props.sending
  // How the rows read comes with the answers of this form.
  const state: SheetState = props.sending.state
  // The summary takes the focus for each new answer only.
  const problems = useMemo(() => withQuestions(state), [state])
  const hold = (event: { preventDefault(): void }) => {
    if (pending) event.preventDefault()
  }
  const press = (intent: string, words: string, quiet = true) => (
    <button
      type="submit"
      name="intent"
      value={intent}
      className={quiet ? 'button button-quiet' : 'button'}
      aria-disabled={pending}
      onClick={hold}
    >
      {words}
    </button>
  )
  return (
    <form className="form form-wide" noValidate id="sheet" {...form}>
      <ErrorSummary state={problems} />
      <DoneNote state={state} />
      <input type="hidden" name="visitId" value={state.typed.visitId ?? visitId} />
      <input type="hidden" name="by" value={by} />
      {household ? (
        <Section title="You have the results as a table? Paste it" state={state} fields={['pasted']}>
          <Pasted state={state} read={press('read', 'Read the table into rows')} />
        </Section>
      ) : (
        <section className="sheet stack" aria-labelledby="paste">
          <h2 id="paste">Paste the table</h2>
          <Pasted state={state} read={press('read', 'Read the table into rows')} />
        </section>
      )}
      <SheetAbout state={state} temperatureUnit={temperatureUnit} folded={household} />
      <Choices
        state={state}
        name="sampleDecimals"
        label="How does this sheet write numbers?"
        initial=""
        options={DECIMALS}
      />
      <SheetRows
        state={state}
        unitListOf={unitListOf}
        draftKey={draftKey}
        more={press('more', 'More rows')}
      />
      <TextArea
        state={state}
        name="note"
        label="Remarks on the sheet (optional)"
        hint="What the laboratory adds in words; kept as a note beside the sample"
        rows={3}
      />
      {photo}
      <div className="row">
        {press('save', pending ? 'One moment…' : 'Store the sheet', false)}
        {press('check', 'Only show how the rows read')}
      </div>
    </form>
  )
}

function Pasted({ state, read }: { state: SheetState; read: ReactNode }) {
  return (
    <>
      <TextArea
        state={state}
        name="pasted"
        label="Rows of the sheet (optional)"
        hint="From a spreadsheet, a file or an e-mail, with its headings if it has them. Or type row by row below."
        rows={4}
      />
      <div className="row">{read}</div>
    </>
  )
}
