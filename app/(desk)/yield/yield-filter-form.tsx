import { AnyOf, AreaField, FoldedFilter } from '@/app/ui/list-filter'
import { CAUSE_WORDS } from '@/lib/domain/logbook/yield-words'
import type { FormState } from '@/lib/forms/form'
import type { YieldQuery } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'

/** The filter of the fleet by yield. */
export function YieldFilterForm({ query, areas }: { query: YieldQuery; areas: readonly string[] }) {
  const state: FormState = { typed: query.texts, errors: {} }
  return (
    <FoldedFilter home={paths.yields()} summary="Filter by area, cause or calls" on={query.filtered}>
      <AreaField state={state} areas={areas} />
      <AnyOf
        state={state}
        name="cause"
        label="Cause"
        options={Object.entries(CAUSE_WORDS).map(([value, label]) => ({ value, label }))}
      />
      <AnyOf
        state={state}
        name="called"
        label="Calls"
        any="All wells"
        options={[{ value: '1', label: 'Only those called as losing' }]}
      />
    </FoldedFilter>
  )
}
