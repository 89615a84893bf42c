import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, TextArea } from '@/app/ui/field'
import type { Sending } from '@/app/ui/use-sending'
import type { Day } from '@/lib/domain/quantity/day'

export type SearchProps = { visitId: string; day: Day; by: string }

/** Two large buttons: found, or not. Each writes its line into the logbook. */
export function SearchFields({ visitId, day, by, sending }: SearchProps & { sending: Sending }) {
  const { state, pending, form } = sending
  return (
    <form className="form" noValidate id="search" {...form}>
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
        <button type="submit" name="event" value="found" className="button" aria-disabled={pending}>
          Found
        </button>
        <button
          type="submit"
          name="event"
          value="not-found"
          className="button button-quiet"
          aria-disabled={pending}
        >
          Not found
        </button>
      </div>
    </form>
  )
}
