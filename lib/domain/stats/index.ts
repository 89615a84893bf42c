export { benjaminiHochberg, flagged } from './false-alarms'
export { EXACT_N_MAX, type KendallTest, kendallTest } from './kendall'
export { exactKendallUpperTail } from './kendall-exact'
export { mannKendall } from './mann-kendall'
export { ascending, atRank, median, medianAbsoluteDeviation, quantile } from './quantile'
export { seededStream } from './seeded'
export { type SenSlope, type SlopeLimits, senSlope } from './sen'
export type { Point, TooFew } from './shape'
export {
  chiSquareUpper,
  normalCdf,
  normalQuantile,
  normalTwoSidedP,
  normalUpper,
  tCdf,
  tQuantile,
} from './special'
