/** The dated facts around water that are not samples: what was told, done and closed. */
import type { Day } from '@/lib/domain/quantity/day'
import type { NoticeKind } from './tables/notices'

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
  /** `notice`: which one was given; absent: not written down, and taken as the right one. */
  | { kind: 'notice'; on: Day; by: string; notice?: NoticeKind; chain?: string }
  /** Null: not written down. */
  | { kind: 'disinfected'; on: Day; by: string; targetMgL: number | null; contactHours: number | null }
  /** `chlorineGone` false: chlorine was still found, and the flush is not done. Null: not tested. */
  | { kind: 'flushed'; on: Day; by: string; chlorineGone?: boolean | null }
  /** Something was done about a substance: treatment, another source, a part replaced. */
  | { kind: 'remedied'; on: Day; by: string; what: string; chain?: string }
  /** The well itself was put right: seal, cap, casing, setback, drainage. */
  | { kind: 'well-repaired'; on: Day; by: string; what: string }
  | { kind: 'chain-closed'; on: Day; by: string; reason: string; chain?: string }
  | { kind: 'test-again'; on: Day; event: AgainEvent }
