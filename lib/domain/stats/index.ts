export { akritasTheilSen, seasonalAkritasTheilSen } from './akritas-theil-sen'
export type { CensoredPoint } from './censored'
export { censoredKendall, seasonalCensoredKendall } from './censored-kendall'
export { crossingTime, type LineWithError, robustLine } from './crossing'
export { benjaminiHochberg, flagged } from './false-alarms'
export { kaplanMeier, kaplanMeierQuantile } from './kaplan-meier'
export { kendallTest } from './kendall'
export { exactKendallUpperTail } from './kendall-exact'
export { weightedLeastSquares } from './least-squares'
export { lowess } from './lowess'
export { mannKendall } from './mann-kendall'
export { mannKendallWithMemory } from './memory'
export { pettitt } from './pettitt'
export { median, medianAbsoluteDeviation, quantile } from './quantile'
export { regressionOnOrder } from './regression-on-order'
export { robustRegression } from './robust-regression'
export type { SeasonalValue } from './season-cells'
export { regionalKendall, seasonalKendall } from './seasonal-kendall'
export { seasonalSlope } from './seasonal-slope'
export { seededStream } from './seeded'
export { senSlope } from './sen'
export type { Point } from './shape'
export {
  chiSquareUpper,
  normalCdf,
  normalQuantile,
  normalTwoSidedP,
  normalUpper,
  tCdf,
  tQuantile,
} from './special'
