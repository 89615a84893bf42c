import { Field } from '@/app/ui/field'
import { AnyOf, AreaField, FilterButtons, OwnerField } from '@/app/ui/list-filter'
import type { FormState } from '@/lib/forms/form'
import type { WellsQuery } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import type { dueFacets } from '@/lib/records/due-list'

type Props = { query: WellsQuery; facets: ReturnType<typeof dueFacets> }

/** Search and filter of the wells list, as an address. */
export function WellSearchForm({ query, facets }: Props) {
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
          <AreaField state={state} areas={facets.areas} />
          <OwnerField state={state} owners={facets.owners} />
          <AnyOf
            state={state}
            name="retired"
            label="Show"
            any="Wells in use"
            options={[{ value: '1', label: 'Retired wells' }]}
          />
        </div>
        <FilterButtons go="Search" all="Show all wells" on={query.filtered} home={paths.wells()} />
      </form>
    </search>
  )
}
