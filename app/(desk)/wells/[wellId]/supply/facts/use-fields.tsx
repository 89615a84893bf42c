import { Field, type Option, SelectField } from '@/app/ui/field'
import { USE_NAMES, type UseName } from '@/lib/domain/logbook/supply-facts'
import { monthName } from '@/lib/domain/quantity'
import type { RegisterState } from '@/lib/forms/register-state'
import { registerField } from '../../../../_register/register-field'

const WORDS: Record<UseName, string> = { house: 'House', stock: 'Stock', garden: 'Garden' }
const MONTHS: readonly Option[] = [
  { value: '', label: 'all the year' },
  ...Array.from({ length: 12 }, (_, i) => ({ value: String(i + 1), label: monthName(i + 1) })),
]

type Props = {
  state: RegisterState
  initial: Record<string, string>
  unit: string
  demand: string | null
}

/** What is asked for a day, by use, and in which months. */
export function UseFields({ state, initial, unit, demand }: Props) {
  const field = registerField(state, initial)
  return (
    <fieldset className="sheet">
      <legend>Water asked for</legend>
      <p className="muted text">
        {demand
          ? `All blank takes the demand of the register, ${demand}, as a house that draws it all the year, and says that this is an assumption.`
          : 'The register has no demand for this well: state at least one use.'}
      </p>
      {USE_NAMES.map((name) => (
        <div className="fields" key={name}>
          <Field
            {...field(`${name}Daily`)}
            label={`${WORDS[name]}, a day (optional)`}
            unit={unit}
            inputMode="decimal"
            short
          />
          <SelectField
            {...field(`${name}From`)}
            label={
              <>
                From <span className="unseen">which month, {name}</span>
              </>
            }
            options={MONTHS}
          />
          <SelectField
            {...field(`${name}To`)}
            label={
              <>
                To <span className="unseen">which month, {name}</span>
              </>
            }
            options={MONTHS}
          />
        </div>
      ))}
    </fieldset>
  )
}
