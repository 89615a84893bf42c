/** Why a test could not be used. Each has one sentence that tells a technician what to do. */
export type RefusalCode =
  | 'too-few'
  | 'time-not-increasing'
  | 'wrong-unit'
  | 'above-static'
  | 'below-bottom'
  | 'pump-running'
  | 'rose-then-fell'
  | 'no-recovery'
  | 'no-drawdown'
  | 'two-slopes'
  | 'poor-fit'
  | 'too-uncertain'
  | 'rate-unknown'
  | 'mass-balance'

export type Refused = { kind: 'refused'; code: RefusalCode; message: string }

/** One reading of a test: seconds since the pump stopped (or started), metres below the measuring point. */
export type LevelReading = { elapsedS: number; levelM: number }

/** A middle value with the ends of its 80 % interval, in the unit of the field that holds it. */
export type Interval80 = { value: number; low: number; high: number }

export const refuse = (code: RefusalCode, message: string): Refused => ({ kind: 'refused', code, message })

/** A level as people read it in a sentence. */
export const metres = (value: number): string => `${value.toFixed(2)} m`

/** A time span as people read it in a sentence: seconds, minutes, then hours. */
export function span(seconds: number): string {
  if (seconds < 120) return `${Math.round(seconds)} s`
  if (seconds < 7200) return `${(seconds / 60).toFixed(seconds < 600 ? 1 : 0)} min`
  return `${(seconds / 3600).toFixed(1)} h`
}
