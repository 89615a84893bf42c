import { type Params, textParam } from './list-filters'

/** The groups of the water view: those of the wells, and the samples that fall due. */
export const WATER_VIEW_GROUPS = [
  'chain',
  'exceeds',
  'inconclusive',
  'due',
  'gaps',
  'never',
  'stale',
  'meets',
] as const
export type WaterViewGroup = (typeof WATER_VIEW_GROUPS)[number]

export type WaterQuery = {
  filter: { area?: string; ownerId?: string }
  /** The one group asked for, or null for all of them. */
  group: WaterViewGroup | null
  after: string | null
  texts: { area: string; owner: string }
  filtered: boolean
}

/** The water view that an address asks for. Anything unknown in it is left aside. */
export function readWaterQuery(params: Params): WaterQuery {
  const texts = { area: textParam(params, 'area'), owner: textParam(params, 'owner') }
  return {
    filter: { area: texts.area || undefined, ownerId: texts.owner || undefined },
    group: WATER_VIEW_GROUPS.find((known) => known === textParam(params, 'group')) ?? null,
    after: textParam(params, 'after') || null,
    texts,
    filtered: texts.area !== '' || texts.owner !== '',
  }
}
