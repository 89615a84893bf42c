/** A value that may be a non-detect: then `value` is its limit, and the truth lies below it. */
export type Censored = { value: number; nonDetect: boolean }

/** A value at a time that may be a non-detect. */
export type CensoredPoint = Censored & { time: number }

/** Every value lies below its limit: there is nothing to order, average or slope. */
export type AllNonDetect = { kind: 'all-non-detect'; n: number }

/** 1 where a lies above b for certain, -1 where below, 0 where equal or undecided. */
export function certainOrder(a: Censored, b: Censored): -1 | 0 | 1 {
  if (a.nonDetect && b.nonDetect) return 0
  if (a.nonDetect) return b.value >= a.value ? -1 : 0
  if (b.nonDetect) return a.value >= b.value ? 1 : 0
  return a.value > b.value ? 1 : a.value < b.value ? -1 : 0
}
