import { at } from './shape'

/** Stretches up to this long are simply sorted. */
const SHORT = 64

/**
 * The values at some ranks (1 = smallest), as sorting the list would give them, without sorting it all.
 *
 * Shape   `list` is reordered in place; ranks are whole numbers from 1 to its length, any order.
 * Throws  RangeError on a rank that does not exist.
 * Cost    expected n for a handful of ranks (Hoare 1961), n log n at worst: a stretch that partitions
 *         badly is sorted.
 */
export function selectRanks(list: Float64Array, ranks: readonly number[]): number[] {
  for (const rank of ranks) {
    if (!Number.isInteger(rank) || rank < 1 || rank > list.length) {
      throw new RangeError(`no rank ${rank} among ${list.length} values`)
    }
  }
  settle(list, 0, list.length, [...new Set(ranks)], 2 * Math.ceil(Math.log2(list.length + 1)))
  return ranks.map((rank) => at(list, rank - 1))
}

/** Brings the values at the ranks that fall into [start, end) to their places. */
function settle(
  list: Float64Array,
  start: number,
  end: number,
  ranks: readonly number[],
  depth: number,
): void {
  const here = ranks.filter((rank) => rank > start && rank <= end)
  if (here.length === 0) return
  if (end - start <= SHORT || depth === 0) {
    list.subarray(start, end).sort()
    return
  }
  const [left, right] = partition(list, start, end - 1)
  settle(list, start, left + 1, here, depth - 1)
  settle(list, right, end, here, depth - 1)
}

/** Hoare's partition about the middle of three: places up to `left` hold no more, from `right` no less. */
function partition(list: Float64Array, first: number, last: number): [left: number, right: number] {
  const a = at(list, first)
  const b = at(list, (first + last) >> 1)
  const c = at(list, last)
  const pivot = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c))
  let right = first
  let left = last
  while (right <= left) {
    while (at(list, right) < pivot) right++
    while (at(list, left) > pivot) left--
    if (right > left) break
    const swapped = at(list, right)
    list[right] = at(list, left)
    list[left] = swapped
    right++
    left--
  }
  return [left, right]
}
