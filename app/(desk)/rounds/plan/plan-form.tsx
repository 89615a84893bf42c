'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM, type FormState } from '@/lib/forms/form'
import { makeRounds } from './actions'
import type { ByHand, PlanDay, PlanStop } from './plan-view'

type Props = {
  planId: string
  days: readonly PlanDay[]
  byHand: readonly ByHand[]
  hidden: { start: string; end: string; person: string }
}

/** The proposal, to be accepted, thinned out or added to. Each day becomes one round. */
export function PlanForm({ planId, days, byHand, hidden }: Props) {
  const [state, action] = useActionState<FormState, FormData>(makeRounds, EMPTY_FORM)
  const first = days[0]?.day ?? ''
  return (
    <form className="form form-wide" action={action} noValidate>
      <ErrorSummary state={state} />
      <input type="hidden" name="planId" value={state.typed.planId ?? planId} />
      {Object.entries(hidden).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {days.map((day) => (
        <DaySection key={day.day} day={day} state={state} />
      ))}
      {byHand.length > 0 ? (
        <fieldset className="sheet">
          <legend>Without a coordinate</legend>
          <p className="muted">
            The way to these is not known, so they are in no timetable. Tick one to put it on the first round.
          </p>
          {byHand.map(({ wellId, label, keys, duties }) => (
            <Tick key={wellId} state={state} name={`stop:${first}:${wellId}`} value={keys} on={false}>
              <strong>{label}</strong>: {duties}
            </Tick>
          ))}
        </fieldset>
      ) : null}
      <SubmitButton busy="Planning…">
        {days.length > 1 ? 'Make these rounds' : 'Make this round'}
      </SubmitButton>
    </form>
  )
}

function DaySection({ day, state }: { day: PlanDay; state: FormState }) {
  return (
    <fieldset className="sheet">
      <legend>{day.title}</legend>
      <p>{day.summary}</p>
      {day.stops.map((stop) => (
        <StopTick key={stop.wellId} stop={stop} day={day.day} state={state} />
      ))}
      <div className="fields">
        <Field
          state={state}
          name={`add:${day.day}`}
          label="Add wells (optional)"
          hint="Labels or names, with commas between"
          autoComplete="off"
        />
        <Field
          state={state}
          name={`name:${day.day}`}
          label="Name of the round (optional)"
          maxLength={80}
          autoComplete="off"
        />
      </div>
    </fieldset>
  )
}

function StopTick({ stop, day, state }: { stop: PlanStop; day: string; state: FormState }) {
  return (
    <Tick state={state} name={`stop:${day}:${stop.wellId}`} value={stop.keys} on>
      <strong>
        {stop.label}
        {stop.name ? `, ${stop.name}` : ''}
      </strong>{' '}
      <span className="muted">{stop.times}</span>
      <span className="why-list">
        {stop.duties.map(({ words, whileThere }) => (
          <span key={words}>
            {words}
            {whileThere ? ' – taken along' : ''}
          </span>
        ))}
        <span className="muted">{[stop.driving, ...stop.notes].filter(Boolean).join(' · ')}</span>
      </span>
    </Tick>
  )
}

/** A box that keeps its tick when the form comes back. A value may be empty, so its name says whether it was sent. */
function Tick({
  state,
  name,
  value,
  on,
  children,
}: {
  state: FormState
  name: string
  value: string
  on: boolean
  children: React.ReactNode
}) {
  const fresh = state.typed.planId === undefined
  return (
    <label className="choice choice-wide">
      <input
        type="checkbox"
        name={name}
        value={value}
        defaultChecked={fresh ? on : state.typed[name] !== undefined}
      />
      <span>{children}</span>
    </label>
  )
}
