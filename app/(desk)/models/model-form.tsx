'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, Field, TextArea } from '@/app/ui/field'
import { SubmitButton } from '@/app/ui/submit-button'
import { EMPTY_FORM } from '@/lib/forms/form'
import type { RegisterState } from '@/lib/forms/register-state'
import { type RegisterField, registerField } from '../_register/register-field'

/** Symbols of the units in which a bare number is read. */
export type ModelUnits = Record<'brush' | 'lift' | 'flow' | 'depth' | 'pressure', string>

type Props = {
  kind: 'pump' | 'cartridge'
  action: (state: RegisterState, form: FormData) => Promise<RegisterState>
  initial: Record<string, string>
  units: ModelUnits
  version?: string
}

const SUCH_AS = { pump: 'Larkspur D24, 7 gpm', cartridge: '20 in, 5 micron' } as const

/** Adds a model, or changes one. What is blank stays unknown. */
export function ModelForm({ kind, action, initial, units, version }: Props) {
  const [state, send] = useActionState<RegisterState, FormData>(action, EMPTY_FORM)
  const field = registerField(state, initial)
  return (
    <form className="form" action={send} noValidate>
      <ErrorSummary state={state} />
      {version ? <input type="hidden" name="version" value={state.typed.version ?? version} /> : null}
      <Field {...field('name', `As it stands on the box, such as ${SUCH_AS[kind]}`)} label="Name" />
      {kind === 'pump' ? (
        <PumpSheet field={field} units={units} />
      ) : (
        <CartridgeSheet field={field} units={units} />
      )}
      {version ? (
        <label className="choice">
          <input
            type="checkbox"
            name="retired"
            value="1"
            defaultChecked={(state.typed.retired ?? initial.retired) === '1'}
          />
          <span>No longer fitted: wells that have it keep it, new ones are not offered it</span>
        </label>
      ) : null}
      <div className="row">
        <SubmitButton>{version ? 'Save the model' : 'Add the model'}</SubmitButton>
      </div>
    </form>
  )
}

type SheetProps = { field: RegisterField; units: ModelUnits }

function PumpSheet({ field, units }: SheetProps) {
  return (
    <>
      <Choices
        {...field('type', 'It decides what more head does to the flow')}
        label="How it works (optional)"
        options={[
          { value: 'centrifugal', label: 'Centrifugal or jet: more head, less flow' },
          { value: 'displacement', label: 'Diaphragm or piston: the same at every turn' },
          { value: '', label: 'Not known' },
        ]}
      />
      <Choices
        {...field('power')}
        label="Driven by (optional)"
        options={[
          { value: 'sun', label: 'Panels alone: it turns with the sun' },
          { value: 'mains', label: 'Mains or a battery' },
          { value: '', label: 'Not known' },
        ]}
      />
      <div className="fields">
        <Field {...field('brushNewM')} label="Length of a new brush (optional)" unit={units.brush} />
        <Field
          {...field('brushMinimumM', 'As the maker says')}
          label="Least length of a brush (optional)"
          unit={units.brush}
        />
        <Field {...field('brushCount')} label="Brushes (optional)" inputMode="numeric" short />
        <Field {...field('brushPart', 'As it is ordered')} label="Brush set (optional)" />
        <Field
          {...field('npshRequiredM', 'NPSH required, on the pump’s sheet')}
          label="Suction head asked for (optional)"
          unit={units.lift}
        />
        <Field
          {...field('referenceVolts', 'At which the points below were taken')}
          label="Voltage of the sheet (optional)"
          unit="V"
        />
        <Warranty field={field} />
      </div>
      <TextArea
        {...field('sheet', `One a line: flow in ${units.flow}; head in ${units.depth}. Such as 6.2; 20`)}
        label="Points of the maker’s curve (optional)"
        rows={5}
      />
    </>
  )
}

function CartridgeSheet({ field, units }: SheetProps) {
  return (
    <div className="fields">
      <Field
        {...field('terminalDropPa', 'At which it is done')}
        label="Terminal pressure drop (optional)"
        unit={units.pressure}
      />
      <Field
        {...field('referenceFlowM3PerS', 'For which that drop is meant')}
        label="At a flow of (optional)"
        unit={units.flow}
      />
      <Field {...field('oRing', 'Of the housing, as it is ordered')} label="O-ring (optional)" />
      <Warranty field={field} />
    </div>
  )
}

function Warranty({ field }: Pick<SheetProps, 'field'>) {
  return (
    <Field
      {...field(
        'warrantyMonths',
        'Counts for each one fitted under this name, where its visit says no other',
      )}
      label="Warranty (optional)"
      unit="months"
      inputMode="numeric"
    />
  )
}
