import { AskedAgain } from '@/app/ui/asked-again'
import { Field, SelectField } from '@/app/ui/field'
import { Section } from '@/app/ui/section'
import type { Use } from '@/lib/domain/quantity/format'
import { BRUSHES_MAX } from '@/lib/forms/visit/shape'
import type { LastField } from '@/lib/records/visit-context'
import type { VisitState } from './actions'
import type { Units } from './units'

type Row = { name: string; label: string; use: Use; last?: LastField }

const LEVELS: readonly Row[] = [
  { name: 'staticLevel', label: 'Water level at rest', use: 'depth', last: 'staticLevel' },
  { name: 'pumpingLevel', label: 'Water level while pumping', use: 'depth', last: 'pumpingLevel' },
  { name: 'flow', label: 'Flow', use: 'flow', last: 'flow' },
  { name: 'pumpedMinutes', label: 'Pumped for', use: 'minutes' },
]

const METERS: readonly Row[] = [
  { name: 'hourMeter', label: 'Hour meter', use: 'hours', last: 'hourMeter' },
  { name: 'volumeMeter', label: 'Volume meter', use: 'volume', last: 'volumeMeter' },
  { name: 'pressureBefore', label: 'Pressure before the cartridge', use: 'pressure', last: 'pressureBefore' },
  { name: 'pressureAfter', label: 'Pressure after the cartridge', use: 'pressure', last: 'pressureAfter' },
]

const VALVE: readonly Row[] = [
  { name: 'valveBefore', label: 'Pressure when the pump stopped', use: 'pressure' },
  { name: 'valveAfter', label: 'Pressure after the wait', use: 'pressure' },
  { name: 'valveMinutes', label: 'Minutes between them', use: 'minutes' },
]

const MOTOR: readonly Row[] = [
  ...Array.from({ length: BRUSHES_MAX }, (_, i): Row => {
    const row: Row = { name: `brush${i + 1}`, label: `Brush ${i + 1} length`, use: 'brush' }
    return i === 0 ? { ...row, last: 'brush1' } : row
  }),
  { name: 'amps', label: 'Current', use: 'current', last: 'amps' },
  { name: 'volts', label: 'Voltage', use: 'voltage', last: 'volts' },
]

type Props = { state: VisitState; units: Units; last: Partial<Record<LastField, string>> }

/** Levels, meters and the motor: numbers with the usual unit beside them, each of which may bring its own. */
export function ReadingSection(props: Props) {
  return (
    <>
      <Section title="Levels and flow" open state={props.state} fields={LEVELS.map((row) => row.name)}>
        <p className="hint">
          A number alone is in the unit shown. Another unit can be written behind it, as in 9 gpm, 2&apos;
          4&quot; or 2.1 m. Leave blank what was not read.
        </p>
        <Rows rows={LEVELS} {...props} />
      </Section>
      <Section
        title="Meters and pressure"
        open
        state={props.state}
        fields={[...METERS.map((row) => row.name), 'pressureCartridge']}
      >
        <Rows rows={METERS} {...props} />
        <SelectField
          state={props.state}
          name="pressureCartridge"
          label="Pressures read across (if the cartridge was changed today)"
          options={[
            { value: '', label: 'not changed, or not known' },
            { value: 'old', label: 'the old cartridge, before the change' },
            { value: 'new', label: 'the new cartridge, after the change' },
          ]}
        />
      </Section>
      <Section title="Check valve test" state={props.state} fields={VALVE.map((row) => row.name)}>
        <p className="hint">
          Stop the pump with every tap closed. Read the gauge at once, and again after ten minutes or more.
        </p>
        <Rows rows={VALVE} {...props} />
      </Section>
      <Section title="Motor: brushes, amps, volts" state={props.state} fields={MOTOR.map((row) => row.name)}>
        <Rows rows={MOTOR} {...props} />
      </Section>
    </>
  )
}

function Rows({ rows, state, units, last }: Props & { rows: readonly Row[] }) {
  return (
    <div className="fields">
      {rows.map(({ name, label, use, last: lastField }) => (
        <div key={name}>
          <Field
            state={state}
            name={name}
            label={label}
            hint={lastField ? last[lastField] : undefined}
            unit={units[use]}
            autoComplete="off"
            inputMode={units[use] === 'ft' ? 'text' : 'decimal'}
          />
          <AskedAgain state={state} field={name} />
        </div>
      ))}
    </div>
  )
}
