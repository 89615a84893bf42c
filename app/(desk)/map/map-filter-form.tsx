'use client'

import { Field, SelectField } from '@/app/ui/field'
import { HereAsOne } from '@/app/ui/place/here-as-one'
import { MAP_STATUSES, MAP_WORDS } from '@/lib/domain/place'
import type { MapQuery } from '@/lib/forms/map-query'

type Props = { texts: MapQuery['texts']; errors: Record<string, string>; areas: readonly string[] }

/** Which wells, and from where the list counts. A plain form: it works without script. */
export function MapFilterForm({ texts, errors, areas }: Props) {
  const { wells, ...typed } = texts
  const state = { typed, errors }
  return (
    <form className="form form-wide no-print" action="/map" noValidate>
      {wells.map((well) => (
        <input key={well} type="hidden" name="wells" value={well} />
      ))}
      <div className="fields">
        <SelectField
          state={state}
          name="status"
          label="How it stands"
          options={[
            { value: '', label: 'any' },
            ...MAP_STATUSES.map((status) => ({ value: status, label: MAP_WORDS[status] })),
          ]}
        />
        <SelectField
          state={state}
          name="area"
          label="Area"
          options={[
            { value: '', label: 'all areas' },
            ...areas.map((area) => ({ value: area, label: area })),
          ]}
        />
        <Field
          state={state}
          name="from"
          label="Nearest first, from"
          hint="Latitude, longitude: 44.15, -121.3"
        />
      </div>
      <div className="row">
        <button type="submit" className="button">
          Show
        </button>
        <HereAsOne field="from" words="From where I am" />
      </div>
    </form>
  )
}
