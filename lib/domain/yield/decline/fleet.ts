import { flagged } from '@/lib/domain/stats/false-alarms'
import { FLAG } from './priors'
import type { YieldStanding } from './types'

type OfFleet = { well: string; standing: Pick<YieldStanding, 'suspicion' | 'flag' | 'evidence'> }

/** Wells by how likely their capacity is really falling, worst first; ties by name, so that the order is one. */
export function bySuspicion<T extends OfFleet>(wells: readonly T[]): T[] {
  return [...wells].sort(
    (a, b) => b.standing.suspicion - a.standing.suspicion || (a.well < b.well ? -1 : a.well > b.well ? 1 : 0),
  )
}

/**
 * The wells to call declining today so that, over the fleet, the expected share of false calls among all calls stays
 * at or below `share`, however often the fleet is looked at.
 *
 * Method  1 / odds is a p-value that holds at any look (Ville 1939); Benjamini-Hochberg over the fleet on top.
 *         Stricter than single flags while few wells decline, and never calls a well that its own flag does not.
 * Throws  RangeError when `share` is not between 0 and 1.
 */
export function callsAcrossFleet<T extends OfFleet>(wells: readonly T[], share: number): T[] {
  const ps = wells.map(({ standing }) => Math.min(1, Math.exp(FLAG.margin) / standing.evidence.declineOdds))
  const called = flagged(ps, share)
  return wells.filter((well, i) => called[i] === true && well.standing.flag)
}
