import { Field, TextArea } from '@/app/ui/field'
import type { RegisterState } from '@/lib/forms/register-state'
import { Choices } from './choices'
import { type Measured, type Models, PumpFields } from './pump-fields'
import { registerField } from './register-field'

type Props = {
  state: RegisterState
  initial: Record<string, string>
  measured: readonly Measured[]
  owners: readonly string[]
  areas: readonly string[]
  models: Models
}

/** The fields of a well, by what they are about. Everything but the label may stay blank. */
export function WellFields({ state, initial, measured, owners, areas, models }: Props) {
  const field = registerField(state, initial)
  return (
    <>
      <p className="muted">Only the label must be filled in: what is unknown stays blank.</p>
      <fieldset className="sheet">
        <legend>Well and owner</legend>
        <div className="fields">
          <Field {...field('label', 'Your own, once in the register')} label="Label" />
          <Field {...field('name', 'Such as North orchard')} label="Name" />
          <Field {...field('area', 'For lists and rounds')} label="Area" list="areas" />
          <Field
            {...field('ownerName', 'A new name makes a new owner')}
            label="Owner"
            list="owners"
            autoComplete="off"
          />
          <Field
            {...field('ownerPhone', 'For all wells of this owner')}
            label="Owner’s phone"
            type="tel"
            autoComplete="off"
          />
          <Field
            {...field('ownerEmail', 'For all wells of this owner')}
            label="Owner’s email"
            autoComplete="off"
            spellCheck={false}
          />
        </div>
        <Choices id="areas" values={areas} />
        <Choices id="owners" values={owners} />
      </fieldset>
      <fieldset className="sheet">
        <legend>Place</legend>
        <div className="fields">
          <Field
            {...field('latitude', 'North positive, such as 44.26012')}
            label="Latitude"
            inputMode="text"
          />
          <Field
            {...field('longitude', 'East positive, such as -72.57543')}
            label="Longitude"
            inputMode="text"
          />
        </div>
        <TextArea {...field('access', 'How to find the head, gates, whom to call')} label="Way in" rows={3} />
        <div className="fields">
          <Field
            {...field('gateCode', 'Shown to installers and technicians alone')}
            label="Gate code"
            autoComplete="off"
            spellCheck={false}
          />
          <Field {...field('hazards', 'Dogs, a bull, a steep bank')} label="Beware of" />
          <Field {...field('visitFrom', 'The owner’s wish, such as 10:00')} label="Come not before" />
          <Field {...field('visitUntil', 'Such as 16:30')} label="Be done by" />
          <Field
            {...field('visitDays', 'The owner’s wish, such as Tue, Sat; blank for any day')}
            label="Come only on"
          />
        </div>
      </fieldset>
      <fieldset className="sheet">
        <legend>As built</legend>
        <p className="muted small">
          A bare number is read in the unit shown; another unit can be typed with it, such as 7 ft 4 in or 2.2
          m.
        </p>
        <div className="fields">
          <Field {...field('installedOn', 'Such as 2019-05-27')} label="Installed" />
          {measured
            .filter(({ of }) => of === 'well')
            .map(({ name, label, hint, unit }) => (
              <Field key={name} {...field(name, hint)} label={label} unit={unit} />
            ))}
        </div>
      </fieldset>
      <PumpFields field={field} measured={measured.filter(({ of }) => of === 'pump')} models={models} />
      <fieldset className="sheet">
        <legend>Closed season</legend>
        <p className="muted small">
          Days of every year on which nobody gets to the well. What falls due in it is brought forward.
        </p>
        <div className="fields">
          <Field {...field('closedFrom', 'Such as 15 Nov')} label="First closed day" />
          <Field {...field('closedTo', 'Such as 20 Apr')} label="Last closed day" />
          <Field {...field('closedWhy', 'Such as snow')} label="Why" />
        </div>
      </fieldset>
      <TextArea {...field('notes')} label="Notes" rows={4} />
      <Field
        {...field('retiredOn', 'A retired well has no duties due; its logbook stays')}
        label="Retired on"
        short
      />
    </>
  )
}
