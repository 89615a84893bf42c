/** How a well stands on the map: the worst of what is known, as one of six. */
export const MAP_STATUSES = ['warning', 'past', 'week', 'month', 'later', 'unknown'] as const
export type MapStatus = (typeof MAP_STATUSES)[number]

export const MAP_WORDS: Readonly<Record<MapStatus, string>> = {
  warning: 'water warning open',
  past: 'past due',
  week: 'due within a week',
  month: 'due within thirty days',
  later: 'due later',
  unknown: 'no due date known',
}

export const isMapStatus = (text: string): text is MapStatus => MAP_STATUSES.some((one) => one === text)

/** One well on a map. Degrees, north and east positive. `order` is its number on a round. */
export type MapPoint = {
  id: string
  label: string
  status: MapStatus
  latitude: number
  longitude: number
  order?: number
}
