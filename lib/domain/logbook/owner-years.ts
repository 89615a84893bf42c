import { type Day, dayOfYear, daysBetween, yearOf } from '@/lib/domain/quantity/day'
import type { CurrentFact } from './entries'

/** The water level at rest on a day, m below the measuring point. */
export type RestLevel = { on: Day; levelM: number }
export type YearOfLevels = { year: number; readings: number; shallowestM: number; deepestM: number }

/** Readings within so many days of the same day of other years are of the same season. House rule, no published source. */
const SEASON_DAYS = 45
const DAYS_A_YEAR = 365
/** An older reading says nothing of this year. */
const FRESH_DAYS = 180

/** Every level at rest of a logbook, oldest first: readings, and what tests began from. */
export function restLevels(facts: readonly CurrentFact[]): RestLevel[] {
  return facts.flatMap(({ fact, on }) => {
    if (fact.kind === 'level-reading') return fact.state === 'rest' ? [{ on, levelM: fact.level.si }] : []
    if (fact.kind !== 'recovery-test' && fact.kind !== 'drawdown-test' && fact.kind !== 'step-test') return []
    return fact.static ? [{ on, levelM: fact.static.si }] : []
  })
}

/** The levels year by year, newest first. */
export function levelsByYear(levels: readonly RestLevel[]): YearOfLevels[] {
  const years = new Map<number, YearOfLevels>()
  for (const { on, levelM } of levels) {
    const year = yearOf(on)
    const known = years.get(year) ?? { year, readings: 0, shallowestM: levelM, deepestM: levelM }
    years.set(year, {
      year,
      readings: known.readings + 1,
      shallowestM: Math.min(known.shallowestM, levelM),
      deepestM: Math.max(known.deepestM, levelM),
    })
  }
  return [...years.values()].sort((a, b) => b.year - a.year)
}

/**
 * How the last level at rest compares with the same season of other years, in plain words. `show` writes a length, `showDay`
 * a day. Says so where there is too little to compare: one other year is weather, not a rule.
 */
export function sayYears(
  levels: readonly RestLevel[],
  today: Day,
  show: (levelM: number) => string,
  showDay: (day: Day) => string,
): string {
  const last = levels.at(-1)
  if (!last) return 'Nobody has read yet how deep the water stands in your well.'
  const stands = `On ${showDay(last.on)} the water stood ${below(last.levelM, show)}.`
  if (daysBetween(last.on, today) > FRESH_DAYS)
    return `${stands} That is too long ago to say how this year goes.`
  const others = levels.filter(
    ({ on }) =>
      yearOf(on) !== yearOf(last.on) && daysBetween(on, last.on) > DAYS_A_YEAR / 2 && sameSeason(on, last.on),
  )
  const years = new Set(others.map(({ on }) => yearOf(on))).size
  if (years < 2) return `${stands} There are too few other years to hold it against.`
  const depths = others.map(({ levelM }) => levelM)
  const [high, low] = [Math.min(...depths), Math.max(...depths)]
  const range = `At this time of year it stood ${between(high, low, show)} before (${years} years).`
  if (last.levelM > low) return `${stands} ${range} So it is lower than it was before. Use water with care.`
  if (last.levelM < high) return `${stands} ${range} So it is higher than it was before.`
  return `${stands} ${range} So this year is much like the others.`
}

function sameSeason(a: Day, b: Day): boolean {
  const apart = Math.abs(dayOfYear(a) - dayOfYear(b))
  return Math.min(apart, DAYS_A_YEAR - apart) <= SEASON_DAYS
}

/** A flowing well stands above its measuring point. */
const below = (levelM: number, show: (levelM: number) => string) =>
  levelM < 0 ? `${show(-levelM)} above the mark` : `${show(levelM)} down`

function between(high: number, low: number, show: (levelM: number) => string): string {
  const [first, second] = [below(high, show), below(low, show)]
  return first === second ? first : `between ${first} and ${second}`
}
