/** What an entry says, as text: two entries with the same text say the same, however they were written down. */
import type { Fact } from '@/lib/domain/logbook/kinds'
import type { Day } from '@/lib/domain/quantity'

/** Finer than anything measured, coarser than what a change of units leaves behind. */
const FIGURES = 10

/**
 * The key of an entry of a well: its day, time and content. Quantities count by their value in SI, so that "12.50"
 * and "12.5" are the same reading; who wrote it down and how duties were spelt do not count.
 */
export function contentKey(on: Day, time: string | null, fact: Fact): string[] {
  return ['entry', on, time ?? '', JSON.stringify(plain(fact))]
}

function plain(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(plain)
  if (typeof value !== 'object' || value === null) return value
  if ('si' in value && typeof value.si === 'number') return Number(value.si.toPrecision(FIGURES))
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key, inner]) => inner !== undefined && key !== 'names')
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, inner]) => [key, plain(inner)]),
  )
}
