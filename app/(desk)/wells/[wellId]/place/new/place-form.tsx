'use client'

import { useMemo } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices, Field, SelectField, TextArea } from '@/app/ui/field'
import { KeepDraft } from '@/app/ui/keep-draft'
import { HereButton } from '@/app/ui/place/here-button'
import { Section } from '@/app/ui/section'
import { SubmitButton } from '@/app/ui/submit-button'
import { useSending } from '@/app/ui/use-sending'
import { type Asking, withQuestions } from '@/app/ui/with-questions'
import { ATTACHMENT_BYTES_MAX, FILE_BYTES_MAX, sayBytes } from '@/lib/domain/limits'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { PLACE_PHOTOS } from '@/lib/forms/place/rows'
import { MarkFields } from './mark-fields'
import { NORTHS } from './norths'
import { PhotoInput } from './photo-input'
import { Standing } from './standing'

export type PlaceFormProps = {
  action: (before: Asking, form: FormData) => Promise<Asking>
  correcting: boolean
  initial: Readonly<Record<string, string>>
  draftKey: string
  visitId: string
  day: Day
  by: string
  units: UnitSystem
  /** Symbols of the units of a bare number. */
  distance: string
  depth: string
}

const WAYS = [
  { value: 'phone', label: 'By phone, held over the head' },
  { value: 'survey', label: 'By a surveyor’s instrument' },
  { value: 'map', label: 'Read off a map' },
]

const SIDES = [
  { value: '', label: 'Three tapes or more, or not noted' },
  { value: 'left', label: 'On the left' },
  { value: 'right', label: 'On the right' },
]

/** Everything that says where a head lies, the quickest first. Works without script; the device only fills fields in. */
export function PlaceForm(props: PlaceFormProps) {
  const { action, correcting, initial, draftKey, visitId, day, by, units, distance, depth } = props
  const { state: sent, pending, form } = useSending(action)
  // What a correction offers stands in the fields until something was typed.
  const state = useMemo(() => ({ ...sent, typed: { ...initial, ...sent.typed } }), [sent, initial])
  const problems = useMemo(() => withQuestions(sent), [sent])
  return (
    <form className="form" noValidate id="place-form" {...form}>
      <ErrorSummary state={problems} />
      <KeepDraft formId="place-form" storageKey={draftKey} />
      <input type="hidden" name="visitId" value={sent.typed.visitId ?? visitId} />
      {correcting ? <TextArea state={state} name="reason" label="Why it is corrected" rows={2} /> : null}
      <div className="fields">
        <Field state={state} name="date" label="Day" type="date" initial={day} />
        <Field state={state} name="by" label="Measured by" initial={by} autoComplete="name" />
      </div>
      <fieldset className="sheet stack">
        <legend>Position of the head</legend>
        <HereButton
          latitude="fixLat"
          longitude="fixLon"
          accuracy="fixAccuracy"
          words="Use this phone’s position"
          units={units}
        />
        <div className="fields">
          <Field
            state={state}
            name="fixLat"
            label="Latitude"
            hint="44.26012, or both numbers here"
            inputMode="text"
          />
          <Field state={state} name="fixLon" label="Longitude" hint="-72.57543" inputMode="text" />
          <Field state={state} name="fixAccuracy" label="Good to ±" unit={distance} short />
        </div>
        <SelectField state={state} name="fixHow" label="How it was taken" options={WAYS} initial="phone" />
      </fieldset>
      <fieldset className="sheet stack">
        <legend>Tapes to fixed marks</legend>
        <p className="hint">
          Two are needed; a third shows a slip. Choose marks that stay and do not stand in one line with the
          head.
        </p>
        <p className="hint" id="photos-hint">
          Photos: JPEG, PNG or WebP, at most {sayBytes(ATTACHMENT_BYTES_MAX)} each. Where a photo was taken is
          not kept.
        </p>
        <noscript>
          <p className="hint">
            Without script all photos of one save must stay under {sayBytes(FILE_BYTES_MAX)} together; more
            can be added after it.
          </p>
        </noscript>
        {[1, 2, 3].map((row) => (
          <MarkFields key={row} row={row} state={state} distance={distance} />
        ))}
        <Section
          title="More marks"
          state={state}
          fields={['mark4Name', 'mark4Tape', 'mark5Name', 'mark5Tape']}
        >
          {[4, 5].map((row) => (
            <MarkFields key={row} row={row} state={state} distance={distance} />
          ))}
        </Section>
        <Choices
          state={state}
          name="side"
          label="With two tapes: walking from mark 1 to mark 2, the head lies"
          options={SIDES}
          initial=""
        />
        <Standing state={state} distance={distance} units={units} />
      </fieldset>
      <div className="fields">
        {PLACE_PHOTOS.map(({ field, label }) => (
          <PhotoInput key={field} name={field} label={label} />
        ))}
      </div>
      <Field state={state} name="cover" label="Soil over the lid (optional)" unit={depth} short />
      <Section
        title="Paces and compass"
        state={state}
        fields={['pacedMark', 'paces', 'pacedBearing', 'declination']}
      >
        <div className="fields">
          <Field state={state} name="pacedMark" label="From the mark" hint="Its name" />
          <Field state={state} name="paces" label="Paces" inputMode="decimal" short />
          <Field
            state={state}
            name="pace"
            label="Length of one pace"
            unit={distance}
            short
            hint="Walk ten, divide"
          />
          <Field state={state} name="pacedBearing" label="Bearing" unit="°" short inputMode="decimal" />
          <SelectField
            state={state}
            name="pacedBearingNorth"
            label="Bearing from"
            options={NORTHS}
            initial="magnetic"
          />
          <Field
            state={state}
            name="declination"
            label="Declination here"
            unit="°"
            short
            hint="East positive; from a map of this year"
          />
        </div>
      </Section>
      <TextArea
        state={state}
        name="note"
        label="Note (optional)"
        hint="Way in, gates, what covers the head"
        rows={3}
      />
      <div className="visit-save">
        <SubmitButton sending={pending}>
          {correcting ? 'Store the correction' : 'Save the place'}
        </SubmitButton>
      </div>
    </form>
  )
}
