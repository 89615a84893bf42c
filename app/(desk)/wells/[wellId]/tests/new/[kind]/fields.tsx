import { AskedAgain } from '@/app/ui/asked-again'
import { Field, TextArea } from '@/app/ui/field'
import type { Asking } from '@/app/ui/with-questions'
import type { Day } from '@/lib/domain/quantity/day'
import type { TestKind } from '@/lib/forms/test/draft'
import type { Units } from '../../../visit/units'

type Props = { kind: TestKind; state: Asking; units: Units }

const input = (unit: string) => ({
  unit,
  autoComplete: 'off' as const,
  inputMode: unit === 'ft' ? ('text' as const) : ('decimal' as const),
})

/** What is read before the clock starts: the level at rest first, then what the pump gives. */
export function BeforeFields({ kind, state, units, restHint }: Props & { restHint: string }) {
  return (
    <>
      <div>
        <Field
          state={state}
          name="static"
          label="Level at rest, before the pump ran"
          hint={`${restHint} A number alone is in ${units.depth}; another unit can be written behind it.`}
          {...input(units.depth)}
        />
        <AskedAgain state={state} field="static" />
      </div>
      {kind === 'step' ? null : (
        <div className="fields">
          <Field
            state={state}
            name="flow"
            label={kind === 'recovery' ? 'Flow while pumping down (optional)' : 'Flow while pumping'}
            {...input(units.flow)}
          />
          {kind === 'recovery' ? (
            <Field
              state={state}
              name="pumpedMinutes"
              label="Pumped for (optional)"
              {...input(units.minutes)}
            />
          ) : null}
        </div>
      )}
    </>
  )
}

/** Whose test it is and when, and what else is to be said. */
export function AfterFields({ state, day, by }: { state: Asking; day: Day; by: string }) {
  return (
    <>
      <div className="fields">
        <Field state={state} name="date" label="Day" type="date" initial={day} />
        <Field state={state} name="time" label="Time (optional)" type="time" />
        <Field state={state} name="by" label="Done by" initial={by} autoComplete="name" />
      </div>
      <TextArea state={state} name="note" label="Note (optional)" rows={3} />
    </>
  )
}
