import { ANALYTES } from '@/lib/domain/water/analytes'
import type { unitLists } from '@/lib/forms/sheet/units'

/** What the fields of a sheet suggest while one types: analytes with their other names, and units. */
export function SheetLists({ lists }: { lists: ReturnType<typeof unitLists>['lists'] }) {
  return (
    <>
      <datalist id="analytes">
        {ANALYTES.map(({ id, name, synonyms }) => (
          <option key={id} value={name} label={synonyms.slice(0, 2).join(', ') || undefined} />
        ))}
      </datalist>
      {lists.map(({ id, units }) => (
        <datalist key={id} id={id}>
          {units.map((unit) => (
            <option key={unit} value={unit} />
          ))}
        </datalist>
      ))}
    </>
  )
}
