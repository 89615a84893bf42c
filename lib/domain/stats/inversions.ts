import { at } from './shape'

/**
 * How many pairs of a list stand in falling order: i < j with list[i] > list[j]. Equal pairs do not count.
 * The list is left sorted. Cost n log n (merge sort, counting what the right half overtakes).
 * Source  Knight 1966, J. Am. Stat. Assoc. 61:436-439.
 */
export function sortCountingInversions(list: Float64Array): number {
  let from: Float64Array = list
  let into: Float64Array = new Float64Array(list.length)
  let inversions = 0
  for (let width = 1; width < list.length; width *= 2) {
    for (let start = 0; start < list.length; start += 2 * width) {
      const middle = Math.min(start + width, list.length)
      inversions += mergeCounting(from, into, start, middle, Math.min(start + 2 * width, list.length))
    }
    ;[from, into] = [into, from]
  }
  if (from !== list) list.set(from)
  return inversions
}

function mergeCounting(
  from: Float64Array,
  into: Float64Array,
  start: number,
  middle: number,
  end: number,
): number {
  let left = start
  let right = middle
  let inversions = 0
  for (let k = start; k < end; k++) {
    if (right >= end || (left < middle && at(from, left) <= at(from, right))) {
      into[k] = at(from, left++)
    } else {
      into[k] = at(from, right++)
      inversions += middle - left
    }
  }
  return inversions
}
