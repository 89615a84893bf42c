'use client'

import { useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import { saveYard } from './actions'

type Props = { texts: Record<string, string>; duties: readonly { key: string; name: string }[] }

export function YardForm({ texts, duties }: Props) {
  const [state, action] = useActionState(saveYard, EMPTY_FORM)
  const field = (name: string) => ({ state, name, initial: texts[name] ?? '' })
  return (
    <form className="form form-wide" action={action} noValidate>
      <ErrorSummary state={state} />
      <DoneNote state={state} />
      <fieldset className="sheet">
        <legend>The yard</legend>
        <div className="fields">
          <Field {...field('yardLatitude')} label="Latitude" hint="North positive, such as 44.26012" />
          <Field {...field('yardLongitude')} label="Longitude" hint="East positive, such as -72.57543" />
        </div>
      </fieldset>
      <fieldset className="sheet">
        <legend>A usual day</legend>
        <div className="fields">
          <Field {...field('startAt')} label="Leave the yard" hint="Such as 8:00" />
          <Field {...field('endAt')} label="Be back by" hint="Such as 17:00" />
        </div>
      </fieldset>
      <fieldset className="sheet">
        <legend>Driving</legend>
        <p className="muted small">
          Driving is the straight line, times the road factor, at the mean speed: an estimate that knows no
          river and no ridge. 1.35 and 50 km/h are common practice for country roads, without a published
          source; measure your own.
        </p>
        <div className="fields">
          <Field
            {...field('roadFactor')}
            label="Road factor"
            hint="Road over straight line, from 1"
            inputMode="decimal"
          />
          <Field {...field('speedKmH')} label="Mean speed" unit="km/h" inputMode="decimal" />
        </div>
      </fieldset>
      <fieldset className="sheet">
        <legend>Work</legend>
        <p className="muted small">
          Common practice, no published source: 10 min to open and close a head, 20 min for a duty.
        </p>
        <div className="fields">
          <Field {...field('setUpMinutes')} label="Setting up at every stop" unit="min" inputMode="numeric" />
          <Field
            {...field('minutesUsual')}
            label="A duty, where not said below"
            unit="min"
            inputMode="numeric"
          />
          {duties.map(({ key, name }) => (
            <Field
              key={key}
              {...field(`minutes:${key}`)}
              label={`${name} (optional)`}
              unit="min"
              inputMode="numeric"
            />
          ))}
        </div>
      </fieldset>
      <SubmitButton>Save</SubmitButton>
    </form>
  )
}
