'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, Field, type Option, SelectField } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import type { RegisterState } from '@/lib/forms/register-state'
import type { SupplyUnits } from '@/lib/forms/supply-form'
import { registerField } from '../../../../_register/register-field'
import { UseFields } from './use-fields'

type Props = {
  action: (state: RegisterState, form: FormData) => Promise<RegisterState>
  initial: Record<string, string>
  units: SupplyUnits
  /** The register's demand as shown; null where it has none. */
  demand: string | null
  version: string
}

const DRIVES: readonly Option[] = [
  { value: 'sun', label: 'Sun: panels without a battery' },
  { value: 'mains', label: 'Mains, or a battery that never runs out' },
]
const PLACES: readonly Option[] = [
  { value: '', label: 'not known' },
  { value: 'ground', label: 'on the ground: it sucks' },
  { value: 'water', label: 'in the water' },
]
const TABLES: readonly Option[] = [
  { value: '', label: 'no table' },
  { value: 'energy', label: 'energy on the level, kWh/m² a day (sun hours)' },
  { value: 'sunshine', label: 'hours of bright sun a day' },
  { value: 'clearness', label: 'clearness, 0.1 to 0.8' },
]

/** What drives the pump, its panels, the sun, and what water is asked for. */
export function SupplyForm({ action, initial, units, demand, version }: Props) {
  const [state, send] = useActionState<RegisterState, FormData>(action, EMPTY_FORM)
  const field = registerField(state, initial)
  return (
    <form className="form form-wide" action={send} noValidate>
      <ErrorSummary state={state} />
      <input type="hidden" name="version" value={state.typed.version ?? version} />
      <Choices {...field('drive')} label="What drives the pump" options={DRIVES} />
      <div className="fields">
        <Field
          {...field('flow', 'At full sun, or whenever it runs on mains. Blank takes what was read on visits')}
          label="Flow of the pump (optional)"
          unit={units.flow}
          inputMode="decimal"
          short
        />
        <SelectField {...field('pumpPlace')} label="Where the pump stands" options={PLACES} />
      </div>
      <fieldset className="sheet">
        <legend>Panels and sun, where the sun drives it</legend>
        <div className="fields">
          <Field
            {...field('panel')}
            label="Panels, rated (optional)"
            unit={units.power}
            inputMode="decimal"
            short
          />
          <Field
            {...field('tilt', 'From level. Blank: tilted to the latitude')}
            label="Tilt (optional)"
            unit="°"
            inputMode="decimal"
            short
          />
          <Field
            {...field('azimuth', 'From south, west positive, east negative. Blank: facing the noon sun')}
            label="Turned from south (optional)"
            unit="°"
            short
          />
        </div>
        <SelectField
          {...field('sunKind', 'Without one, half of the possible sunshine is assumed in every month')}
          label="Your own sun table"
          options={TABLES}
        />
        <Field
          {...field(
            'sunValues',
            'Twelve numbers from January to December, such as 1.5 2.2 3.6 4.8 5.5 6 6.4 5.6 4.4 2.9 1.7 1.3',
          )}
          label="Its numbers (optional)"
        />
        <Field {...field('sunSource')} label="Where the table comes from" maxLength={200} />
      </fieldset>
      <UseFields state={state} initial={initial} unit={units.demand} demand={demand} />
      <div className="row">
        <SubmitButton>Save the supply facts</SubmitButton>
      </div>
    </form>
  )
}
