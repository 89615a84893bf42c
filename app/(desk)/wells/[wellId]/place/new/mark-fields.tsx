'use client'

import { Field } from '@/app/ui/field'
import { Section } from '@/app/ui/section'
import type { FormState } from '@/lib/forms/form'
import { type MarkField, markField, markPhoto } from '@/lib/forms/place/rows'
import { PhotoInput } from './photo-input'

type Props = { row: number; state: FormState; distance: string }

/** One mark: its name and the tape first, then what helps to know it again and how the tape lay. */
export function MarkFields({ row, state, distance }: Props) {
  const name = (field: MarkField) => markField(row, field)
  return (
    <fieldset className="field place-row">
      <legend>Mark {row}</legend>
      <div className="fields">
        <Field state={state} name={name('Name')} label="Name" hint="Barn corner, north-east" />
        <Field
          state={state}
          name={name('Tape')}
          label="Tape to the head"
          unit={distance}
          hint="12' 4&quot; or 3.76 m"
          short
        />
      </div>
      <PhotoInput name={markPhoto(row)} label={`Photo of mark ${row} (optional)`} />
      <Section title={`More about mark ${row}`} state={state} fields={[name('About'), name('Slope')]}>
        <Field
          state={state}
          name={name('About')}
          label="How to know it (optional)"
          hint="Bolt at knee height"
        />
        <Field
          state={state}
          name={name('Slope')}
          label="Slope of the tape (optional)"
          hint={`Rise in ${distance}, or an angle: 8°`}
          short
        />
      </Section>
    </fieldset>
  )
}
