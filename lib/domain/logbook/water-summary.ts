import type { Day } from '@/lib/domain/quantity/day'
import type { WaterStanding } from '@/lib/domain/water/appraise'
import type { Chain } from '@/lib/domain/water/chain'
import { type NoticeKind, noticeKind } from '@/lib/domain/water/notice'
import { groupedBy, speaksFrom } from '@/lib/domain/water/standing-words'

/** An open chain after a positive, as banners show it. */
export type ChainSummary = {
  key: string
  name: string
  openedOn: Day
  /** The next step in one sentence, and the first day on which it can be done, where it has to wait. */
  next: string
  earliest: Day | null
  /** The notice the household must have while it is open. */
  notice: NoticeKind
  /** Set where bacteria came back after a disinfection: the well has a fault. */
  fault: string | null
}

/** What lists and the well page say of a well's water; the whole standing is reckoned where it is shown. */
export type WaterSummary = Pick<
  WaterStanding,
  'verdict' | 'asOf' | 'restsOn' | 'changed' | 'schemeName' | 'edition'
> & {
  /** Names of the analytes above a limit that decides. */
  exceeds: string[]
  /** Open chains, the one that matters most first. */
  chains: ChainSummary[]
  /** The strictest notice of the open chains; null where none is open. */
  notice: NoticeKind | null
}

/**
 * The pieces of the water list of a fleet. They do not depend on the day, so that they can be stored; 'met' falls apart
 * into what still speaks for a well and what is too long ago by the day of its sample.
 */
export const WATER_PIECES = [
  'chain-bacteria',
  'chain-nitrate',
  'chain-other',
  'exceeds',
  'inconclusive',
  'gaps',
  'never',
  'met',
] as const
export type WaterPiece = (typeof WATER_PIECES)[number]

/** The one piece that a well is in, and the day by which the piece is ordered: chain opened, last sample, or what a clear standing rests on; '' for none. */
export function waterPlace(water: WaterPlaceFacts): { piece: WaterPiece; on: Day | '' } {
  const [chain] = water.chains
  if (chain) return { piece: chainPiece(chain.key), on: chain.openedOn }
  if (water.asOf === null) return { piece: 'never', on: '' }
  return { piece: VERDICT_PIECES[groupedBy(water)], on: speaksFrom({ ...water, asOf: water.asOf }) }
}

export type WaterPlaceFacts = Pick<WaterSummary, 'verdict' | 'asOf' | 'restsOn' | 'changed'> & {
  chains: readonly Pick<ChainSummary, 'key' | 'openedOn'>[]
}

const VERDICT_PIECES: Readonly<Record<WaterSummary['verdict'], WaterPiece>> = {
  exceeds: 'exceeds',
  inconclusive: 'inconclusive',
  'not-tested': 'gaps',
  meets: 'met',
}

function chainPiece(key: string): WaterPiece {
  return key === 'bacteria' || key === 'nitrate' ? `chain-${key}` : 'chain-other'
}

/** The part of a water standing that is stored with the well. */
export function summarizeWater(standing: WaterStanding): WaterSummary {
  const { verdict, asOf, restsOn, changed, schemeName, edition, findings, chain, chains } = standing
  const exceeds = findings
    .filter((each) => each.decides && each.verdict === 'exceeds')
    .map(({ name }) => name)
  const open = chains.filter(({ closed }) => closed === null)
  const ordered = chain ? [chain, ...open.filter(({ key }) => key !== chain.key)] : open
  return {
    verdict,
    asOf,
    restsOn,
    changed,
    schemeName,
    edition,
    exceeds: [...new Set(exceeds)],
    chains: ordered.map(summarizeChain),
    notice: ordered.length === 0 ? null : noticeKind(ordered.map(({ key }) => key)),
  }
}

function summarizeChain({ key, name, opened, steps, notice, fault }: Chain): ChainSummary {
  const next = steps.find(({ state }) => state === 'next')
  return {
    key,
    name,
    openedOn: opened.on,
    next: next?.text ?? '',
    earliest: next?.earliest ?? null,
    notice,
    fault: fault?.text ?? null,
  }
}
