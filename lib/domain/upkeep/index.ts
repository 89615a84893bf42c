/** Duties, meters, due dates and their ranking. Imports quantity and stats only. */
export * from './crossing'
export * from './keys'
export * from './rank'
export * from './types'
export { trackUsage, usedSince } from './usage'
