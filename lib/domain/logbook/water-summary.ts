import type { Day } from '@/lib/domain/quantity/day'
import type { WaterStanding } from '@/lib/domain/water/appraise'
import type { Chain } from '@/lib/domain/water/chain'
import { type NoticeKind, noticeKind } from '@/lib/domain/water/notice'

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
export type WaterSummary = Pick<WaterStanding, 'verdict' | 'asOf' | 'schemeName' | 'edition'> & {
  /** Names of the analytes above a limit that decides. */
  exceeds: string[]
  /** Open chains, the one that matters most first. */
  chains: ChainSummary[]
  /** The strictest notice of the open chains; null where none is open. */
  notice: NoticeKind | null
}

/** The part of a water standing that is stored with the well. */
export function summarizeWater(standing: WaterStanding): WaterSummary {
  const { verdict, asOf, schemeName, edition, findings, chain, chains } = standing
  const exceeds = findings
    .filter((each) => each.decides && each.verdict === 'exceeds')
    .map(({ name }) => name)
  const open = chains.filter(({ closed }) => closed === null)
  const ordered = chain ? [chain, ...open.filter(({ key }) => key !== chain.key)] : open
  return {
    verdict,
    asOf,
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
