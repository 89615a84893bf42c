import type { FormState } from '@/lib/forms/form'

/** Says that a form was accepted, to eyes and to screen readers, without moving the focus. */
export function DoneNote({ state }: { state: FormState }) {
  return (
    <div role="status" className={state.done ? 'done' : undefined}>
      {state.done ?? ''}
    </div>
  )
}
