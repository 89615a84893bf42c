import Link from 'next/link'
import { SelectField } from '@/app/ui/field'
import { CAUSE_WORDS } from '@/lib/domain/logbook/yield-words'
import type { FormState } from '@/lib/forms/form'
import type { YieldQuery } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'

const ANY = { value: '', label: 'Any' }

/** The filter of the fleet by yield, as an address. */
export function YieldFilterForm({ query, areas }: { query: YieldQuery; areas: readonly string[] }) {
  const state: FormState = { typed: query.texts, errors: {} }
  return (
    <details className="no-print" open={query.filtered}>
      <summary>{query.filtered ? 'Filter (on)' : 'Filter by area, cause or calls'}</summary>
      <form className="stack" action={paths.yields()} method="get">
        <div className="fields">
          <SelectField
            state={state}
            name="area"
            label="Area"
            options={[ANY, ...areas.map((area) => ({ value: area, label: area }))]}
          />
          <SelectField
            state={state}
            name="cause"
            label="Cause"
            options={[ANY, ...Object.entries(CAUSE_WORDS).map(([value, label]) => ({ value, label }))]}
          />
          <SelectField
            state={state}
            name="called"
            label="Calls"
            options={[
              { value: '', label: 'All wells' },
              { value: '1', label: 'Only those called as losing' },
            ]}
          />
        </div>
        <div className="row">
          <button className="button" type="submit">
            Filter
          </button>
          {query.filtered ? (
            <Link href={paths.yields()} prefetch={false}>
              Clear the filter
            </Link>
          ) : null}
        </div>
      </form>
    </details>
  )
}
