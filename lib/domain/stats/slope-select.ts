import { seededStream } from './seeded'
import { selectRanks } from './select'
import { at } from './shape'
import { visitSlopesBetween } from './slope-between'
import { countBelow, type Series, slopeBetween } from './slope-count'

/** Up to this many slopes are simply all computed: 8 MB. */
const ALL_AT_ONCE = 1_000_000

/** A stretch of slopes with its ranks known for certain: `below` slopes lie under `low`, `upTo` under `high`. */
type Bracket = { low: number; high: number; below: number; upTo: number }

/**
 * The slopes at the ranks asked for (1 = smallest) among all pairs at different times, exactly as if
 * all had been computed and sorted, but without holding them all: a seeded sample brackets each rank,
 * counting inversions proves the bracket, and only the slopes inside it are computed.
 *
 * Shape   ranks are whole numbers from 1 to series.slopes; answers in the order of the ranks.
 * Throws  RangeError on a rank that does not exist.
 * Cost    up to a million slopes: all of them. Beyond: expected n log n plus about n^1.5 slopes visited;
 *         memory about 40 n. Many slopes exactly alike (rounded readings) are visited but not held.
 * Source  the counting idea of Cole, Salowe, Steiger & Szemeredi 1989, and the sampling of Matousek 1991.
 */
export function slopesAtRanks(series: Series, ranks: readonly number[], allAtOnce = ALL_AT_ONCE): number[] {
  for (const rank of ranks) {
    if (!Number.isInteger(rank) || rank < 1 || rank > series.slopes) {
      throw new RangeError(`no rank ${rank} among ${series.slopes} slopes`)
    }
  }
  if (series.slopes <= allAtOnce) {
    return selectRanks(allSlopes(series), ranks)
  }
  const sample = sampleOfSlopes(series)
  const room = Math.max(2000, 32 * series.time.length)
  const found = new Map<number, number>()
  for (const rank of [...ranks].sort((a, b) => a - b)) {
    if (found.has(rank)) continue
    const bracket = narrow(series, bracketFromSample(series, sample, rank), rank, room)
    // Neighbouring ranks (the middle two) usually share a bracket.
    const here = ranks.filter((other) => other > bracket.below && other <= bracket.upTo)
    for (const [k, slope] of slopesInside(series, bracket, here, room)) found.set(k, slope)
  }
  return ranks.map((rank) => {
    const slope = found.get(rank)
    if (slope === undefined) throw new Error(`no slope was found at rank ${rank}`)
    return slope
  })
}

/** Every slope, unsorted. */
export function allSlopes(series: Series): Float64Array {
  const slopes = new Float64Array(series.slopes)
  const n = series.time.length
  let k = 0
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      if (at(series.time, j) > at(series.time, i)) slopes[k++] = slopeBetween(series, i, j)
    }
  }
  return slopes
}

function sampleOfSlopes(series: Series): Float64Array {
  const n = series.time.length
  const dice = seededStream(n)
  const sample = new Float64Array(16 * n)
  for (let k = 0; k < sample.length; ) {
    const a = Math.floor(dice() * n)
    const b = Math.floor(dice() * n)
    if (at(series.time, a) === at(series.time, b)) continue
    sample[k++] = slopeBetween(series, Math.min(a, b), Math.max(a, b))
  }
  return sample.sort()
}

/** A proven bracket around a rank, three standard errors of the sample wide, wider where that misses. */
function bracketFromSample(series: Series, sample: Float64Array, rank: number): Bracket {
  const share = (rank - 0.5) / series.slopes
  const centre = share * sample.length
  const spread = Math.sqrt(sample.length * share * (1 - share)) + 1
  const whole = { low: -Infinity, high: Infinity, below: 0, upTo: series.slopes }
  for (let wide = 3; wide < 1000; wide *= 3) {
    const low = prove(series, gapBelow(sample, Math.floor(centre - wide * spread)))
    const high = prove(series, gapBelow(sample, Math.ceil(centre + wide * spread) + 1))
    if (low && high && low.below < rank && rank <= high.below) {
      return { low: low.trial, high: high.trial, below: low.below, upTo: high.below }
    }
  }
  return whole
}

/** A trial between two different neighbours of the sample, at or below place k; infinite past the ends. */
function gapBelow(sample: Float64Array, k: number): number {
  if (k <= 0) return -Infinity
  if (k >= sample.length) return Infinity
  const here = at(sample, k)
  let i = k - 1
  while (i >= 0 && at(sample, i) === here) i--
  return i < 0 ? -Infinity : (at(sample, i) + here) / 2
}

/** The trial with the count below it, if rounding leaves no doubt there or at a few places close by. */
function prove(series: Series, trial: number): { trial: number; below: number } | undefined {
  const step = 256 * Number.EPSILON * (Math.abs(trial) + series.reachValue / series.reachTime)
  for (let k = 0; k < 6; k++) {
    const near = Number.isFinite(trial) ? trial + k * k * step * (k % 2 === 0 ? 1 : -1) : trial
    const { certain, possible } = countBelow(series, near)
    if (certain === possible) return { trial: near, below: certain }
  }
  return undefined
}

/** Shrinks a bracket around a rank until `room` slopes are left, or rounding stops it. */
function narrow(series: Series, start: Bracket, rank: number, room: number): Bracket {
  let bracket = start
  for (let step = 0; step < 80 && bracket.upTo - bracket.below > room; step++) {
    const { low, high, below, upTo } = bracket
    if (!Number.isFinite(low) || !Number.isFinite(high)) return bracket
    // Towards the rank by interpolation, every third time the plain middle.
    const share =
      step % 3 === 2 ? 0.5 : clamp((rank - below) / (upTo - below) + (step % 3 === 0 ? 0.05 : -0.05))
    const cut = prove(series, low + share * (high - low))
    if (!cut || cut.trial <= low || cut.trial >= high) {
      if (step % 3 === 2) return bracket
      continue
    }
    bracket =
      cut.below < rank
        ? { ...bracket, low: cut.trial, below: cut.below }
        : { ...bracket, high: cut.trial, upTo: cut.below }
  }
  return bracket
}

const clamp = (share: number) => Math.min(0.95, Math.max(0.05, share))

/** The slopes at some ranks inside a bracket: sorted where they are few, tallied by value where many are alike. */
function slopesInside(
  series: Series,
  bracket: Bracket,
  ranks: readonly number[],
  room: number,
): [rank: number, slope: number][] {
  const inside = bracket.upTo - bracket.below
  if (inside > room) return slopesTallied(series, bracket, ranks)
  const slopes = new Float64Array(inside)
  let k = 0
  visitSlopesBetween(series, bracket.low, bracket.high, (earlier, later) => {
    slopes[k++] = slopeBetween(series, earlier, later)
  })
  if (k !== inside) throw new Error(`${inside} slopes were counted, ${k} found`)
  const picked = selectRanks(
    slopes,
    ranks.map((rank) => rank - bracket.below),
  )
  return ranks.map((rank, i) => [rank, at(picked, i)])
}

function slopesTallied(
  series: Series,
  bracket: Bracket,
  ranks: readonly number[],
): [rank: number, slope: number][] {
  const tally = new Map<number, number>()
  visitSlopesBetween(series, bracket.low, bracket.high, (earlier, later) => {
    const slope = slopeBetween(series, earlier, later)
    tally.set(slope, (tally.get(slope) ?? 0) + 1)
  })
  const byValue = [...tally].sort(([a], [b]) => a - b)
  return ranks.map((rank) => {
    let upTo = bracket.below
    for (const [slope, count] of byValue) {
      upTo += count
      if (upTo >= rank) return [rank, slope]
    }
    throw new Error(`rank ${rank} lies past the slopes of its bracket`)
  })
}
