import { readFileSync } from 'node:fs'
import type { RoundProblem, Stop } from '@/lib/domain/place'

/**
 * Small symmetric instances with their proven optima.
 *
 * Source   TSPLIB 95, G. Reinelt, ORSA Journal on Computing 3:376-384 (1991) and the list "Optimal solutions for
 *          symmetric TSPs" of the library: burma14 3323, ulysses16 6859, gr17 2085, gr21 2707, gr24 1272, fri26 937,
 *          bays29 2020, swiss42 1273.
 */
export const OPTIMA = {
  burma14: { shape: 'geo', length: 3323 },
  ulysses16: { shape: 'geo', length: 6859 },
  gr17: { shape: 'lower', length: 2085 },
  gr21: { shape: 'lower', length: 2707 },
  gr24: { shape: 'full', length: 1272 },
  fri26: { shape: 'full', length: 937 },
  bays29: { shape: 'full', length: 2020 },
  swiss42: { shape: 'full', length: 1273 },
} as const

/**
 * Instances with hours, 20 stops each, and their proven least travel time.
 *
 * Source   Dumas, Desrosiers, Gélinas & Solomon, Operations Research 43(2):367-371 (1995); matrices and optima as
 *          collected by López-Ibáñez & Blum, "Benchmark instances for the TSPTW".
 */
export const OPTIMA_WITH_HOURS = {
  'n20w20.001': 378,
  'n20w20.003': 394,
  'n20w60.003': 352,
  'n20w100.003': 310,
} as const

const numbers = (name: string) =>
  readFileSync(`tests/published/data/place/${name}.txt`, 'utf8').trim().split(/\s+/).map(Number)

const ANY_HOUR = { notBeforeS: null, doneByS: null }

function problem(travelS: number[][], stops: Stop[]): RoundProblem {
  return { travelS, stops, startS: 0, endS: null }
}

/** A round from the first city through all others, hours left aside. */
export function tsplib(name: keyof typeof OPTIMA): RoundProblem {
  const travelS = MATRICES[OPTIMA[name].shape](numbers(name))
  const stops = travelS.slice(1).map((_, i) => ({ id: `${i + 1}`, serviceS: 0, window: ANY_HOUR }))
  return problem(travelS, stops)
}

/** A round with hours: the matrix, then the row of opening and the row of closing times. */
export function withHours(name: keyof typeof OPTIMA_WITH_HOURS): RoundProblem {
  const all = numbers(name)
  const size = 21
  const row = (r: number) => all.slice(r * size, (r + 1) * size)
  const travelS = Array.from({ length: size }, (_, r) => row(r))
  const closes = row(size + 1)
  const stops = row(size)
    .slice(1)
    .map((notBeforeS, i) => ({
      id: `${i + 1}`,
      serviceS: 0,
      window: { notBeforeS, doneByS: closes[i + 1] ?? null },
    }))
  return { ...problem(travelS, stops), endS: closes[0] ?? null }
}

const MATRICES = {
  full: (all: number[]) => {
    const size = Math.sqrt(all.length)
    return Array.from({ length: size }, (_, i) => all.slice(i * size, (i + 1) * size))
  },
  lower: (all: number[]) => {
    const size = (Math.sqrt(8 * all.length + 1) - 1) / 2
    const at = (i: number, j: number) =>
      all[(Math.max(i, j) * (Math.max(i, j) + 1)) / 2 + Math.min(i, j)] ?? Number.NaN
    return Array.from({ length: size }, (_, i) => Array.from({ length: size }, (_unused, j) => at(i, j)))
  },
  geo: (all: number[]) => {
    const places = Array.from(
      { length: all.length / 2 },
      (_, i) => [all[2 * i] ?? 0, all[2 * i + 1] ?? 0] as const,
    )
    return places.map((a) => places.map((b) => (a === b ? 0 : geo(a, b))))
  },
}

/** The library's own geographical distance: degrees and minutes, its value of pi, its radius, cut to whole km. */
function geo([latA, lonA]: readonly [number, number], [latB, lonB]: readonly [number, number]): number {
  const rad = (value: number) => {
    const degrees = Math.trunc(value)
    return ((3_141_592 / 1e6) * (degrees + (5 * (value - degrees)) / 3)) / 180
  }
  const q1 = Math.cos(rad(lonA) - rad(lonB))
  const q2 = Math.cos(rad(latA) - rad(latB))
  const q3 = Math.cos(rad(latA) + rad(latB))
  return Math.trunc(6378.388 * Math.acos(0.5 * ((1 + q1) * q2 - (1 - q1) * q3)) + 1)
}
