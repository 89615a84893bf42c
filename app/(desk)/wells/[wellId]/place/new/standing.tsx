'use client'

import { Field, SelectField } from '@/app/ui/field'
import { HereButton } from '@/app/ui/place/here-button'
import { Section } from '@/app/ui/section'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { FormState } from '@/lib/forms/form'
import { MARK_ROWS, type MarkField, markField } from '@/lib/forms/place/rows'
import { NORTHS } from './norths'

type Props = { state: FormState; distance: string; units: UnitSystem }

const ROWS = Array.from({ length: MARK_ROWS }, (_, i) => i + 1)
const HANDS = [
  { value: '', label: 'not noted' },
  { value: 'left', label: 'left' },
  { value: 'right', label: 'right' },
]

const fieldsOf = (...names: MarkField[]) => ROWS.flatMap((row) => names.map((name) => markField(row, name)))

/** How the marks stand to each other, in one of three ways: without it the point cannot be drawn or checked. */
export function Standing({ state, distance, units }: Props) {
  return (
    <>
      <p className="hint">
        Say how the marks stand to each other in one of the ways below, and the ties are checked against each
        other.
      </p>
      <Section
        title="Distances between the marks"
        state={state}
        fields={[...fieldsOf('ToFirst', 'ToSecond', 'Side'), 'firstToSecond']}
      >
        <div className="fields">
          <Field
            state={state}
            name={markField(2, 'ToFirst')}
            label="Mark 1 to mark 2"
            unit={distance}
            short
          />
          <Field state={state} name="firstToSecond" label="Bearing from 1 to 2 (optional)" unit="°" short />
          <SelectField
            state={state}
            name="firstToSecondNorth"
            label="Bearing from"
            options={NORTHS}
            initial="magnetic"
          />
        </div>
        {ROWS.slice(2).map((row) => (
          <div className="fields" key={row}>
            <Field
              state={state}
              name={markField(row, 'ToFirst')}
              label={`Mark 1 to mark ${row}`}
              unit={distance}
              short
            />
            <Field
              state={state}
              name={markField(row, 'ToSecond')}
              label={`Mark 2 to mark ${row}`}
              unit={distance}
              short
            />
            <SelectField
              state={state}
              name={markField(row, 'Side')}
              label={`From 1 to 2, mark ${row} is on the`}
              options={HANDS}
              initial=""
            />
          </div>
        ))}
      </Section>
      <Section title="A position of each mark" state={state} fields={fieldsOf('Lat', 'Lon', 'Accuracy')}>
        {ROWS.map((row) => (
          <fieldset className="field place-row" key={row}>
            <legend>Position of mark {row}</legend>
            <HereButton
              latitude={markField(row, 'Lat')}
              longitude={markField(row, 'Lon')}
              accuracy={markField(row, 'Accuracy')}
              words={`I stand at mark ${row}`}
              units={units}
            />
            <div className="fields">
              <Field state={state} name={markField(row, 'Lat')} label={`Latitude of mark ${row}`} />
              <Field state={state} name={markField(row, 'Lon')} label={`Longitude of mark ${row}`} />
              <Field
                state={state}
                name={markField(row, 'Accuracy')}
                label={`Mark ${row} good to ±`}
                unit={distance}
                short
              />
            </div>
          </fieldset>
        ))}
      </Section>
      <Section
        title="Metres or feet east and north of a zero point"
        state={state}
        fields={[...fieldsOf('East', 'North'), 'originLat', 'originLon']}
      >
        {ROWS.map((row) => (
          <div className="fields" key={row}>
            <Field
              state={state}
              name={markField(row, 'East')}
              label={`Mark ${row}: east of zero`}
              unit={distance}
              short
            />
            <Field
              state={state}
              name={markField(row, 'North')}
              label={`Mark ${row}: north of zero`}
              unit={distance}
              short
            />
          </div>
        ))}
        <div className="fields">
          <Field state={state} name="originLat" label="Latitude of the zero point (optional)" />
          <Field state={state} name="originLon" label="Longitude of the zero point (optional)" />
        </div>
      </Section>
    </>
  )
}
