/** Duties, meters, due dates and their ranking. Imports quantity and stats only. */
export * from './keys'
export * from './rank'
export * from './types'
