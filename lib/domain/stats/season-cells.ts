import { median } from './quantile'
import type { Point } from './shape'

/** A value of one season (month, quarter; or a site, for a regional test) in one year. */
export type SeasonalValue = { season: string | number; year: number; value: number }

/** The years and values of one season, one value a year, in year order. */
export type Season = { season: string | number; points: Point[] }

/**
 * One series a season. Several values in one season of one year become their median: Kendall's pairs
 * are between years, and a busy year must not count twice (Helsel et al. 2020, section 12.4).
 * Seasons come in the order they first appear. Throws RangeError on a year or value that is not finite.
 */
export function seasonsOf(values: readonly SeasonalValue[]): Season[] {
  const cells = new Map<string | number, Map<number, number[]>>()
  for (const { season, year, value } of values) {
    if (!Number.isFinite(year) || !Number.isFinite(value)) {
      throw new RangeError(`value ${value} of season ${season}, year ${year}, is not finite`)
    }
    const years = cells.get(season) ?? new Map<number, number[]>()
    cells.set(season, years)
    years.set(year, [...(years.get(year) ?? []), value])
  }
  return [...cells].map(([season, years]) => ({
    season,
    points: [...years].map(([time, list]) => ({ time, value: median(list) })).sort((a, b) => a.time - b.time),
  }))
}
