import type { Viewer } from '@/lib/access/viewer'
import { listParam, type Params, readWellsQuery, textParam } from '@/lib/forms/list-filters'
import type { Db } from '@/lib/records/db'
import { WELLS_AT_ONCE, wellsForBulk } from '@/lib/records/well-list'

/** The wells that an address or a form chooses: those ticked, or all that its search finds, up to a limit. */
export function chosenWells(db: Db, viewer: Viewer, params: Params) {
  const all = textParam(params, 'all') === '1'
  return wellsForBulk(
    db,
    viewer,
    all ? readWellsQuery(params).filter : listParam(params, 'ids').slice(0, WELLS_AT_ONCE),
  )
}

/** Which wells were chosen, as hidden fields: those ticked, or the search that finds them. */
export function chosenFields(params: Params): { name: string; value: string }[] {
  if (textParam(params, 'all') !== '1')
    return listParam(params, 'ids').map((value) => ({ name: 'ids', value }))
  const search = Object.entries(readWellsQuery(params).texts).map(([name, value]) => ({ name, value }))
  return [...search, { name: 'all', value: '1' }]
}
