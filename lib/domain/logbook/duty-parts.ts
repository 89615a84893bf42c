import type { PART_KINDS } from './kinds'

type PartKind = (typeof PART_KINDS)[number]

/** A part that a duty takes: one that it uses up, or one to have along in case it is found worn. */
export type DutyPart = { part: PartKind; count: number; use: 'used' | 'in case' }

/**
 * Words in a duty's key and the parts that it then takes; the first row that fits counts. All common practice, no
 * published source: what a well really takes is told by what was fitted there last.
 */
const ROWS: readonly { says: RegExp; parts: readonly DutyPart[] }[] = [
  {
    says: /(?:change|replace|renew|new).*cartridge|cartridge.*(?:change|replac)/,
    parts: [
      { part: 'cartridge', count: 1, use: 'used' },
      { part: 'o-rings', count: 1, use: 'used' },
    ],
  },
  { says: /spring-opening/, parts: [{ part: 'cartridge', count: 1, use: 'used' }] },
  {
    says: /(?:change|replace|renew|new).*brush|brush.*(?:change|replac)/,
    parts: [{ part: 'brushes', count: 1, use: 'used' }],
  },
  { says: /brush/, parts: [{ part: 'brushes', count: 1, use: 'in case' }] },
  {
    says: /(?:change|replace|renew).*(?:lamp|uv)|lamp.*(?:change|replac)/,
    parts: [{ part: 'lamp', count: 1, use: 'used' }],
  },
  {
    says: /(?:change|replace|renew).*check-valve/,
    parts: [{ part: 'check valve', count: 1, use: 'used' }],
  },
  { says: /check-valve|prime/, parts: [{ part: 'check valve', count: 1, use: 'in case' }] },
  { says: /(?:change|replace|renew).*pump/, parts: [{ part: 'pump', count: 1, use: 'used' }] },
  { says: /(?:cap|seal)(?:-|$)/, parts: [{ part: 'cap', count: 1, use: 'in case' }] },
]

/** The parts that a duty of that key takes; empty where its name does not say. */
export function partsOfDuty(dutyKey: string): readonly DutyPart[] {
  return ROWS.find(({ says }) => says.test(dutyKey))?.parts ?? []
}

/**
 * The parts that several duties take at one well on one visit: of duties that take the same kind the greatest number
 * counts, since one new set of brushes serves the check and the change; used wins over in case.
 */
export function partsAtWell(dutyKeys: readonly string[]): DutyPart[] {
  const parts = new Map<PartKind, DutyPart>()
  for (const next of dutyKeys.flatMap(partsOfDuty)) {
    const known = parts.get(next.part)
    const use = known?.use === 'used' || next.use === 'used' ? 'used' : 'in case'
    parts.set(next.part, { ...next, count: Math.max(next.count, known?.count ?? 0), use })
  }
  return [...parts.values()]
}

/** Words of the duty library's hints for parts that the stock book counts: a pick list names them with their size. */
const STOCK_HINTS = new Set([
  'sediment cartridge',
  'cartridge',
  'housing O-ring',
  'brush set',
  'UV lamp',
  'check valve',
])

/** Whether a hint of the duty library is about a part that the pick list names anyway. */
export const isStockHint = (hint: string): boolean => STOCK_HINTS.has(hint)
