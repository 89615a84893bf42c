import Link from 'next/link'
import { Field, SelectField } from '@/app/ui/field'
import { CONSEQUENCE_WORDS } from '@/lib/domain/upkeep/due-words'
import type { FormState } from '@/lib/forms/form'
import type { DueQuery } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import type { dueFacets } from '@/lib/records/due-list'

const ANY = { value: '', label: 'Any' }

/** The filter of the due list: a plain form that makes an address, which can be kept and sent on. */
export function DueFilterForm({ query, facets }: { query: DueQuery; facets: ReturnType<typeof dueFacets> }) {
  const state: FormState = { typed: query.texts, errors: query.errors }
  const { health, supply, wear } = CONSEQUENCE_WORDS
  return (
    <details className="no-print" open={query.filtered || Object.keys(query.errors).length > 0}>
      <summary>{query.filtered ? 'Filter (on)' : 'Filter by duty, owner, area, consequence or date'}</summary>
      <form className="stack" action={paths.due()} method="get">
        {query.group ? <input type="hidden" name="group" value={query.group} /> : null}
        <div className="fields">
          <SelectField
            state={state}
            name="duty"
            label="Duty"
            options={[ANY, ...facets.duties.map((duty) => ({ value: duty.key, label: duty.name }))]}
          />
          <SelectField
            state={state}
            name="owner"
            label="Owner"
            options={[ANY, ...facets.owners.map((owner) => ({ value: owner.id, label: owner.name }))]}
          />
          <SelectField
            state={state}
            name="area"
            label="Area"
            options={[ANY, ...facets.areas.map((area) => ({ value: area, label: area }))]}
          />
          <SelectField
            state={state}
            name="consequence"
            label="Consequence"
            options={[
              ANY,
              { value: 'health', label: health },
              { value: 'supply', label: supply },
              { value: 'wear', label: wear },
            ]}
          />
          <Field state={state} name="from" label="Due on or after" hint="Such as 2026-03-27" />
          <Field state={state} name="to" label="Due on or before" hint="Such as 27 Mar 2026" />
        </div>
        <div className="row">
          <button className="button" type="submit">
            Filter
          </button>
          {query.filtered ? (
            <Link href={paths.due()} prefetch={false}>
              Clear the filter
            </Link>
          ) : null}
        </div>
      </form>
    </details>
  )
}
