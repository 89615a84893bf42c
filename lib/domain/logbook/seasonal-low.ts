import { addDays, type Day } from '@/lib/domain/quantity/day'
import type { CurrentFact } from './entries'

export type SeasonalLow =
  | {
      kind: 'low'
      levelM: number
      on: Day
      /** Levels at rest that were looked at, and in how many of the twelve months they were read. */
      readings: number
      months: number
      since: Day
    }
  | { kind: 'cannot-say'; message: string }

const YEARS = 3

/**
 * The deepest level at rest of the three years up to `asOf`: the season in which a rate must still hold. With few
 * readings, or few months, the true low lies deeper; the counts are told so that a reader can see it.
 *
 * Shape   facts that hold, in any order. Levels at rest are those read alone and those read before a test.
 * Answer  m below the measuring point, or 'cannot-say' where nothing was read at rest.
 */
export function seasonalLow(facts: readonly CurrentFact[], asOf: Day): SeasonalLow {
  const since = addDays(asOf, -YEARS * 365)
  const levels = facts.flatMap(({ fact, on }) => {
    const level = restLevel(fact)
    return level === null || on < since || on > asOf ? [] : [{ on, levelM: level }]
  })
  const deepest = levels.reduce<(typeof levels)[number] | null>(
    (most, one) => (most === null || one.levelM > most.levelM ? one : most),
    null,
  )
  if (!deepest) {
    return {
      kind: 'cannot-say',
      message: `No level at rest was read in the ${YEARS} years before: read it at the dry end of the season.`,
    }
  }
  const months = new Set(levels.map(({ on }) => on.slice(5, 7))).size
  return { kind: 'low', ...deepest, readings: levels.length, months, since }
}

function restLevel(fact: CurrentFact['fact']): number | null {
  switch (fact.kind) {
    case 'level-reading':
      return fact.state === 'rest' ? fact.level.si : null
    case 'recovery-test':
    case 'drawdown-test':
    case 'step-test':
      return fact.static?.si ?? null
    default:
      return null
  }
}
