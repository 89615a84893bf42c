/** What the chart that is loaded on demand shows: `at` in ms since 1970. */
export type CloserSeries = { name: string; points: readonly { at: number; value: number }[] }
