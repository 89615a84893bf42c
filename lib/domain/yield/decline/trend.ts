import { tCdf, tQuantile } from '@/lib/domain/stats/special'
import type { CapacityFit } from './capacity'
import type { CapacityTrend } from './types'
import { FEWEST } from './verdict'

/**
 * The straight relative slope of capacity over the present stretch, with thickness, pumping time and flow surprise
 * taken out, its 80 % interval and two-sided p. `tests` is how many there are where nothing was fitted.
 */
export function trendOf(fit: CapacityFit | null, supported: boolean, tests: number): CapacityTrend {
  const have = fit?.years.length ?? tests
  if (!fit || !supported || !Number.isFinite(fit.trend.sd)) return { kind: 'too-few', have, need: FEWEST }
  const { perYear, sd, freedom } = fit.trend
  const reach = tQuantile(0.9, freedom) * sd
  // A few days say nothing of a year: there the end of the interval is no number at all.
  if (!Number.isFinite(Math.expm1(perYear + reach))) return { kind: 'too-few', have, need: FEWEST }
  return {
    kind: 'trend',
    perYear: Math.expm1(perYear),
    low: Math.expm1(perYear - reach),
    high: Math.expm1(perYear + reach),
    p: Math.min(1, 2 * tCdf(-Math.abs(perYear / sd), freedom)),
    method: 'robust level-adjusted line on log capacity',
  }
}
