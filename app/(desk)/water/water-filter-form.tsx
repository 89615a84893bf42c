import { AreaField, FoldedFilter, OwnerField } from '@/app/ui/list-filter'
import type { FormState } from '@/lib/forms/form'
import type { WaterQuery } from '@/lib/forms/water-query'
import { paths } from '@/lib/paths'
import type { dueFacets } from '@/lib/records/due-list'

type Props = { query: WaterQuery; facets: Pick<ReturnType<typeof dueFacets>, 'areas' | 'owners'> }

/** Area and owner of the fleet by its water. */
export function WaterFilterForm({ query, facets }: Props) {
  const state: FormState = { typed: query.texts, errors: {} }
  return (
    <FoldedFilter
      home={paths.water()}
      summary="Filter by area or owner"
      on={query.filtered}
      group={query.group}
    >
      <AreaField state={state} areas={facets.areas} />
      <OwnerField state={state} owners={facets.owners} />
    </FoldedFilter>
  )
}
