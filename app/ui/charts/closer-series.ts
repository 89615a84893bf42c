/** What the chart that is loaded on demand shows: `at` in ms since 1970, or the use where that is what the axis counts. */
export type CloserSeries = { name: string; points: readonly { at: number; value: number }[] }
