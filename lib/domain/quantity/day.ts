/** Plain days as text 'YYYY-MM-DD': arithmetic (calendar) and reading and writing (day-text). */
export * from './calendar'
export * from './day-text'
