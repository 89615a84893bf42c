'use client'

import { type ReactNode, useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, TextArea } from '@/app/ui/field'
import { Section } from '@/app/ui/section'
import { withQuestions } from '@/app/ui/with-questions'
import { SheetAbout } from './sheet-about'
import { SheetRows } from './sheet-rows'
import type { SheetState } from './store-sheet'

const FRESH: SheetState = { typed: {}, errors: {}, questions: {}, views: {} }

const DECIMALS = [
  { value: '', label: 'No number on it has a comma' },
  { value: 'point', label: '1,200.5: the comma marks thousands' },
  { value: 'comma', label: '1.200,5: the comma marks decimals' },
]

export type SheetFormProps = {
  action: (before: SheetState, form: FormData) => Promise<SheetState>
  draftKey: string
  visitId: string
  by: string
  temperatureUnit: string
  unitListOf: Readonly<Record<string, string>>
  /** Whether a household fills it in, mostly from paper: what they seldom need is folded away. */
  household?: boolean
}

/** The sheet form: paste, rows, and what the sheet says about the sample. It works without script. */
export function SheetForm(props: SheetFormProps) {
  const { action, draftKey, visitId, by, temperatureUnit, unitListOf, household = false } = props
  const [state, send, pending] = useActionState(action, FRESH)
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
    <form className="form form-wide" action={send} noValidate id="sheet">
      <ErrorSummary state={withQuestions(state)} />
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
