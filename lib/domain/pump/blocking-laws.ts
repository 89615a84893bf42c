import type { Weighted } from './forecast'

type Shape = { growth: (x: number) => number; reach: (g: number) => number }

/** Growth with the use to a power: 1 the cake of even dirt, below it one that slackens, above it one that packs. */
const power = (p: number): Shape => ({
  growth: (x) => 1 + x ** p,
  reach: (g) => Math.max(0, g - 1) ** (1 / p),
})
/** Exponential growth of a share of the clean drop only: the rest is housing and pipe, which nothing blocks. */
const intermediate = (share: number): Shape => ({
  growth: (x) => 1 + share * Math.expm1(x),
  reach: (g) => Math.log1p((g - 1) / share),
})

/**
 * How drop grows with use, as a factor on the clean drop. `reach` is the inverse: the use at which a factor is reached.
 *
 * Constant-rate blocking laws of Hermia (1982, Trans. IChemE 60:183-187), dP/dV = k P^m: cake m = 0 (straight line),
 * m = 1/2, intermediate m = 1 (exponential), standard m = 3/2. Beside them a power of the use, for dirt that is mixed or
 * a cake that packs, and the intermediate law on a part of the clean drop. Which one a cartridge follows depends on its
 * sediment: all are carried, and the readings weigh them (model averaging: Hoeting et al. 1999, Statistical Science
 * 14:382-417; both from memory).
 */
const FAMILIES: readonly (Shape & { prior: number })[] = [
  // Half the belief lies evenly over the exponent's logarithm, half evenly over the other laws.
  { ...power(0.7), prior: 1 / 16 },
  { ...power(0.85), prior: 1 / 16 },
  { ...power(1), prior: 1 / 16 },
  { ...power(1.25), prior: 1 / 16 },
  { ...power(1.6), prior: 1 / 16 },
  { ...power(2), prior: 1 / 16 },
  { ...power(2.5), prior: 1 / 16 },
  { ...power(3.2), prior: 1 / 16 },
  { growth: (x) => (1 + x / 2) ** 2, reach: (g) => 2 * (Math.sqrt(g) - 1), prior: 1 / 10 },
  { ...intermediate(1), prior: 1 / 10 },
  { ...intermediate(0.3), prior: 1 / 10 },
  { ...intermediate(0.1), prior: 1 / 10 },
  {
    growth: (x) => (1 - Math.min(x / 2, 0.999)) ** -2,
    reach: (g) => 2 * (1 - 1 / Math.sqrt(g)),
    prior: 1 / 10,
  },
]
export const SHAPES: readonly Shape[] = FAMILIES
export const SHAPE_PRIOR: readonly number[] = FAMILIES.map(({ prior }) => prior)
/** Drop grows with flow to a power between 1 (seepage through the cake) and 2 (turbulence in the housing). */
export const FLOW_POWER = { mean: 1.4, deviation: 0.28 }

/** One law at one rate that the readings leave open, and how much of the belief stands on it. */
export type LoadLaw = {
  weight: number
  shape: number
  /** Power of flow: the middle of what the readings leave open. */
  power: number
  scale: number
  /** Logarithm of the clean drop, and the deviation with which the readings leave it open. */
  cleanLog: number
  cleanDeviation: number
  scatter: number
}

/** Logarithm of the drop in Pa that a law expects at a use, at the reference flow. */
export function dropLogOf(law: LoadLaw, used: number): number {
  return law.cleanLog + Math.log(SHAPES[law.shape]?.growth(law.scale * used) ?? 1)
}

/** Middle and ends of a doubt that is normal, as three parts with its mean and spread (Gauss-Hermite). */
export const THREE_PARTS = [
  { z: -Math.sqrt(3), share: 1 / 6 },
  { z: 0, share: 2 / 3 },
  { z: Math.sqrt(3), share: 1 / 6 },
]

/** Use at the terminal drop, once for each part of the doubt about the clean drop and the reference flow. */
export function limitsOf(law: LoadLaw, terminalLog: number, flowDoubt: number): Weighted[] {
  const reach = SHAPES[law.shape]?.reach
  if (!reach) return []
  const doubt = Math.hypot(law.power * flowDoubt, law.cleanDeviation)
  return THREE_PARTS.map(({ z, share }) => {
    const growth = Math.exp(terminalLog + z * doubt - law.cleanLog)
    return { value: reach(Math.max(1.0001, growth)) / law.scale, weight: law.weight * share }
  })
}
