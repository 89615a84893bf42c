import { at } from './shape'

/** Lists as short as this are sorted by putting each value in its place: merging them costs more. */
const RUN = 16

/**
 * How many pairs of a list stand in falling order: i < j with list[i] > list[j]. Equal pairs do not count.
 * The list is left sorted. Cost n log n (merge sort, counting what the right half overtakes).
 * Source  Knight 1966, J. Am. Stat. Assoc. 61:436-439.
 */
export function sortCountingInversions(list: Float64Array): number {
  let inversions = 0
  for (let start = 0; start < list.length; start += RUN) {
    inversions += insertCounting(list, start, Math.min(start + RUN, list.length))
  }
  let from: Float64Array = list
  let into: Float64Array = new Float64Array(list.length)
  for (let width = RUN; width < list.length; width *= 2) {
    for (let start = 0; start < list.length; start += 2 * width) {
      const middle = Math.min(start + width, list.length)
      inversions += mergeCounting(from, into, start, middle, Math.min(start + 2 * width, list.length))
    }
    ;[from, into] = [into, from]
  }
  if (from !== list) list.set(from)
  return inversions
}

/** Sorts from start to before end; each step past a greater value is one pair in falling order. */
function insertCounting(list: Float64Array, start: number, end: number): number {
  let steps = 0
  for (let i = start + 1; i < end; i++) {
    const value = at(list, i)
    let k = i
    for (; k > start && at(list, k - 1) > value; k--) list[k] = at(list, k - 1)
    list[k] = value
    steps += i - k
  }
  return steps
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
  let k = start
  while (left < middle && right < end) {
    const one = at(from, left)
    const other = at(from, right)
    if (one <= other) {
      into[k++] = one
      left++
    } else {
      into[k++] = other
      right++
      inversions += middle - left
    }
  }
  while (left < middle) into[k++] = at(from, left++)
  while (right < end) into[k++] = at(from, right++)
  return inversions
}
