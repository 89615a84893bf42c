/** The dated facts around water that are not samples: what was told, done and closed. */
import type { Day } from '@/lib/domain/quantity/day'

/** After these a well is tested again (tables/frequency.ts says for what). */
export const AGAIN_EVENTS = [
  'flooded',
  'opened',
  'changed',
  'land-disturbed',
  'infant',
  'season',
  'wildfire',
  'illness',
  'septic-trouble',
  'sold',
] as const
export type AgainEvent = (typeof AGAIN_EVENTS)[number]

/** `chain`: the chain it belongs to; absent: every open one. */
export type WaterEvent =
  | { kind: 'notice'; on: Day; by: string; chain?: string }
  /** Null: not written down. */
  | { kind: 'disinfected'; on: Day; by: string; targetMgL: number | null; contactHours: number | null }
  | { kind: 'flushed'; on: Day; by: string }
  /** Something was done about a substance: treatment, another source, a part replaced. */
  | { kind: 'remedied'; on: Day; by: string; what: string; chain?: string }
  /** The well itself was put right: seal, cap, casing, setback, drainage. */
  | { kind: 'well-repaired'; on: Day; by: string; what: string }
  | { kind: 'chain-closed'; on: Day; by: string; reason: string; chain?: string }
  | { kind: 'test-again'; on: Day; event: AgainEvent }
