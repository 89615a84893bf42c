type Shape = {
  /** Logarithm of the growth since new, at a use x on the law's own scale. */
  growthLog: (x: number) => number
  /** Its slope in x, where it has grown so much. */
  slope: (x: number, growthLog: number) => number
  reach: (growth: number) => number
}

/** Growth with the use to a power: 1 the cake of even dirt, below it one that slackens, above it one that packs. */
const power = (p: number): Shape => ({
  growthLog: (x) => Math.log1p(x ** p),
  slope: (x, grown) => (x > 0 ? (p * -Math.expm1(-grown)) / x : 0),
  reach: (g) => Math.max(0, g - 1) ** (1 / p),
})
/** Exponential growth of a share of the clean drop only: the rest is housing and pipe, which nothing blocks. */
const intermediate = (share: number): Shape => ({
  // Past e^300 a drop is none: no number is let grow beyond what can be reckoned with.
  growthLog: (x) => Math.log1p(share * Math.expm1(Math.min(x, 300))),
  slope: (_, grown) => 1 - (1 - share) * Math.exp(-grown),
  reach: (g) => Math.log1p((g - 1) / share),
})
/** The standard law ends at a use of 2, where nothing passes any more. */
const leftOpen = (x: number): number => 1 - Math.min(x / 2, 0.999)

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
  {
    growthLog: (x) => 2 * Math.log1p(x / 2),
    slope: (x) => 1 / (1 + x / 2),
    reach: (g) => 2 * (Math.sqrt(g) - 1),
    prior: 1 / 10,
  },
  { ...intermediate(1), prior: 1 / 10 },
  { ...intermediate(0.3), prior: 1 / 10 },
  { ...intermediate(0.1), prior: 1 / 10 },
  {
    growthLog: (x) => -2 * Math.log(leftOpen(x)),
    slope: (_, grown) => Math.exp(grown / 2),
    reach: (g) => 2 * (1 - 1 / Math.sqrt(g)),
    prior: 1 / 10,
  },
]
export const SHAPES: readonly Shape[] = FAMILIES
export const SHAPE_PRIOR: readonly number[] = FAMILIES.map(({ prior }) => prior)
/** Drop grows with flow to a power between 1 (seepage through the cake) and 2 (turbulence in the housing). */
export const FLOW_POWER = { mean: 1.4, deviation: 0.28 }
