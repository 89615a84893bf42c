import { Field, type FieldProps, SelectField } from '@/app/ui/field'
import { Choices } from './choices'

/** One measured field, its words and its unit for this reader. */
export type Measured = { name: string; label: string; hint: string; unit: string; of: 'well' | 'pump' }

/** Names of the models in use. */
export type Models = { pumps: readonly string[]; cartridges: readonly string[] }

type Props = {
  field: (name: string, hint?: string) => Omit<FieldProps, 'label'>
  measured: readonly Measured[]
  models: Models
}

/** Pump, cartridge and suction line of a well, and what the pump gave when it was new. */
export function PumpFields({ field, measured, models }: Props) {
  const shown = (name: string) => {
    const one = measured.find((each) => each.name === name)
    if (!one) throw new Error(`the form of a well has no ${name}`)
    return <Field key={name} {...field(name, one.hint)} label={one.label} unit={one.unit} />
  }
  return (
    <fieldset className="sheet">
      <legend>Pump, cartridge and suction line</legend>
      <div className="fields">
        <Field {...field('pumpModel', 'A new name makes a new model')} label="Pump model" list="pumps" />
        <Field
          {...field('cartridgeModel', 'A new name makes a new model')}
          label="Cartridge model"
          list="cartridges"
        />
        {shown('suctionBoreM')}
        {shown('suctionLengthM')}
        <SelectField
          {...field('suctionMaterial')}
          label="Suction pipe made of"
          options={[
            { value: '', label: 'not known' },
            { value: 'plastic', label: 'plastic' },
            { value: 'steel', label: 'steel' },
            { value: 'copper', label: 'copper' },
          ]}
        />
        <Field
          {...field('suctionFittings', 'Such as foot valve, check valve, 2 elbows')}
          label="Fittings in it"
        />
      </div>
      <p className="muted small">
        What the pump gave when it was put in, read together on one day: later readings are held against it.
        Blank: the first full reading in the logbook stands in.
      </p>
      <div className="fields">
        <Field {...field('pumpRefOn', 'Such as 2019-05-27')} label="Read on" />
        {['pumpRefFlowM3PerS', 'pumpRefHeadM', 'pumpRefAmps', 'pumpRefVolts'].map(shown)}
      </div>
      <Choices id="pumps" values={models.pumps} />
      <Choices id="cartridges" values={models.cartridges} />
    </fieldset>
  )
}
