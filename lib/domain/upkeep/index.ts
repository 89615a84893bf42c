/** Duties, meters, due dates and their ranking. Imports quantity and stats only. */
export * from './crossing'
export * from './duty-due'
export * from './keys'
export * from './library'
export * from './question'
export * from './rank'
export * from './types'
export { trackUsage, usedSince } from './usage'
