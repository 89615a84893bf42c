'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, TextArea } from '@/app/ui/field'
import type { Asking } from '@/app/ui/with-questions'
import type { Day } from '@/lib/domain/quantity/day'

type Props = {
  action: (before: Asking, form: FormData) => Promise<Asking>
  visitId: string
  day: Day
  by: string
}

/** Two large buttons: found, or not. Each writes its line into the logbook. */
export function SearchForm({ action, visitId, day, by }: Props) {
  const [state, send] = useActionState(action, { typed: {}, errors: {}, questions: {} })
  return (
    <form className="form" noValidate id="search" action={send}>
      <ErrorSummary state={state} />
      <input type="hidden" name="visitId" value={state.typed.visitId ?? visitId} />
      <div className="fields">
        <Field state={state} name="date" label="Day" type="date" initial={day} />
        <Field state={state} name="by" label="Looked for by" initial={by} autoComplete="name" />
      </div>
      <TextArea
        state={state}
        name="note"
        label="Note (optional)"
        hint="What has changed, which tie was out, where you probed"
        rows={2}
      />
      <div className="row find-outcome">
        <button type="submit" name="outcome" value="found" className="button">
          Found
        </button>
        <button type="submit" name="outcome" value="not-found" className="button button-quiet">
          Not found
        </button>
      </div>
    </form>
  )
}
