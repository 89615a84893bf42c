'use client'

import { Field } from '@/app/ui/field'
import { AnyOf, AreaField } from '@/app/ui/list-filter'
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
        <AnyOf
          state={state}
          name="status"
          label="How it stands"
          any="any"
          options={MAP_STATUSES.map((status) => ({ value: status, label: MAP_WORDS[status] }))}
        />
        <AreaField state={state} areas={areas} any="all areas" />
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
