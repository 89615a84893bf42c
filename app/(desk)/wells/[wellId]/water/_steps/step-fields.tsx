import { Choices, Field, type Option, SelectField, TextArea } from '@/app/ui/field'
import type { FormState } from '@/lib/forms/form'

/** The steps that are written on a form; waiting and sampling are seen by the dates and the lab sheets. */
export type FormStep = 'notice' | 'disinfected' | 'flushed' | 'remedied' | 'well-repaired' | 'chain-closed'

const NOTICES: readonly Option[] = [
  { value: 'boil', label: 'Boil notice (bacteria only)' },
  { value: 'do-not-drink', label: 'Do not drink' },
  { value: 'do-not-use', label: 'Do not use at all' },
  { value: 'inform', label: 'For information' },
]

const GONE: readonly Option[] = [
  { value: 'yes', label: 'Yes: a test found none left' },
  { value: 'no', label: 'No: chlorine was still found' },
  { value: 'not-tested', label: 'It was not tested' },
]

type Props = {
  state: FormState
  step: FormStep
  prefix: string
  initial: Readonly<Record<string, string>>
  volumeUnit: string
}

/** The fields of one step; their names are those of the visit form, which reads them. */
export function StepFields({ step, volumeUnit, initial, ...given }: Props) {
  const field = (name: string) => ({ ...given, name, initial: initial[name] })
  switch (step) {
    case 'notice':
      return (
        <>
          <SelectField {...field('noticeKind')} label="Which notice" options={NOTICES} />
          <Field
            {...field('noticeTo')}
            label="Who was told"
            hint="Names, or “posted at the tap and the gate”"
          />
          <Field {...field('noticeHow')} label="How (optional)" hint="On paper, by phone, in person" />
        </>
      )
    case 'disinfected':
      return (
        <>
          <p className="hint">
            What was not measured stays blank: strength and time tell later whether it was done properly.
          </p>
          <div className="fields">
            <Field {...field('doseTarget')} label="Chlorine in the water" unit="mg/L" inputMode="decimal" />
            <Field {...field('doseContact')} label="Left to stand" unit="h" inputMode="decimal" />
            <Field {...field('doseProduct')} label="Product" hint="As on the label" />
            <Field {...field('doseStrength')} label="Strength on the label" unit="%" inputMode="decimal" />
            <Field
              {...field('doseVolume')}
              label="Liquid put in"
              unit={volumeUnit}
              hint="Or with its unit: 1.2 L"
            />
            <Field {...field('doseMass')} label="Or dry product put in" unit="g" inputMode="decimal" />
          </div>
        </>
      )
    case 'flushed':
      return (
        <>
          <Choices {...field('chlorineGone')} label="Is the chlorine gone?" options={GONE} />
          <Field
            {...field('flushWhere')}
            label="Where it was flushed to (optional)"
            hint="Not into septic or streams"
          />
        </>
      )
    case 'remedied':
      return <TextArea {...field('remedyWhat')} label="What was done about it" rows={3} />
    case 'well-repaired':
      return (
        <TextArea
          {...field('repairWhat')}
          label="What was repaired"
          hint="Cap, seal, joints, drainage, setback"
          rows={3}
        />
      )
    case 'chain-closed':
      return (
        <>
          <Field {...field('closedBy')} label="Closed by (name)" autoComplete="name" />
          <TextArea
            {...field('closedReason')}
            label="Reason"
            hint="Why it ends without the clear samples. It stands in the logbook with your name."
            rows={3}
          />
        </>
      )
  }
}
