/** Days, units, and the reading and writing of quantities. Imports nothing of ours. */
export * from './day'
export * from './format'
export * from './parse'
export * from './units'
