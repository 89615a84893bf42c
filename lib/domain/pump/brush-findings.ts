import type { Day } from '@/lib/domain/quantity/day'

/** What is odd about a set of brushes, and what to look at. `brush` counts from 1, null for the whole set. */
export type BrushFinding = {
  kind: 'uneven' | 'sudden' | 'slip'
  on: Day
  brush: number | null
  lookAt: string[]
  says: string
}

/** What the findings need of a reading: hours or days since the set was put in, and one length a brush, m. */
export type WornLengths = { on: Day; used: number; lengthsM: readonly number[] }

/** Error of a rule held to a brush in its holder, m. */
export const READING_M = 0.0004
/** Lengths within a set differ by this much of what is worn before anybody looks, and by a millimetre at least. */
const UNEVEN_SHARE = 0.3
const UNEVEN_M = 0.001

/**
 * Uneven and sudden wear in the newest reading of a set.
 *
 * Uneven  the longest and shortest brush differ by a third of what is worn: misalignment, a brush stuck in its holder.
 * Sudden  a brush wore more than twice as fast since the reading before as in all the time until then, by more than the
 *         rule's error: commutator, moisture, grit.
 * Common practice, no published source for either limit.
 */
export function brushFindings(readings: readonly WornLengths[], newM: number): BrushFinding[] {
  return [...unevenOf(readings, newM), ...suddenOf(readings)]
}

function unevenOf(readings: readonly WornLengths[], newM: number): BrushFinding[] {
  const last = readings.at(-1)
  if (!last || last.lengthsM.length < 2) return []
  const shortest = Math.min(...last.lengthsM)
  const apart = Math.max(...last.lengthsM) - shortest
  if (apart < Math.max(UNEVEN_M, UNEVEN_SHARE * (newM - shortest))) return []
  const brush = last.lengthsM.indexOf(shortest) + 1
  return [
    {
      kind: 'uneven',
      on: last.on,
      brush,
      lookAt: ['misalignment', 'a brush that sticks in its holder', 'spring pressure'],
      says: `the brushes of this set wear unevenly (brush ${brush} is the shortest): look for misalignment or a brush that sticks in its holder`,
    },
  ]
}

function suddenOf(readings: readonly WornLengths[]): BrushFinding[] {
  const last = readings.at(-1)
  if (!last || readings.length < 4) return []
  const fast = last.lengthsM.flatMap((_, i) => (woreSuddenly(readings, i) ? [i + 1] : []))
  if (fast.length === 0) return []
  const whole = fast.length === last.lengthsM.length
  const which = whole ? 'the brushes' : `brush ${fast.join(' and ')}`
  return [
    {
      kind: 'sudden',
      on: last.on,
      brush: fast.length === 1 ? (fast[0] ?? null) : null,
      lookAt: ['the commutator (scored, out of round)', 'moisture in the motor', 'grit'],
      says: `${which} wore more than twice as fast since the reading before: look at the commutator and for moisture`,
    },
  ]
}

function woreSuddenly(readings: readonly WornLengths[], brush: number): boolean {
  const own = readings.flatMap((r) => {
    const lengthM = r.lengthsM[brush]
    return lengthM === undefined ? [] : [{ used: r.used, lengthM }]
  })
  const [last, before, first] = [own.at(-1), own.at(-2), own[0]]
  if (!last || !before || !first || own.length < 4) return false
  if (last.used <= before.used || before.used <= first.used) return false
  const usual = (first.lengthM - before.lengthM) / (before.used - first.used)
  const expected = Math.max(0, usual) * (last.used - before.used)
  const fell = before.lengthM - last.lengthM
  return fell >= 2 * expected && fell - expected >= 3 * READING_M
}
