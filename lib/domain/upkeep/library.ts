import { slug } from './keys'
import type { ConditionKind, Consequence, Duty } from './types'

/** What a well must have for a duty to make sense on it. */
export type NeedsPart = 'cartridge' | 'brushed-motor' | 'uv-lamp' | 'tank' | 'closed-season' | null

/** A duty as offered to a new well: its default limits, where they come from, and what to have on the truck. */
export type DutyTemplate = {
  name: string
  consequence: Consequence
  everyMonths: number | null
  /** Run time, h. */
  everyRunH: number | null
  everyM3: number | null
  condition: { kind: ConditionKind; limitSi: number } | null
  /** The named published source of the limits, or COMMON_PRACTICE. */
  basisNote: string
  partsHint: readonly string[]
  needs: NeedsPart
}

export const COMMON_PRACTICE = 'Common practice, no published source.'

/** 20 psi at 6894.757 Pa, rounded to the Pa. */
const TERMINAL_DROP_PA = 137_895

type Row = Partial<DutyTemplate> & Pick<DutyTemplate, 'name' | 'consequence'>

/**
 * Default duties for a shallow, cartridge-filtered, pumped well; a starting point that each well departs from.
 * No duty has a default minimum brush length: it depends on the motor, and is entered with it.
 */
export const DUTY_LIBRARY: readonly DutyTemplate[] = [
  row({
    name: 'Bacteria sample',
    consequence: 'health',
    everyMonths: 12,
    basisNote:
      "Total coliform every year: US EPA, Protect Your Home's Water (2021), and CDC private-well advice. Health Canada (2024) asks for every 6 months.",
    partsHint: ['sterile bacteria bottle', 'cooler with ice', 'alcohol wipes'],
  }),
  row({
    name: 'Nitrate sample',
    consequence: 'health',
    everyMonths: 12,
    basisNote:
      "Nitrate every year, with TDS and pH: US EPA, Protect Your Home's Water (2021), and CDC private-well advice.",
    partsHint: ['nitrate bottle', 'cooler with ice'],
  }),
  row({
    name: 'Wider water panel',
    consequence: 'health',
    everyMonths: 36,
    basisNote:
      'Arsenic, lead, fluoride, iron, manganese and others every 3 to 5 years: New Hampshire DES, as quoted by a laboratory (2020).',
    partsHint: ['metals bottle with acid', 'general chemistry bottle', 'cooler with ice'],
  }),
  row({
    name: 'Sanitary inspection',
    consequence: 'health',
    everyMonths: 12,
    basisNote:
      'Once or twice a year for small supplies: WHO small water supplies guidelines (2024), from memory.',
    partsHint: ['inspection form'],
  }),
  row({
    name: 'Inspect cap and seal',
    consequence: 'health',
    everyMonths: 12,
    basisNote: 'Mechanical check each spring: CDC private-well advice.',
    partsHint: ['cap gasket', 'food-grade silicone grease', 'vent screen'],
  }),
  row({
    name: 'Replace UV lamp',
    consequence: 'health',
    everyMonths: 12,
    everyRunH: 9000,
    basisNote: COMMON_PRACTICE,
    partsHint: ['UV lamp', 'sleeve O-rings', 'sleeve cleaner'],
    needs: 'uv-lamp',
  }),
  row({
    name: 'Clean out tank',
    consequence: 'health',
    everyMonths: 36,
    basisNote: COMMON_PRACTICE,
    partsHint: ['plain bleach', 'long brush', 'drain hose'],
    needs: 'tank',
  }),
  row({
    name: 'Change sediment cartridge',
    consequence: 'supply',
    everyMonths: 6,
    condition: { kind: 'pressure_drop', limitSi: TERMINAL_DROP_PA },
    basisNote: `${COMMON_PRACTICE} 3 to 6 months, or a pressure drop of about 20 psi, are habits of the trade.`,
    partsHint: ['sediment cartridge', 'housing O-ring', 'food-grade silicone grease'],
    needs: 'cartridge',
  }),
  row({
    name: 'Test check valve and prime',
    consequence: 'supply',
    everyMonths: 12,
    basisNote: `${COMMON_PRACTICE} After shut-off the gauge should barely fall.`,
    partsHint: ['check valve', 'priming plug gasket', 'priming water'],
  }),
  row({
    name: 'Measure pump flow and amps',
    consequence: 'supply',
    everyMonths: 12,
    basisNote: COMMON_PRACTICE,
    partsHint: ['clamp meter', 'measured bucket', 'stopwatch'],
  }),
  row({
    name: 'Recovery test',
    consequence: 'supply',
    everyMonths: 12,
    basisNote: `${COMMON_PRACTICE} Best in the season of low water.`,
    partsHint: ['water level tape', 'stopwatch'],
  }),
  row({
    name: 'Measure static level',
    consequence: 'supply',
    everyMonths: 3,
    basisNote: `${COMMON_PRACTICE} Four readings a year show the season.`,
    partsHint: ['water level tape'],
  }),
  row({
    name: 'Winter shut-down',
    consequence: 'supply',
    everyMonths: 12,
    basisNote: COMMON_PRACTICE,
    partsHint: ['drain plug gasket', 'blow-out fitting'],
    needs: 'closed-season',
  }),
  row({
    name: 'Spring opening',
    consequence: 'supply',
    everyMonths: 12,
    basisNote: COMMON_PRACTICE,
    partsHint: ['priming water', 'cartridge', 'plain bleach'],
    needs: 'closed-season',
  }),
  row({
    name: 'Check motor brushes',
    consequence: 'wear',
    everyMonths: 12,
    everyRunH: 1000,
    basisNote:
      'New d.c. brushes at 1,000 h, then every 200 h: US Army TM 11-6125-252-15, paragraph 4-7. Set 200 h after the first check. The months are common practice, no published source.',
    partsHint: ['brush set', 'caliper'],
    needs: 'brushed-motor',
  }),
  row({
    name: 'Replace motor brushes',
    consequence: 'wear',
    everyRunH: 2000,
    basisNote: `${COMMON_PRACTICE} Enter the minimum length for the motor: US Navy NAVEDTRA 14113 replaces a brush at half of its original length (no clip), or within 1/8 in of the metal. Replace a set together.`,
    partsHint: ['brush set', 'commutator stone'],
    needs: 'brushed-motor',
  }),
]

/** A duty made from a template, not done yet. Run time in s. */
export function dutyFromTemplate(template: DutyTemplate): Duty {
  const { name, consequence, everyMonths, everyRunH, everyM3, condition } = template
  const everyRunS = everyRunH === null ? null : everyRunH * 3600
  return { key: slug(name), name, consequence, everyMonths, everyRunS, everyM3, condition, lastDoneOn: null }
}

function row(given: Row): DutyTemplate {
  return {
    everyMonths: null,
    everyRunH: null,
    everyM3: null,
    condition: null,
    basisNote: COMMON_PRACTICE,
    partsHint: [],
    needs: null,
    ...given,
  }
}
