import type { Day } from '@/lib/domain/quantity/day'
import type { WaterStanding } from '@/lib/domain/water/appraise'

/** An open chain after a positive, as banners show it. */
export type ChainSummary = { key: string; name: string; openedOn: Day; next: string }

/** What lists and the well page say of a well's water; the whole standing is reckoned where it is shown. */
export type WaterSummary = Pick<WaterStanding, 'verdict' | 'asOf' | 'schemeName' | 'edition'> & {
  /** Names of the analytes above a limit that decides. */
  exceeds: string[]
  /** Open chains, the one that matters most first. */
  chains: ChainSummary[]
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
    chains: ordered.map(({ key, name, opened, steps }) => ({
      key,
      name,
      openedOn: opened.on,
      next: steps.find(({ state }) => state === 'next')?.text ?? '',
    })),
  }
}
