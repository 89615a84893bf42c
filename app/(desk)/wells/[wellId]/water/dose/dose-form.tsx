import { ErrorSummary } from '@/app/ui/error-summary'
import { Field, SelectField } from '@/app/ui/field'
import type { Use } from '@/lib/domain/quantity'
import { TARGETS } from '@/lib/domain/water/tables/disinfection'
import { DOSE_QUANTITIES, type DoseReading } from '@/lib/forms/dose-form'

type Props = { reading: DoseReading; action: string; symbols: Record<Use, string> }

const PRODUCTS = [
  { value: '', label: 'Choose' },
  { value: 'liquid', label: 'Liquid, % by volume' },
  { value: 'liquid-by-weight', label: 'Liquid, % by weight' },
  { value: 'solid', label: 'Dry, % available chlorine' },
]
const GRAVEL = [
  { value: '', label: 'Choose' },
  { value: 'yes', label: 'Yes' },
  { value: 'no', label: 'No' },
]

/** Water, product and target. A plain form: it works without script, and its address can be kept. */
export function DoseForm({ reading, action, symbols }: Props) {
  const state = { typed: reading.typed, errors: reading.errors }
  const quantity = (name: keyof typeof DOSE_QUANTITIES) => ({
    state,
    name,
    unit: symbols[DOSE_QUANTITIES[name]],
    inputMode: 'decimal' as const,
  })
  return (
    <form className="form form-wide no-print" action={action} method="get" noValidate>
      <ErrorSummary state={state} />
      <input type="hidden" name="reckon" value="1" />
      <fieldset className="sheet">
        <legend>The water</legend>
        <p className="hint">Filled in from the register where it is known. Measure again where you can.</p>
        <div className="fields">
          <Field {...quantity('bore')} label="Bore of the casing" />
          <Field {...quantity('outside')} label="Outside of the casing (optional)" />
          <Field {...quantity('column')} label="Depth of water" hint="Surface to bottom" />
          <SelectField state={state} name="gravel" label="Gravel pack" options={GRAVEL} />
          <Field {...quantity('pitArea')} label="Area of the gravel pit" hint="Seen from above" />
          <Field {...quantity('porosity')} label="Pores of the gravel" hint="30 to 40 for washed gravel" />
          <Field {...quantity('dropBore')} label="Bore of the drop pipe" hint="0 where there is none" />
          <Field {...quantity('dropLength')} label="Length of the drop pipe" hint="0 where there is none" />
          <Field {...quantity('linesBore')} label="Bore of the lines" hint="0 where there are none" />
          <Field {...quantity('linesLength')} label="Length of the lines" hint="0 where there are none" />
          <Field {...quantity('tank')} label="Water in the tank" hint="0 where there is none" />
        </div>
      </fieldset>
      <fieldset className="sheet">
        <legend>The product, by its label</legend>
        <p className="hint">
          By volume: grams of available chlorine in 100 mL (trade per cent). By weight: per cent of sodium
          hypochlorite.
        </p>
        <div className="fields">
          <SelectField state={state} name="product" label="What it is" options={PRODUCTS} />
          <Field state={state} name="strength" label="Strength on the label" unit="%" inputMode="decimal" />
          <Field
            state={state}
            name="density"
            label="Density (for % by weight)"
            hint="On the label or data sheet"
            unit="kg/L"
            inputMode="decimal"
          />
          <Field
            state={state}
            name="tabletG"
            label="Weight of a tablet (optional)"
            unit="g"
            inputMode="decimal"
          />
        </div>
      </fieldset>
      <fieldset className="sheet">
        <legend>The aim</legend>
        <div className="fields">
          <Field state={state} name="target" label="Chlorine wanted" unit="mg/L" inputMode="decimal" />
          <Field {...quantity('contact')} label="To stand" />
          <Field state={state} name="ph" label="pH of the water (optional)" inputMode="decimal" />
        </div>
        <details>
          <summary>What the guides aim at</summary>
          <ul>
            {TARGETS.map(({ source, date, lowMgL, highMgL, use }) => (
              <li key={`${source} ${use}`}>
                {lowMgL === highMgL ? lowMgL : `${lowMgL} to ${highMgL}`} mg/L: {use} ({source}, {date})
              </li>
            ))}
          </ul>
        </details>
      </fieldset>
      <div>
        <button className="button" type="submit">
          Reckon the dose
        </button>
      </div>
    </form>
  )
}
