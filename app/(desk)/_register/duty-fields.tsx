import { Choices, Field } from '@/app/ui/field'
import type { RegisterState } from '@/lib/forms/register-state'
import { registerField } from './register-field'

export type LimitUnits = Record<'volume' | 'brush' | 'pressure' | 'flow' | 'lift', string>
type Props = { state: RegisterState; initial: Record<string, string>; units: LimitUnits }

/** The fields of a duty: what, how grave, and its limits. */
export function DutyFields({ state, initial, units }: Props) {
  const field = registerField(state, initial)
  return (
    <>
      <Field {...field('name', 'Such as Change sediment cartridge')} label="What is to be done" />
      <Choices
        {...field('consequence', 'What suffers when it is left undone')}
        label="Consequence"
        options={[
          { value: 'health', label: 'Health: somebody could fall ill' },
          { value: 'supply', label: 'Supply: the water could stop' },
          { value: 'wear', label: 'Wear: something wears out early' },
        ]}
      />
      <fieldset className="sheet">
        <legend>Limits</legend>
        <p className="muted small">
          The earliest limit wins. Leave blank what does not count; a bare number is read in the unit shown.
        </p>
        <div className="fields">
          <Field
            {...field('everyMonths')}
            label="Every so many months (optional)"
            unit="months"
            short
            inputMode="numeric"
          />
          <Field {...field('everyRunS')} label="Run hours (optional)" unit="h" short />
          <Field {...field('everyM3')} label="Volume pumped (optional)" unit={units.volume} short />
          <Field {...field('brushLimit')} label="Shortest brush length (optional)" unit={units.brush} short />
          <Field
            {...field('dropLimit')}
            label="Greatest pressure drop (optional)"
            unit={units.pressure}
            short
          />
        </div>
        <p className="muted small">
          Of the measured conditions a duty holds one. Flow is what the pump gives at the head and voltage of
          its reference: a low sun or a low well does not count against it.
        </p>
        <div className="fields">
          <Field
            {...field('flowShareLimit')}
            label="Least share of the flow when new (optional)"
            unit="%"
            short
          />
          <Field {...field('flowLimit')} label="Least flow (optional)" unit={units.flow} short />
          <Field {...field('liftLimit')} label="Least suction lift left (optional)" unit={units.lift} short />
        </div>
      </fieldset>
      <Field
        {...field('lastDoneOn', 'From before the logbook, such as 2026-03-27 or 27 Mar 2026')}
        label="Last done (optional)"
        short
      />
    </>
  )
}
