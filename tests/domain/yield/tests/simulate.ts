import type { LevelReading } from '@/lib/domain/yield/tests'

/** Random numbers from a seed (mulberry32), so that a failure can be run again. */
export function dice(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

/** One draw from the standard normal distribution (Box and Muller). */
export function normal(roll: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - roll())) * Math.cos(2 * Math.PI * roll())
}

/** Reading times of a hand: close together at first, then wider, over `times` time constants. */
export function handTimes(timeConstantS: number, times: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => timeConstantS * times * (i / (count - 1)) ** 1.5)
}

export type Truth = { staticM: number; startM: number; timeConstantS: number }

/** Readings of a known recovery with normal noise of `noiseM`. */
export function recovery(
  truth: Truth,
  elapsed: readonly number[],
  noiseM: number,
  roll: () => number,
): LevelReading[] {
  return elapsed.map((elapsedS) => ({
    elapsedS,
    levelM: truth.staticM + truth.startM * Math.exp(-elapsedS / truth.timeConstantS) + noiseM * normal(roll),
  }))
}
