import { at, type Point } from './shape'

/**
 * Sum of the covariances between the Kendall counts of different seasons, both ways round: what to add
 * to the variance of their sum when a wet year is wet in every season.
 *
 * Shape   one list a season of one value a year; a year missing in a season stands at the middle rank.
 * Source  Hirsch & Slack 1984, Water Resour. Res. 20:727-732, after Dietz & Killeen 1981. With d the
 *         number of a season's values a value exceeds, less those it falls short of, their
 *         [K + 4 sum R R' - n (n+1)^2] / 3 is [K + sum d d'] / 3, whatever the number of years.
 */
export function seasonCovariance(seasons: readonly (readonly Point[])[]): number {
  const years = [...new Set(seasons.flatMap((points) => points.map((p) => p.time)))].sort((a, b) => a - b)
  const grids = seasons.map((points) => onYears(points, years))
  const signs = grids.map(pairSigns)
  const standings = grids.map(standing)
  let twice = 0
  for (let g = 0; g < seasons.length; g++) {
    for (let h = 0; h < g; h++) {
      twice += dot(signs[g] ?? [], signs[h] ?? []) + dot(standings[g] ?? [], standings[h] ?? [])
    }
  }
  return (2 * twice) / 3
}

/** The values on the common years, NaN where a year is missing (never leaves this file). */
function onYears(points: readonly Point[], years: readonly number[]): Float64Array {
  const byYear = new Map(points.map((point) => [point.time, point.value]))
  return Float64Array.from(years, (year) => byYear.get(year) ?? Number.NaN)
}

/** Sign of later minus earlier for each pair of years; 0 where either is missing. */
function pairSigns(grid: Float64Array): Int8Array {
  const signs = new Int8Array((grid.length * (grid.length - 1)) / 2)
  let k = 0
  for (let i = 0; i < grid.length; i++) {
    for (let j = i + 1; j < grid.length; j++) signs[k++] = signOf(at(grid, j) - at(grid, i))
  }
  return signs
}

/** For each year, how many values it exceeds less how many exceed it; 0 where it is missing. */
function standing(grid: Float64Array): Float64Array {
  return grid.map((value) => grid.reduce((sum, other) => sum + signOf(value - other), 0))
}

const signOf = (difference: number) => (difference > 0 ? 1 : difference < 0 ? -1 : 0)

function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += at(a, i) * at(b, i)
  return sum
}
