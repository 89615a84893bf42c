'use client'

import { useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import type { ReminderChoices } from '@/lib/domain/upkeep/reminder-settings'
import { EMPTY_FORM } from '@/lib/forms/form'
import { saveReminders } from './actions'

/** When reminders go out, and whether the outfit gets one of its own. */
export function ReminderForm({ choices }: { choices: ReminderChoices }) {
  const [state, action] = useActionState(saveReminders, EMPTY_FORM)
  const sent = Object.keys(state.typed).length > 0
  const digest = sent ? state.typed.officeDigest !== '' : choices.officeDigest
  const field = (name: string, initial: string) => ({ state, prefix: 'remind-', name, initial })
  return (
    <form className="form" action={action} noValidate>
      <ErrorSummary state={state} prefix="remind-" />
      <DoneNote state={state} />
      <Field
        {...field('leadDays', choices.leadDays.join(', '))}
        label="Days before something is due"
        hint="Up to six numbers, parted by commas; 0 is the day itself"
        short
      />
      <Field
        {...field('hour', String(choices.hour))}
        label="Hour of the day"
        hint="0 to 23, where the outfit works"
        inputMode="numeric"
        short
      />
      <label className="choice" key={String(digest)}>
        <input type="checkbox" name="officeDigest" value="1" defaultChecked={digest} />
        <span>Installers get a digest of all wells too</span>
      </label>
      <SubmitButton>Save</SubmitButton>
    </form>
  )
}
