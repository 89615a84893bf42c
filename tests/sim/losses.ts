import type { LossShape } from './settings'

const LEAST_LEFT = 0.05

/** Part left `elapsed` years after a loss began, at `rate` a year. */
export function partLeft(shape: LossShape, rate: number, elapsed: number): number {
  if (elapsed <= 0) return 1
  switch (shape) {
    case 'linear':
      return Math.max(LEAST_LEFT, 1 - rate * elapsed)
    case 'exponential':
      return Math.exp(-rate * elapsed)
    case 'accelerating':
      return Math.max(LEAST_LEFT, 1 - 0.35 * rate * elapsed * elapsed)
    case 'sudden':
      return Math.max(0.4, 1 - 2 * rate)
  }
}

/** The first time at which something that stays true once it is true becomes so; null where not by `end`. */
export function firstTime(isSo: (years: number) => boolean, end: number): number | null {
  if (!isSo(end)) return null
  let low = 0
  let high = end
  if (isSo(low)) return low
  for (let step = 0; step < 30; step++) {
    const middle = (low + high) / 2
    if (isSo(middle)) high = middle
    else low = middle
  }
  return high
}
