import type { TrueCause } from './score'

/** How a loss goes on from its first day: straight, by the same part each year, ever faster, or all at once. */
export type LossShape = 'linear' | 'exponential' | 'accelerating' | 'sudden'

type Range = [number, number]

/** What a fleet is made of; ranges are drawn from evenly, a well at a time. Levels in m, times in years. */
export type FleetSettings = {
  wells: number
  seed: number
  years: Range
  visitsPerYear: Range
  shares: Record<TrueCause, number>
  ratePerYear: Range
  shapes: LossShape[]
  tableFallMPerYear: Range
  /** Power of the saturated thickness that capacity follows. */
  exponent: Range
  swingM: Range
  weatherSdM: Range
  weatherMemoryYears: Range
  flowNoise: number
  /** Share of the variance of flow that is real (a pump that varies) rather than a misread bucket. */
  flowNoiseReal: number
  levelNoiseM: number
  /** Noise of capacity itself from visit to visit, relative. */
  capacityNoise: number
  /** One reading in ten has three times the noise. */
  heavyTails: boolean
  /** Relative swing of capacity itself with the season (cold water is stiffer), half from top to bottom. */
  capacitySeason: Range
  /** Part of the drawdown that grows with the square of the flow. */
  turbulentPart: Range
  missingStatics: number
  blunders: number
  /** Change of capacity for each e-fold of pumping time. */
  durationEffect: number
  /** Part of the wells with a worn pump whose pump is replaced later. */
  pumpsReplaced: number
  /** Demand as a part of what the new well carries at its seasonal low. */
  demandPart: Range
}

/** The plain world: what a small outfit's shallow wells are like. */
export const WORLD: FleetSettings = {
  wells: 500,
  seed: 1,
  years: [3, 12],
  visitsPerYear: [1, 6],
  shares: { steady: 0.35, clogging: 0.25, watertable: 0.15, pump: 0.1, rehabilitated: 0.15 },
  ratePerYear: [0.03, 0.2],
  shapes: ['linear', 'exponential'],
  tableFallMPerYear: [0.05, 0.4],
  exponent: [0.3, 1.2],
  swingM: [0.3, 2],
  weatherSdM: [0.1, 0.3],
  weatherMemoryYears: [0.1, 0.5],
  flowNoise: 0.05,
  flowNoiseReal: 0,
  levelNoiseM: 0.02,
  capacityNoise: 0.01,
  heavyTails: false,
  capacitySeason: [0, 0],
  turbulentPart: [0, 0],
  missingStatics: 0.08,
  blunders: 0.02,
  durationEffect: -0.08,
  pumpsReplaced: 0,
  demandPart: [0.5, 0.95],
}

/** Worlds that differ from the plain one, so that nothing is tuned to a single kind of fleet. */
export const WORLDS: Record<string, Partial<FleetSettings>> = {
  plain: {},
  'deep-fed (capacity does not follow the level)': { exponent: [0, 0] },
  'thin (capacity follows the level closely)': { exponent: [1.2, 2] },
  'noisy readings': { flowNoise: 0.1, levelNoiseM: 0.04, capacityNoise: 0.03, heavyTails: true },
  'pumps that vary': { flowNoise: 0.08, flowNoiseReal: 1 },
  'few visits, long records': { years: [8, 25], visitsPerYear: [0.8, 1.5] },
  'many visits, short records': { years: [1.5, 5], visitsPerYear: [6, 14] },
  'careless keeping': { missingStatics: 0.35, blunders: 0.06 },
  'wild water table': {
    swingM: [1, 4],
    weatherSdM: [0.25, 0.6],
    weatherMemoryYears: [0.3, 2],
    tableFallMPerYear: [0.1, 0.6],
  },
  'slow losses': { ratePerYear: [0.015, 0.06], years: [6, 20] },
  'fast losses': { ratePerYear: [0.15, 0.45] },
  'odd losses': { shapes: ['accelerating', 'sudden'] },
  'cold water, turbulent screens': { capacitySeason: [0.02, 0.08], turbulentPart: [0.1, 0.4] },
  'all tests of an hour, pumps replaced': { durationEffect: 0, pumpsReplaced: 0.8 },
}
