export type Dice = {
  uniform: (low: number, high: number) => number
  normal: () => number
  pick: <T>(items: readonly T[]) => T
}

/** Seeded dice (mulberry32, T. Ettinger; normal by Box-Muller): the same seed gives the same throws. */
export function diceFrom(seed: number): Dice {
  let state = seed >>> 0
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
  return {
    uniform: (low, high) => low + (high - low) * next(),
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    pick: (items) => {
      const item = items[Math.floor(next() * items.length)]
      if (item === undefined) throw new RangeError('nothing to pick from')
      return item
    },
  }
}
