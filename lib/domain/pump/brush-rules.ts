/** How the lead is held in the brush: it decides how far the brush may wear. */
export type BrushLead = 'tamped' | 'spring-enclosed' | 'riveted'

/** Shortest length as a share of new, or metres left above the metal, by how the lead is held. */
const RULES: Record<BrushLead, { shareOfNew: number } | { aboveMetalM: number }> = {
  tamped: { shareOfNew: 0.5 },
  'spring-enclosed': { shareOfNew: 0.4 },
  riveted: { aboveMetalM: 0.003175 },
}

/**
 * A minimum length to offer where the maker gives none; the maker's word wins.
 *
 * Units   metres; `metalM` is the length from the worn end of the metal inside a riveted brush, null where unknown.
 * Answer  null for a riveted brush whose metal is not known.
 * Source  US Navy NAVEDTRA 14113 and 14120, brush replacement rules: half of new (tamped lead, no clip), 40 % of new
 *         (spring-enclosed lead, head left out), 1/8 in of the metal (riveted or hammer clip).
 */
export function suggestedMinimumM(
  newM: number,
  lead: BrushLead,
  metalM: number | null = null,
): number | null {
  const rule = RULES[lead]
  if ('shareOfNew' in rule) return rule.shareOfNew * newM
  return metalM === null ? null : metalM + rule.aboveMetalM
}

const FIRST_CHECK_H = 1000
const CHECK_EVERY_H = 200

/**
 * Run hours at which new brushes are to be looked at next: first at 1,000 h, then every 200 h.
 * Source  US Army TM 11-6125-252-15, para. 4-7 (one direct-current generator set): a start where nothing is known.
 */
export function nextBrushCheckH(hoursSinceNew: number): number {
  if (hoursSinceNew < FIRST_CHECK_H) return FIRST_CHECK_H
  return FIRST_CHECK_H + CHECK_EVERY_H * (Math.floor((hoursSinceNew - FIRST_CHECK_H) / CHECK_EVERY_H) + 1)
}
