import { Field, SelectField } from '@/app/ui/field'
import { Section } from '@/app/ui/section'
import type { SheetState } from './sheet-state'

const POINTS = [
  { value: '', label: 'not known' },
  { value: 'Well head, before treatment', label: 'Well head, before treatment' },
  { value: 'Pressure tank, before treatment', label: 'Pressure tank, before treatment' },
  { value: 'Outside tap', label: 'Outside tap' },
  { value: 'Kitchen tap', label: 'Kitchen tap' },
  { value: 'Kitchen tap, after treatment', label: 'Kitchen tap, after treatment' },
  { value: 'Storage tank', label: 'Storage tank' },
]
const PURPOSES = [
  { value: '', label: 'not said' },
  { value: 'routine', label: 'Routine' },
  { value: 'resample', label: 'Resample after a positive' },
  { value: 'after-flood', label: 'After a flood' },
  { value: 'after-repair', label: 'After a repair' },
  { value: 'new-well', label: 'New well' },
  { value: 'complaint', label: 'Change in taste, smell or colour' },
]
const CHLORINE = [
  { value: '', label: 'not known' },
  { value: 'no', label: 'No chlorine found' },
  { value: 'yes', label: 'Chlorine was in the water' },
  { value: 'unknown', label: 'Not looked at' },
]

const REST = [
  'analysedDate',
  'analysedTime',
  'receivedTemp',
  'samplePurpose',
  'chlorinated',
  'sampler',
  'sampleAsked',
]

type Props = {
  state: SheetState
  temperatureUnit: string
  /** What a household can leave to the outfit is folded away. */
  folded: boolean
}

/** When, where and by whom the sample was taken, and how it reached the laboratory. */
export function SheetAbout({ state, temperatureUnit, folded }: Props) {
  return (
    <section className="sheet stack" aria-labelledby="about">
      <h2 id="about">About the sample</h2>
      <p className="hint">
        How long a sample travelled and how warm it came decides whether its bacteria count can be relied on.
      </p>
      <div className="fields">
        <Field state={state} name="sampleDate" label="Taken on" type="date" />
        <Field state={state} name="sampleTime" label="Taken at" type="time" />
        <Field state={state} name="receivedDate" label="Received by the laboratory on" type="date" />
        <Field state={state} name="receivedTime" label="Received at" type="time" />
        <SelectField state={state} name="pointKind" label="Taken from" options={POINTS} />
        <Field
          state={state}
          name="pointDetail"
          label="Which one, or another place (optional)"
          autoComplete="off"
        />
        <Field state={state} name="sampleLab" label="Laboratory" autoComplete="off" />
        <Field state={state} name="sampleId" label="Sample number" autoComplete="off" />
      </div>
      {folded ? (
        <Section title="More that the sheet may say (optional)" state={state} fields={REST}>
          <Rest state={state} temperatureUnit={temperatureUnit} />
        </Section>
      ) : (
        <Rest state={state} temperatureUnit={temperatureUnit} />
      )}
    </section>
  )
}

function Rest({ state, temperatureUnit }: Omit<Props, 'folded'>) {
  return (
    <div className="fields">
      <Field
        state={state}
        name="receivedTemp"
        label="Temperature on arrival"
        unit={temperatureUnit}
        inputMode="decimal"
        autoComplete="off"
      />
      <Field state={state} name="analysedDate" label="Test begun on (optional)" type="date" />
      <Field state={state} name="analysedTime" label="Test begun at (optional)" type="time" />
      <SelectField state={state} name="samplePurpose" label="Why it was taken" options={PURPOSES} />
      <SelectField state={state} name="chlorinated" label="Chlorine in the water" options={CHLORINE} />
      <Field state={state} name="sampler" label="Taken by (optional)" autoComplete="off" />
      <Field
        state={state}
        name="sampleAsked"
        label="Ordered, but not on the sheet (optional)"
        autoComplete="off"
      />
    </div>
  )
}
