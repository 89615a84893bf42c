import type { Day } from '@/lib/domain/quantity/day'
import type { BrushFinding } from './brush-findings'
import { type BrushQuestion, brushSetInPlace } from './brushes'
import { logMoments } from './forecast'

export type BrushCourse =
  | {
      kind: 'course'
      by: 'hours' | 'days'
      putInOn: Day
      /** One length a brush, m, by use since the set was put in (h, or days where hours are missing). */
      points: { on: Day; used: number; lengthsM: readonly number[] }[]
      /** Wear of each brush from new to its newest reading, m an hour (or day); null where it has not worn yet. */
      wearPerUse: (number | null)[]
      /** Use at which the shortest is expected at its minimum: the middle of the belief. */
      lifeUse: number
      /** Ends between which that use lies with 80 %. */
      lifeLow: number
      lifeHigh: number
      newM: number
      minimumM: number
      findings: BrushFinding[]
    }
  | { kind: 'cannot-say'; why: string }

/** Deviations of a normal belief from its middle to its tenth part. */
const TO_THE_TENTH = 1.2816

/**
 * What a chart of the brushes in place shows: each brush's lengths by use, and the line to the minimum length.
 * Answer  'cannot-say' where it is not recorded when the set was put in, or none of its lengths was read.
 * Throws  RangeError as forecastBrushes does.
 */
export function brushCourse(question: BrushQuestion): BrushCourse {
  const set = brushSetInPlace(question)
  if (!set) return { kind: 'cannot-say', why: 'it is not recorded when the brushes were put in' }
  const last = set.readings.at(-1)
  if (!last) return { kind: 'cannot-say', why: 'no length of this set was read since it was put in' }
  const life = logMoments(set.belief.life)
  return {
    kind: 'course',
    by: set.by,
    putInOn: set.startOn,
    points: set.readings.map(({ on, used, lengthsM }) => ({ on, used, lengthsM })),
    wearPerUse: last.lengthsM.map((lengthM) =>
      last.used > 0 && lengthM < question.newM ? (question.newM - lengthM) / last.used : null,
    ),
    lifeUse: Math.exp(life.mean),
    lifeLow: Math.exp(life.mean - TO_THE_TENTH * life.deviation),
    lifeHigh: Math.exp(life.mean + TO_THE_TENTH * life.deviation),
    newM: question.newM,
    minimumM: question.minimumM,
    findings: set.findings,
  }
}
