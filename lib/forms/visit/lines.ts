import type { Fact } from '@/lib/domain/logbook/kinds'

/** The lines a visit form can write, each in a fixed slot: the slot makes the line's id, so new ones go to the end. */
export const SLOTS = [
  'service',
  'hours',
  'volume',
  'static',
  'pumping',
  'flow',
  'pressure',
  'brushes',
  'electrical',
  'recovery',
  'drawdown',
  'step',
  'sample',
  'sanitary',
  'event',
  'note',
  'water-notice',
  'water-disinfected',
  'water-flushed',
  'water-remedied',
  'water-repaired',
  'water-closed',
  'water-again',
  'owner',
  'place',
  'valve',
] as const
export type Slot = (typeof SLOTS)[number]

export type Line = { slot: Slot; fact: Fact }

/**
 * The id of one line of a visit, made from the id that the form was opened with: the form sent
 * twice gives the same ids, and is stored once. Visit ids end in 48 random bits, so counting a
 * few up from one never meets another's.
 */
export function lineId(visitId: string, slot: Slot): string {
  const tail = (BigInt(`0x${visitId.slice(24)}`) + BigInt(SLOTS.indexOf(slot) + 1)) % 2n ** 48n
  return `${visitId.slice(0, 24)}${tail.toString(16).padStart(12, '0')}`
}
