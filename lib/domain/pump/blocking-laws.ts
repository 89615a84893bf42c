import type { Weighted } from './forecast'

/**
 * How drop grows with use, as a factor on the clean drop. `reach` is the inverse: the use at which a factor is reached.
 *
 * Constant-rate blocking laws of Hermia (1982, Trans. IChemE 60:183-187), dP/dV = k P^m: cake m = 0 (straight line),
 * m = 1/2, intermediate m = 1 (exponential), standard m = 3/2; and a cake that packs as it grows (a slow start, then
 * with the square). Which one a cartridge follows depends on its sediment: all are carried until the readings speak.
 */
export const SHAPES = [
  { growth: (x: number) => 1 + x, reach: (g: number) => g - 1 },
  { growth: (x: number) => 1 + x * x, reach: (g: number) => Math.sqrt(Math.max(0, g - 1)) },
  // Between and beyond the named laws, as mixed sediment has it: a long quiet start, and a rise that slackens.
  { growth: (x: number) => 1 + x ** 3, reach: (g: number) => Math.cbrt(Math.max(0, g - 1)) },
  { growth: (x: number) => 1 + x ** 0.75, reach: (g: number) => Math.max(0, g - 1) ** (1 / 0.75) },
  { growth: (x: number) => (1 + x / 2) ** 2, reach: (g: number) => 2 * (Math.sqrt(g) - 1) },
  { growth: (x: number) => Math.exp(x), reach: (g: number) => Math.log(g) },
  {
    growth: (x: number) => (1 - Math.min(x / 2, 0.999)) ** -2,
    reach: (g: number) => 2 * (1 - 1 / Math.sqrt(g)),
  },
]
export const SHAPE_PRIOR = [0.2, 0.2, 0.13, 0.06, 0.11, 0.2, 0.1]
/** Drop grows with flow to a power between 1 (seepage through the cake) and 2 (turbulence in the housing). */
export const POWERS = [1, 1.3, 1.6, 1.9]
export const POWER_PRIOR = [0.2, 0.35, 0.3, 0.15]

/** One law that the readings leave open, and how much of the belief stands on it. */
export type LoadLaw = {
  weight: number
  shape: number
  power: number
  scale: number
  cleanLog: number
  scatter: number
}

/** Logarithm of the drop in Pa that a law expects at a use, at the reference flow. */
export function dropLogOf(law: LoadLaw, used: number): number {
  return law.cleanLog + Math.log(SHAPES[law.shape]?.growth(law.scale * used) ?? 1)
}

/** Middle and ends of a doubt that is normal, as three parts with its mean and spread. */
export const THREE_PARTS = [
  { z: -Math.sqrt(3), share: 1 / 6 },
  { z: 0, share: 2 / 3 },
  { z: Math.sqrt(3), share: 1 / 6 },
]

/** Use at the terminal drop, once for each part of the doubt about the reference flow. */
export function limitsOf(law: LoadLaw, terminalLog: number, flowDoubt: number): Weighted[] {
  const reach = SHAPES[law.shape]?.reach
  if (!reach) return []
  const parts = flowDoubt > 0 ? THREE_PARTS : [{ z: 0, share: 1 }]
  return parts.map(({ z, share }) => {
    const growth = Math.exp(terminalLog + (POWERS[law.power] ?? 1) * z * flowDoubt - law.cleanLog)
    return { value: reach(Math.max(1.0001, growth)) / law.scale, weight: law.weight * share }
  })
}
