/** Pump, pipes and the parts that wear: what they take, how they age, and when they fall due. */

export { type BrushCourse, brushCourse } from './brush-course'
export * from './brush-rules'
export { type BrushQuestion, type BrushReading, forecastBrushes } from './brushes'
export { type CartridgeQuestion, forecastCartridge } from './cartridge'
export type { CartridgeEvent } from './cartridge-belief'
export { type CartridgeCourse, cartridgeCourse } from './cartridge-course'
export { changeCost, type LearnedInterval, learnedInterval } from './cartridge-interval'
export type { CartridgeReading } from './cartridge-runs'
export * from './fitted-parts'
export * from './fittings'
export {
  type FlowPoint,
  type FlowQuestion,
  flowPoints,
  forecastFlow,
} from './flow-course'
export { type Forecast, LATE_OVER_EARLY } from './forecast'
export * from './freeze'
export * from './friction'
export { forecastLift } from './lift-course'
export * from './models'
export { partRegister } from './part-register'
export * from './power'
export * from './prime'
export * from './pump-curve'
export * from './pump-evidence'
export * from './run-hours'
export * from './stock'
export * from './suction'
export * from './suction-year'
export * from './sun'
export * from './water-physics'
