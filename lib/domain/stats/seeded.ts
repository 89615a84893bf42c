/**
 * A stream of numbers in [0, 1) that is the same for the same seed: dice for methods that need a random
 * sample and must give the same answer on every run.
 * Source  the 32-bit mulberry generator (public domain, Tommy Ettinger 2017).
 */
export function seededStream(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}
