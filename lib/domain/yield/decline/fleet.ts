import { flagged } from '@/lib/domain/stats/false-alarms'
import { requireShare } from '@/lib/domain/stats/shape'
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
  const ps = wells.map(({ standing }) => pOfOdds(standing.evidence.declineOdds))
  const called = flagged(ps, share)
  return wells.filter((well, i) => called[i] === true && well.standing.flag)
}

/**
 * The least odds at which a well is called over a fleet of `listed` wells: `callsAcrossFleet` from the odds of the
 * flagged wells alone, in any order. Null where none is called. Throws as callsAcrossFleet.
 */
export function leastOddsCalled(
  flaggedOdds: readonly number[],
  listed: number,
  share: number,
): number | null {
  requireShare('the share of false alarms', share)
  const falling = [...flaggedOdds].sort((a, b) => b - a)
  // The step-up of Benjamini and Hochberg: the last rank whose p lies under its part of the share.
  const last = falling.findLastIndex((odds, k) => pOfOdds(odds) <= (share * (k + 1)) / listed)
  return falling[last] ?? null
}

/** Bands in every doubling of the odds, and the most there are: odds beyond share the last. */
const BANDS_A_DOUBLING = 4
const BAND_MAX = 1000

/** The band of a called well's odds, from 1 up: better odds are never in a lower band. */
export function bandOf(odds: number): number {
  const band = Math.floor(BANDS_A_DOUBLING * Math.log2(odds))
  return 1 + Math.min(BAND_MAX - 1, Math.max(0, band))
}

/** Not less than any odds of the band: a hair above its edge, because logarithms are rounded. */
function topOfBand(band: number): number {
  return band >= BAND_MAX ? Number.POSITIVE_INFINITY : 2 ** (band / BANDS_A_DOUBLING) * (1 + 1e-9)
}

/**
 * The same answer as `leastOddsCalled`, with how many wells it calls, from how many flagged wells are in each band and the
 * odds of the few bands in which the bar can lie: the cost does not grow with the wells above and below it.
 *
 * `oddsOf` gives the odds in a band, in any order. Throws as leastOddsCalled.
 */
export function callsByBand(
  bands: readonly { band: number; n: number }[],
  listed: number,
  share: number,
  oddsOf: (band: number) => readonly number[],
): { leastOdds: number | null; held: number } {
  requireShare('the share of false alarms', share)
  const passes = (odds: number, rank: number) => pOfOdds(odds) <= (share * rank) / listed
  let atLeast = bands.reduce((sum, { n }) => sum + n, 0)
  for (const { band, n } of [...bands].sort((a, b) => a.band - b.band)) {
    const above = atLeast - n
    if (passes(topOfBand(band), atLeast)) {
      const falling = [...oddsOf(band)].sort((a, b) => b - a)
      const last = falling.findLastIndex((odds, k) => passes(odds, above + k + 1))
      const leastOdds = falling[last]
      if (leastOdds !== undefined) return { leastOdds, held: above + last + 1 }
    }
    atLeast = above
  }
  return { leastOdds: null, held: 0 }
}

/** A p-value that holds however often one looks. */
function pOfOdds(odds: number): number {
  return Math.min(1, Math.exp(FLAG.margin) / odds)
}
