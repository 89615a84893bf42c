/** What a well's water standing says in plain words. Never "safe": what was tested, by whose limits, when, and what is not known. */
import { addMonths, type Day } from '@/lib/domain/quantity/day'
import { WATER_SETTINGS } from './appraise'
import { chainName } from './chain-marks'
import type { VerdictWord } from './types'

/** How it is marked on screen; a word and a shape stand beside the colour. */
export type WaterTone = 'alarm' | 'watch' | 'calm' | 'unsure'

export type WaterSaid = { tone: WaterTone; word: string; says: string }

export type WaterFacts = {
  verdict: VerdictWord
  /** Day of the last sample; null without one. */
  asOf: Day | null
  /** The older of the days of which bacteria and nitrate meet: a clear standing speaks from it. Null where either lacks. */
  restsOn: Day | null
  /** What happened since the last test that asks for a new one; null where nothing is known. */
  changed: { on: Day; words: string } | null
  schemeName: string
  /** Names of what is above a limit that decides. */
  exceeds: readonly string[]
  /** Open chains, the one that matters most first. */
  chains: readonly { key: string; openedOn: Day }[]
}

/**
 * The standing in a word and a sentence or two. `today` decides whether a clear result still speaks for the well;
 * `show` writes a day.
 */
export function sayWater(facts: WaterFacts, today: Day, show: (day: Day) => string): WaterSaid {
  const { verdict, asOf, chains } = facts
  if (chains.length > 0) return sayOpen(facts, show)
  if (asOf === null)
    return {
      tone: 'unsure',
      word: 'Never tested',
      says: 'No sample is on record. Nothing can be said about this water.',
    }
  switch (verdict) {
    case 'exceeds':
      return {
        tone: 'alarm',
        word: 'Above a limit',
        says: `${listed(facts.exceeds) || 'A result'} is above a limit of ${facts.schemeName} by the last test of it (last sample ${show(asOf)}).`,
      }
    case 'inconclusive':
      return {
        tone: 'watch',
        word: 'Cannot be said',
        says: `What was tested up to ${show(asOf)} does not settle it: see what is inconclusive and what to do.`,
      }
    case 'not-tested':
      return {
        tone: 'unsure',
        word: 'Not tested for all that counts',
        says: `The last sample is of ${show(asOf)}, and lacks something that must be tested before anything can be said.`,
      }
    case 'meets':
      return sayMeets(facts, asOf, today, show)
  }
}

function sayOpen({ chains }: WaterFacts, show: (day: Day) => string): WaterSaid {
  const named = chains.map(({ key, openedOn }) => `${chainName(key)} since ${show(openedOn)}`)
  return {
    tone: 'alarm',
    word: 'Not cleared',
    says: `${named.join('; ')}: not cleared yet. The notice to the household holds until it is.`,
  }
}

/** A clear result speaks for a well for a time only. */
function sayMeets(facts: WaterFacts, asOf: Day, today: Day, show: (day: Day) => string): WaterSaid {
  const from = speaksFrom({ ...facts, asOf })
  const met =
    from === asOf
      ? `The water met the limits of ${facts.schemeName} for what was tested, last on ${show(asOf)}.`
      : `The water met the limits of ${facts.schemeName} for what was tested. Bacteria and nitrate were both tested up to ${show(from)}; the last sample is of ${show(asOf)}.`
  if (isStale(from, today))
    return {
      tone: 'unsure',
      word: 'Tested too long ago',
      says: `${met} ${show(from)} is more than ${WATER_SETTINGS.freshMonths} months ago: that says nothing of the water now.`,
    }
  if (facts.changed !== null)
    return {
      tone: 'unsure',
      word: 'Not tested since it changed',
      says: `${met} Since then, on ${show(facts.changed.on)}: ${facts.changed.words}. Nothing is known of the water after that: test it again.`,
    }
  return {
    tone: 'calm',
    word: 'Met the limits, for what was tested',
    says: `${met} That says nothing of what was not tested.`,
  }
}

/** The day by which a standing is put in order: of its last sample, or, where it meets, the day it can be said to rest on. */
export function speaksFrom<T extends Day | null>(facts: {
  verdict: VerdictWord
  asOf: T
  restsOn: Day | null
}): T | Day {
  return facts.verdict === 'meets' && facts.restsOn !== null ? facts.restsOn : facts.asOf
}

/** The word by which lists put a well: one that met its limits before something changed is not among those that meet. */
export function groupedBy({ verdict, changed }: Pick<WaterFacts, 'verdict' | 'changed'>): VerdictWord {
  return verdict === 'meets' && changed !== null ? 'not-tested' : verdict
}

/** Whether a sample of that day is too old to speak for the water today. */
export function isStale(asOf: Day, today: Day): boolean {
  return asOf < freshFrom(today)
}

/** The first day of which a sample still speaks for the water on `today`. */
export function freshFrom(today: Day): Day {
  return addMonths(today, -WATER_SETTINGS.freshMonths)
}

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`
