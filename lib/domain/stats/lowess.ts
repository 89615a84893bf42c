import { ascending, median } from './quantile'
import { at, requireFinite, type TooFew } from './shape'

export type Lowess = {
  kind: 'smooth'
  /** The smooth at each point, in the order the points were given. */
  fitted: number[]
}

/**
 * Robust locally weighted straight lines: a smooth curve of y against x.
 *
 * Shape   x and y of equal length, any order. `span` is the share of points in each local line (0..1),
 *         `robustness` how many times outlying points are weighted down.
 * Answer  'too-few' under three points.
 * Throws  RangeError on unequal lengths, a value that is not finite, a span outside 0..1 (1 allowed).
 * Source  Cleveland 1979, J. Am. Stat. Assoc. 74:829-836: tricube weights, bisquare robustness at six
 *         median absolute residuals, every point fitted (no interpolation). Where a wild value has cost all
 *         its neighbours their weight, their median stands in (Cleveland's own value there is the wild one).
 * Cost    n x (span n) x (1 + robustness).
 */
export function lowess(
  x: readonly number[],
  y: readonly number[],
  { span = 2 / 3, robustness = 3 }: { span?: number; robustness?: number } = {},
): Lowess | TooFew {
  if (x.length !== y.length) throw new RangeError(`${x.length} values cannot be paired with ${y.length}`)
  requireFinite('x', x)
  requireFinite('y', y)
  if (!(span > 0 && span <= 1)) throw new RangeError(`a span lies between 0 and 1, not ${span}`)
  const n = x.length
  if (n < 3) return { kind: 'too-few', have: n, need: 3 }
  const order = x.map((_, i) => i).sort((a, b) => at(x, a) - at(x, b))
  const sortedX = Float64Array.from(order, (i) => at(x, i))
  const sortedY = Float64Array.from(order, (i) => at(y, i))
  const q = Math.max(2, Math.min(n, Math.floor(span * n + 1e-7)))
  let trust: Float64Array = new Float64Array(n).fill(1)
  let smooth: Float64Array = smoothAll(sortedX, sortedY, trust, q)
  for (let round = 0; round < robustness; round++) {
    const next = robustnessWeights(sortedY, smooth)
    if (!next) break
    trust = next
    smooth = smoothAll(sortedX, sortedY, trust, q)
  }
  const fitted = new Array<number>(n).fill(0)
  order.forEach((i, k) => {
    fitted[i] = at(smooth, k)
  })
  return { kind: 'smooth', fitted }
}

/** The local line at each point, over its q nearest. */
function smoothAll(x: Float64Array, y: Float64Array, trust: Float64Array, q: number): Float64Array {
  let left = 0
  return x.map((here) => {
    while (left + q < x.length && here - at(x, left) > at(x, left + q) - here) left++
    return localLine(x, y, trust, here, left, left + q) ?? median([...y.subarray(left, left + q)])
  })
}

/** Weighted line through the points within reach of `here`, read at `here`; none where no weight is left. */
function localLine(
  x: Float64Array,
  y: Float64Array,
  trust: Float64Array,
  here: number,
  left: number,
  right: number,
): number | undefined {
  const reach = Math.max(here - at(x, left), at(x, right - 1) - here)
  let weight = 0
  let sumX = 0
  let sumY = 0
  const weights: [i: number, w: number][] = []
  // Ties with the farthest neighbour belong too, so look past `right`.
  for (let i = left; i < x.length; i++) {
    const distance = Math.abs(at(x, i) - here)
    if (distance > 0.999 * reach && distance > 0) {
      if (at(x, i) > here) break
      continue
    }
    const w = at(trust, i) * (distance <= 0.001 * reach ? 1 : (1 - (distance / reach) ** 3) ** 3)
    weights.push([i, w])
    weight += w
    sumX += w * at(x, i)
    sumY += w * at(y, i)
  }
  if (!(weight > 0)) return undefined
  const meanX = sumX / weight
  const meanY = sumY / weight
  let sxx = 0
  let sxy = 0
  for (const [i, w] of weights) {
    sxx += w * (at(x, i) - meanX) ** 2
    sxy += w * (at(x, i) - meanX) * (at(y, i) - meanY)
  }
  const range = at(x, x.length - 1) - at(x, 0)
  // Points all but at one place carry no slope: their mean is the line.
  if (Math.sqrt(sxx / weight) <= 0.001 * range) return meanY
  return meanY + (sxy / sxx) * (here - meanX)
}

/** Bisquare weights of the residuals; none when the fit is all but perfect and nothing is outlying. */
function robustnessWeights(y: Float64Array, smooth: Float64Array): Float64Array | undefined {
  const size = y.map((value, i) => Math.abs(value - at(smooth, i)))
  const cut = 6 * median([...ascending(size)])
  const mean = size.reduce((sum, r) => sum + r, 0) / size.length
  if (cut < 1e-7 * mean || cut === 0) return undefined
  return size.map((r) => (r <= 0.001 * cut ? 1 : r > 0.999 * cut ? 0 : (1 - (r / cut) ** 2) ** 2))
}
