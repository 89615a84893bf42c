/** US EPA secondary levels (taste, stain, scale): 40 CFR 143.3. "Non-corrosive" is text, and is left to the indices. */
import type { LimitRow } from '../types'

const AESTHETIC_143_3 = {
  kind: 'aesthetic',
  source: '40 CFR part 143 (US EPA)',
  section: '143.3',
  date: '1991-01-30',
  seen: 'seen',
  via: 'law.cornell.edu/cfr/text/40/143.3',
} as const

export const US_SECONDARY: readonly LimitRow[] = [
  { ...AESTHETIC_143_3, analyte: 'chloride', max: 250, unit: 'mg/L', basis: 'secondary, non-enforceable' },
  {
    ...AESTHETIC_143_3,
    analyte: 'colour',
    max: 15,
    unit: 'color units',
    basis: 'secondary, non-enforceable',
  },
  { ...AESTHETIC_143_3, analyte: 'copper', max: 1, unit: 'mg/L', basis: 'secondary, non-enforceable' },
  { ...AESTHETIC_143_3, analyte: 'fluoride', max: 2, unit: 'mg/L', basis: 'secondary, non-enforceable' },
  {
    ...AESTHETIC_143_3,
    analyte: 'foaming-agents',
    max: 0.5,
    unit: 'mg/L',
    basis: 'secondary, non-enforceable',
  },
  { ...AESTHETIC_143_3, analyte: 'iron', max: 0.3, unit: 'mg/L', basis: 'secondary, non-enforceable' },
  { ...AESTHETIC_143_3, analyte: 'manganese', max: 0.05, unit: 'mg/L', basis: 'secondary, non-enforceable' },
  {
    ...AESTHETIC_143_3,
    analyte: 'odour',
    max: 3,
    unit: 'threshold odor number',
    basis: 'secondary, non-enforceable',
  },
  { ...AESTHETIC_143_3, analyte: 'silver', max: 0.1, unit: 'mg/L', basis: 'secondary, non-enforceable' },
  { ...AESTHETIC_143_3, analyte: 'sulfate', max: 250, unit: 'mg/L', basis: 'secondary, non-enforceable' },
  {
    ...AESTHETIC_143_3,
    analyte: 'total-dissolved-solids',
    max: 500,
    unit: 'mg/L',
    basis: 'secondary, non-enforceable',
  },
  { ...AESTHETIC_143_3, analyte: 'zinc', max: 5, unit: 'mg/L', basis: 'secondary, non-enforceable' },
  { ...AESTHETIC_143_3, analyte: 'ph', min: 6.5, max: 8.5, unit: 'std units', basis: 'range 6.5-8.5' },
  { ...AESTHETIC_143_3, analyte: 'aluminum', max: 0.2, unit: 'mg/L', basis: 'range 0.05 to 0.2' },
]
