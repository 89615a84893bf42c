/**
 * What is taken as known beforehand about wells, stated once. Common practice and wide on purpose, no published
 * source: each is a starting belief that a handful of readings outweighs.
 */

/** Static level: m and years. */
export const TABLE = {
  /** Weather beside the season: spread, and how long a wet or dry spell lasts (tried side by side). */
  weatherSdM: 0.2,
  memoriesYears: [0.06, 0.3, 1.2],
  /** What two readings a day apart differ by. */
  freshSdM: 0.04,
  readingSdM: 0.02,
  noiseWeight: 4,
  fall: { mean: 0.15, sd: 0.15, low: 0.02, high: 2 },
  onsets: 10,
  fromStart: 0.25,
  oddsBeforehand: 0.4,
}

/** The pump's flow: logarithms of m³/s, per year. */
export const FLOW = {
  readingSd: 0.05,
  noiseWeight: 4,
  /** How much less a pump gives for a metre more of lift. */
  sagPerM: { mean: -0.02, sd: 0.015 },
  wear: { mean: 0.1, sd: 0.07, low: 0.02, high: 1 },
  onsets: 12,
  fromStart: 0.2,
  oddsBeforehand: 0.15,
}

/** Specific capacity: logarithms of m²/s, per year. */
export const CAPACITY = {
  /** What capacity itself varies by from visit to visit beside the noise of the levels. */
  visitSd: 0.015,
  levelSdM: 0.02,
  noiseSd: 0.03,
  noiseWeight: 2,
  /** How far filled-in static levels may be off together. */
  fillSdM: 0.15,
  /** How far the table may be off, and go on to move, since a static level was last read. */
  unseenSdM: 0.2,
  unseenSdMPerYear: 0.25,
  /** Season of capacity itself: water at 5 °C is a third stiffer than at 15 °C (handbook viscosities, from memory). */
  seasonSd: 0.02,
  /** Power of the saturated thickness: 0 where deep water feeds the well, 1 and over where thin layers run dry. */
  thicknessPower: { mean: 0.6, sd: 0.4 },
  /** Change of capacity for each e-fold of pumping time. */
  duration: { mean: -0.08, sd: 0.04 },
  /** How much of a surprise in the flow reading is real: 0 a misread bucket, 1 a pump that varies. */
  flowReal: { mean: 0.35, sd: 0.4 },
  loss: { mean: 0.1, sd: 0.08, low: 0.015, high: 1 },
  onsets: 16,
  fromStart: 0.15,
  fromRehabilitation: 0.5,
  oddsBeforehand: 0.4,
  oddsAfterRehabilitation: 2,
}

/**
 * The flag's extra margin in log odds, for what the model does not know, and the log odds that the visits before the
 * last must show by themselves; set on invented fleets, see tests/sim.
 */
export const FLAG = { margin: 0.4, before: -1 }
