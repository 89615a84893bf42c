export {
  type AkritasTheilSen,
  akritasTheilSen,
  type OpenSlope,
  seasonalAkritasTheilSen,
} from './akritas-theil-sen'
export type { AllNonDetect, Censored, CensoredPoint } from './censored'
export { type CensoredKendall, censoredKendall, seasonalCensoredKendall } from './censored-kendall'
export {
  type Crossing,
  type CrossingQuestion,
  crossingTime,
  type LineWithError,
  robustLine,
} from './crossing'
export { benjaminiHochberg, flagged } from './false-alarms'
export { type CensoredQuantile, type KaplanMeier, kaplanMeier, kaplanMeierQuantile } from './kaplan-meier'
export { EXACT_N_MAX, type KendallTest, kendallTest, type NormalTest } from './kendall'
export { exactKendallUpperTail } from './kendall-exact'
export { type LeastSquares, weightedLeastSquares } from './least-squares'
export { type Lowess, lowess } from './lowess'
export { mannKendall } from './mann-kendall'
export { MEMORY_N_MIN, type MemoryTest, mannKendallWithMemory } from './memory'
export { type ChangePoint, PETTITT_N_MIN, pettitt } from './pettitt'
export { ascending, atRank, median, medianAbsoluteDeviation, quantile } from './quantile'
export { type OrderSummary, regressionOnOrder } from './regression-on-order'
export { type NoRegression, type RobustRegression, robustRegression } from './robust-regression'
export type { SeasonalValue } from './season-cells'
export {
  COVARIANCE_YEARS_MIN,
  type DependentTest,
  type Heterogeneity,
  regionalKendall,
  type SeasonalKendall,
  seasonalKendall,
} from './seasonal-kendall'
export { type SeasonalSlope, seasonalSlope } from './seasonal-slope'
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
