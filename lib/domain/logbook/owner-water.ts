import type { WaterSummary } from '@/lib/domain/logbook/water-summary'
import type { Day } from '@/lib/domain/quantity/day'
import { isStale, speaksFrom, type WaterTone } from '@/lib/domain/water/standing-words'
import type { Standing } from './appraise'
import { isSampling } from './water-due'

/**
 * Whether the water is fit, and since when, for its household: short words that claim no more than `sayWater` does for the
 * office. Never "safe": a test speaks of what was tested, on the day it was taken.
 */
export function sayWaterToOwner(
  water: WaterSummary,
  today: Day,
  show: (day: Day) => string,
): { tone: WaterTone; word: string; says: string } {
  const { asOf, chains, verdict, changed } = water
  const [chain] = chains
  if (chain)
    return {
      tone: 'alarm',
      word: 'Not fit to drink, as far as is known',
      says: `A bad test result is open since ${show(chain.openedOn)}. Do what the warning on this page says until new tests are clear.`,
    }
  if (asOf === null)
    return {
      tone: 'unsure',
      word: 'Nobody knows: never tested',
      says: 'No test of this water is on record. Have it tested before you drink it.',
    }
  if (verdict === 'exceeds')
    return {
      tone: 'alarm',
      word: 'Above a limit',
      says: `The last test found too much of this: ${water.exceeds.join(', ')}. The last sample was taken on ${show(asOf)}. Ask the outfit what to do before you drink it.`,
    }
  if (verdict !== 'meets')
    return {
      tone: verdict === 'inconclusive' ? 'watch' : 'unsure',
      word: 'Cannot be said yet',
      says: `The last sample was taken on ${show(asOf)}. It does not answer all that counts. The water needs one more test.`,
    }
  const from = speaksFrom({ verdict, asOf, restsOn: water.restsOn })
  const met = `On ${show(from)} the water met the limits for what was tested.`
  if (isStale(from, today))
    return {
      tone: 'unsure',
      word: 'Tested too long ago',
      says: `${met} That is too long ago to speak for the water you drink today. Have it tested.`,
    }
  if (changed !== null)
    return {
      tone: 'unsure',
      word: 'Not tested since it changed',
      says: `${met} Then, on ${show(changed.on)}, this happened: ${changed.words}. Nobody knows how the water is since. Have it tested before you drink it.`,
    }
  return {
    tone: 'calm',
    word: `Met the limits on ${show(from)}`,
    says: `${met} That says nothing of what was not tested. If it tastes, smells or looks odd, stop drinking it and test it again.`,
  }
}

/** The next test of the water that has a day. */
export function nextTest({
  duties,
  waterItems,
}: Pick<Standing, 'duties' | 'waterItems'>): { on: Day } | null {
  const days = [...duties, ...waterItems].flatMap(({ key, due }) =>
    due !== null && isSampling(key) ? [due] : [],
  )
  const [on] = days.sort()
  return on === undefined ? null : { on }
}
