'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'

const LEVELS = [
  ['full', 'Full', 'M4 3h16v18H4z'],
  ['three-quarters', 'Three quarters', 'M4 7.5h16V21H4z'],
  ['half', 'Half', 'M4 12h16v9H4z'],
  ['quarter', 'A quarter', 'M4 16.5h16V21H4z'],
  ['empty', 'Empty, or nearly', 'M4 20h16v1H4z'],
] as const

/** One large button a level, each with its picture. */
export function TankForm({
  action,
  visitId,
}: {
  action: (before: FormState, form: FormData) => Promise<FormState>
  visitId: string
}) {
  const [state, send] = useActionState(action, EMPTY_FORM)
  return (
    <form action={send}>
      <ErrorSummary state={state} />
      <input type="hidden" name="visitId" value={state.typed.visitId ?? visitId} />
      <ul className="plain-list stack tank-levels">
        {LEVELS.map(([value, word, water]) => (
          <li key={value}>
            <button className="button button-quiet tank-level" type="submit" name="tank" value={value}>
              <svg viewBox="0 0 24 24" aria-hidden="true" focusable="false">
                <path className="tank-water" d={water} />
                <path className="tank-wall" d="M4 3h16v18H4z" />
              </svg>
              {word}
            </button>
          </li>
        ))}
      </ul>
    </form>
  )
}
