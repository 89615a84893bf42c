import Link from 'next/link'
import { Field, SelectField } from '@/app/ui/field'
import type { FormState } from '@/lib/forms/form'
import type { WellsQuery } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import type { dueFacets } from '@/lib/records/due-list'

const ANY = { value: '', label: 'Any' }

/** Search and filter of the wells list, as an address. */
export function WellSearchForm({
  query,
  facets,
}: {
  query: WellsQuery
  facets: ReturnType<typeof dueFacets>
}) {
  const state: FormState = { typed: query.texts, errors: {} }
  return (
    <search className="no-print">
      <form className="stack-tight" action={paths.wells()} method="get">
        <div className="fields">
          <Field
            state={state}
            name="q"
            label="Search"
            hint="Label, name, owner or area"
            type="search"
            spellCheck={false}
          />
          <SelectField
            state={state}
            name="area"
            label="Area"
            options={[ANY, ...facets.areas.map((area) => ({ value: area, label: area }))]}
          />
          <SelectField
            state={state}
            name="owner"
            label="Owner"
            options={[ANY, ...facets.owners.map((owner) => ({ value: owner.id, label: owner.name }))]}
          />
          <SelectField
            state={state}
            name="retired"
            label="Show"
            options={[
              { value: '', label: 'Wells in use' },
              { value: '1', label: 'Retired wells' },
            ]}
          />
        </div>
        <div className="row">
          <button className="button" type="submit">
            Search
          </button>
          {query.filtered ? (
            <Link href={paths.wells()} prefetch={false}>
              Show all wells
            </Link>
          ) : null}
        </div>
      </form>
    </search>
  )
}
