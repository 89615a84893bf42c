import type { Term } from './background'
import type { Vector } from './vector'

const TURN = 2 * Math.PI
/** The low of a season is looked for twice a month. */
const LOOKS = 24

/** The waves of a year and of half a year at a time, after the constant. */
function wavesAt(year: number): [number, number, number, number, number] {
  const turn = TURN * year
  return [1, Math.cos(turn), Math.sin(turn), Math.cos(2 * turn), Math.sin(2 * turn)]
}

const WAVES = Array.from({ length: LOOKS }, (_, i) => wavesAt(i / LOOKS))
/** What is known of the sizes beforehand, m: swings of a metre or two are usual, second waves small. */
const SIZES_SD = [2, 0.7, 0.7, 0.1, 0.1]

/** A constant and the season as background terms, for levels in m around their middle. */
export function seasonTerms(t: Vector): Term[] {
  const values = SIZES_SD.map(() => new Float64Array(t.length))
  for (let i = 0; i < t.length; i++) {
    const waves = wavesAt(t[i] ?? 0)
    for (let k = 0; k < values.length; k++) {
      const column = values[k]
      if (column) column[i] = waves[k] ?? 0
    }
  }
  return values.map((column, k) => ({ values: column, mean: 0, sd: SIZES_SD[k] ?? 1 }))
}

/** Constant and season at a time. */
export function seasonOf(sizes: readonly number[], year: number): number {
  return summed(sizes, wavesAt(year))
}

/** The deepest level of a usual year. */
export function lowestOf(sizes: readonly number[]): number {
  let low = Number.NEGATIVE_INFINITY
  for (const waves of WAVES) low = Math.max(low, summed(sizes, waves))
  return low
}

function summed(sizes: readonly number[], waves: readonly number[]): number {
  let sum = 0
  for (let k = 0; k < waves.length; k++) sum += (sizes[k] ?? 0) * (waves[k] ?? 0)
  return sum
}
