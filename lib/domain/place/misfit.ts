/** Whether ties agree with each other, and which of them does not fit. */
import { chiSquareUpper } from '@/lib/domain/stats'
import { type FittedPoint, fitPoints, type Reach } from './fit'

/** `suspects` are the marks whose tie, left out, lets the others agree; the likeliest first. */
export type Misfit =
  | { kind: 'no-check'; why: string }
  | { kind: 'fits'; p: number; falseAlarm: number }
  | { kind: 'does-not-fit'; p: number; falseAlarm: number; suspects: string[]; why: string }

/**
 * Tests the ties against each other.
 *
 * Method  the sum of squared misfits over their variances is chi-square with (ties - 2) degrees of freedom when
 *         every tape is as good as it is said to be; below the chance `falseAlarm` the ties are said not to fit.
 *         Then each tie is left out in turn. Suspect is one whose absence lets the rest pass the same test.
 * Answer  'no-check' for two ties: they always meet or never. With three ties any one may be the wrong one (each two
 *         of them meet), and all three are named; a fourth tie or a coordinate tells them apart.
 * Source  the global test and data snooping of W. Baarda 1968; leaving out one at a time is the same for one blunder.
 */
export function misfittingTies(
  reaches: readonly Reach[],
  best: FittedPoint,
  { falseAlarm }: { falseAlarm: number },
): Misfit {
  if (best.p === null) {
    return {
      kind: 'no-check',
      why: 'Two ties always meet: a slip in one cannot be seen. A third tie would check them.',
    }
  }
  if (best.p >= falseAlarm) return { kind: 'fits', p: best.p, falseAlarm }
  const suspects = reaches
    .map((left) => ({ mark: left.mark, rest: fitPoints(reaches.filter((r) => r !== left))[0] }))
    .filter(({ rest }) => rest !== undefined && (rest.spare === 0 || chanceOf(rest) >= falseAlarm))
    .sort((a, b) => (a.rest?.chiSquare ?? 0) - (b.rest?.chiSquare ?? 0))
    .map(({ mark }) => mark)
  return { kind: 'does-not-fit', p: best.p, falseAlarm, suspects, why: misfitWords(suspects, reaches.length) }
}

const chanceOf = (fitted: FittedPoint) => chiSquareUpper(fitted.chiSquare, fitted.spare)

function misfitWords(suspects: readonly string[], ties: number): string {
  const [only, ...more] = suspects
  if (only === undefined)
    return 'The ties do not fit each other, and more than one must be wrong: measure all again.'
  if (more.length === 0) return `The tie from "${only}" does not fit the others: measure it again.`
  const named = `${[only, ...more.slice(0, -1)].map((m) => `"${m}"`).join(', ')} or "${more.at(-1)}"`
  const hint = ties === 3 ? ' Three ties cannot tell which: a fourth, or a good coordinate, would.' : ''
  return `The ties do not fit each other: the one from ${named} is wrong.${hint}`
}
