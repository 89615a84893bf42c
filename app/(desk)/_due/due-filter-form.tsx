import { Field } from '@/app/ui/field'
import { AnyOf, AreaField, FoldedFilter, OwnerField } from '@/app/ui/list-filter'
import { CONSEQUENCE_WORDS } from '@/lib/domain/upkeep/due-words'
import type { FormState } from '@/lib/forms/form'
import type { DueQuery } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import type { dueFacets } from '@/lib/records/due-list'

/** The filter of the due list. */
export function DueFilterForm({ query, facets }: { query: DueQuery; facets: ReturnType<typeof dueFacets> }) {
  const state: FormState = { typed: query.texts, errors: query.errors }
  const { health, supply, wear } = CONSEQUENCE_WORDS
  return (
    <FoldedFilter
      home={paths.due()}
      summary="Filter by duty, owner, area, consequence or date"
      on={query.filtered}
      wrong={Object.keys(query.errors).length > 0}
      group={query.group}
    >
      <AnyOf
        state={state}
        name="duty"
        label="Duty"
        options={facets.duties.map((duty) => ({ value: duty.key, label: duty.name }))}
      />
      <OwnerField state={state} owners={facets.owners} />
      <AreaField state={state} areas={facets.areas} />
      <AnyOf
        state={state}
        name="consequence"
        label="Consequence"
        options={[
          { value: 'health', label: health },
          { value: 'supply', label: supply },
          { value: 'wear', label: wear },
        ]}
      />
      <Field state={state} name="from" label="Due on or after" hint="Such as 2026-03-27" />
      <Field state={state} name="to" label="Due on or before" hint="Such as 27 Mar 2026" />
    </FoldedFilter>
  )
}
