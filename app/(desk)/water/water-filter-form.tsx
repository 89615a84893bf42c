import Link from 'next/link'
import { SelectField } from '@/app/ui/field'
import type { FormState } from '@/lib/forms/form'
import type { WaterQuery } from '@/lib/forms/water-query'
import { paths } from '@/lib/paths'
import type { dueFacets } from '@/lib/records/due-list'

const ANY = { value: '', label: 'Any' }

/** Area and owner, as an address that can be kept and sent on. */
export function WaterFilterForm({
  query,
  facets,
}: {
  query: WaterQuery
  facets: Pick<ReturnType<typeof dueFacets>, 'areas' | 'owners'>
}) {
  const state: FormState = { typed: query.texts, errors: {} }
  return (
    <details className="no-print" open={query.filtered}>
      <summary>{query.filtered ? 'Filter (on)' : 'Filter by area or owner'}</summary>
      <form className="stack" action={paths.water()} method="get">
        {query.group ? <input type="hidden" name="group" value={query.group} /> : null}
        <div className="fields">
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
        </div>
        <div className="row">
          <button className="button" type="submit">
            Filter
          </button>
          {query.filtered ? (
            <Link href={paths.water()} prefetch={false}>
              Clear the filter
            </Link>
          ) : null}
        </div>
      </form>
    </details>
  )
}
