/** A seeded generator of numbers in [0, 1): the same seed gives the same fleet on every machine. */
export type Dice = () => number

/** Mulberry32, a small 32-bit generator (public domain, Tommy Ettinger; form from memory). */
export function diceFrom(seed: number): Dice {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296
  }
}

export const between = (dice: Dice, low: number, high: number): number => low + (high - low) * dice()

/** Roughly normal with mean 0 and standard deviation 1: the sum of twelve dice, less six. */
export const wobble = (dice: Dice): number => Array.from({ length: 12 }, dice).reduce((a, b) => a + b, 0) - 6

export const chance = (dice: Dice, share: number): boolean => dice() < share

export function pick<T>(dice: Dice, from: readonly [T, ...T[]]): T {
  return from[Math.floor(dice() * from.length)] ?? from[0]
}
