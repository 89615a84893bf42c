/**
 * How far apart the levels of a test in the pumped well are read, by the time since the pump stopped or started.
 * Source  Kruseman & de Ridder 1994, Analysis and Evaluation of Pumping Test Data, ch. 2 (table of intervals between
 *         measurements in the pumped well); from memory.
 */
const INTERVALS = [
  { untilS: 5 * 60, everyS: 30 },
  { untilS: 60 * 60, everyS: 5 * 60 },
  { untilS: 120 * 60, everyS: 20 * 60 },
  { untilS: Number.POSITIVE_INFINITY, everyS: 60 * 60 },
] as const

/**
 * The second at which the next reading is suggested, after the last one (null: none yet). A reading that came a little
 * early or late stands for its place in the table.
 */
export function nextReadingS(lastS: number | null): number {
  const after = Math.max(0, lastS ?? 0)
  const earliest = after + everyAt(after) / 2
  let at = 0
  while (at < earliest) at += everyAt(at)
  return Math.max(at, everyAt(0))
}

const everyAt = (elapsedS: number): number =>
  (INTERVALS.find(({ untilS }) => elapsedS < untilS) ?? INTERVALS[3]).everyS
