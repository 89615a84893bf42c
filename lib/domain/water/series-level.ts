/** What a well usually holds of a substance, with non-detects as censored values: never as zero, never as half their limit. */
import { type CensoredPoint, kaplanMeier, kaplanMeierQuantile } from '@/lib/domain/stats'

/** 'below': it lies under the smallest amount that was measured, given as `value`. Home unit. */
export type LevelAt = { kind: 'value' | 'below'; value: number }

export type SeriesLevel =
  | { kind: 'level'; median: LevelAt; ninetieth: LevelAt; n: number; nonDetects: number; method: string }
  | { kind: 'all-non-detect'; n: number; lowestLimit: number; highestLimit: number }
  | { kind: 'too-few'; have: number; need: number }

const METHOD = 'Kaplan-Meier with non-detects at their reporting limits (Helsel 2012, ch. 6)'

/** Median and ninetieth percentile over all results of a well; three at least. */
export function seriesLevel(points: readonly CensoredPoint[]): SeriesLevel {
  const answer = kaplanMeier(points)
  if (answer.kind === 'too-few') return answer
  if (answer.kind === 'all-non-detect') {
    const limits = points.map(({ value }) => value)
    return {
      kind: answer.kind,
      n: answer.n,
      lowestLimit: Math.min(...limits),
      highestLimit: Math.max(...limits),
    }
  }
  return {
    kind: 'level',
    median: kaplanMeierQuantile(answer, 0.5),
    ninetieth: kaplanMeierQuantile(answer, 0.9),
    n: answer.n,
    nonDetects: answer.nonDetects,
    method: METHOD,
  }
}
