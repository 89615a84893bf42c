/** Limits on sums: each part divided by its own value, the sum against 1 or against the published total. */
import type { CombinationRow } from '../types'

const N_RULE = {
  source: '40 CFR part 141 (US EPA)',
  section: '141.62(b)(9)',
  date: 'in force',
  seen: 'seen',
  via: 'a text copy of the section',
} as const

export const US_COMBINATIONS: readonly CombinationRow[] = [
  {
    ...N_RULE,
    id: 'nitrate-nitrite',
    name: 'Nitrate + nitrite, sum',
    kind: 'health',
    parts: [
      { analyte: 'nitrate', divisor: 1, unit: 'mg/L as N' },
      { analyte: 'nitrite', divisor: 1, unit: 'mg/L as N' },
    ],
    max: 10,
    unit: 'mg/L as N',
  },
  {
    id: 'radium-226-228',
    name: 'Radium-226 + radium-228, sum',
    kind: 'health',
    parts: [
      { analyte: 'radium-226', divisor: 1, unit: 'pCi/L' },
      { analyte: 'radium-228', divisor: 1, unit: 'pCi/L' },
    ],
    max: 5,
    unit: 'pCi/L',
    source: '40 CFR part 141 (US EPA)',
    section: '141.66(b)',
    date: 'in force',
    seen: 'seen',
    via: 'jjkellercompliancenetwork.com, 40 CFR 141.66 as of 27 June 2024',
  },
  {
    id: 'pfas-hazard-index',
    name: 'PFAS hazard index',
    kind: 'health',
    parts: [
      { analyte: 'pfhxs', divisor: 10, unit: 'ng/L' },
      { analyte: 'pfna', divisor: 10, unit: 'ng/L' },
      { analyte: 'hfpo-da', divisor: 10, unit: 'ng/L' },
      { analyte: 'pfbs', divisor: 2000, unit: 'ng/L' },
    ],
    max: 1,
    unit: 'unitless',
    mixtureOf: 2,
    basis: 'mixtures of two or more',
    source: '89 FR 32532, PFAS National Primary Drinking Water Regulation',
    section: '141.61(c)',
    date: '2024-04-26',
    from: '2024-04-26',
    status: 'EPA announced 14 May 2025 it intends to rescind and reconsider; check current status',
    seen: 'seen',
    via: 'regulations.justia.com fedreg 2024-07773; divisors from summaries of the rule',
  },
]

export const NEW_YORK_COMBINATIONS: readonly CombinationRow[] = [
  {
    id: 'iron-manganese',
    name: 'Iron + manganese, sum',
    kind: 'aesthetic',
    parts: [
      { analyte: 'iron', divisor: 1, unit: 'mg/L' },
      { analyte: 'manganese', divisor: 1, unit: 'mg/L' },
    ],
    max: 0.5,
    unit: 'mg/L',
    source: 'NYS DOH Individual Water Supply Wells Fact Sheet #3',
    section: 'Recommended Residential Water Quality Testing',
    date: 'undated',
    seen: 'seen',
  },
]

const RATIO_PARTS = [
  { analyte: 'nitrate', divisor: 50, unit: 'mg/L as NO3' },
  { analyte: 'nitrite', divisor: 3, unit: 'mg/L as NO2' },
] as const

export const WHO_COMBINATIONS: readonly CombinationRow[] = [
  {
    id: 'nitrate-nitrite-ratio',
    name: 'Nitrate / 50 + nitrite / 3',
    kind: 'health',
    parts: RATIO_PARTS,
    max: 1,
    unit: 'unitless',
    source: 'WHO Guidelines for drinking-water quality, 4th ed. with 1st and 2nd addenda',
    section: 'nitrate and nitrite',
    date: '2022',
    seen: 'seen',
    via: 'RedR note',
  },
]

export const EU_COMBINATIONS: readonly CombinationRow[] = [
  {
    id: 'nitrate-nitrite-ratio',
    name: 'Nitrate / 50 + nitrite / 3',
    kind: 'health',
    parts: RATIO_PARTS,
    max: 1,
    unit: 'unitless',
    source: 'Directive (EU) 2020/2184, OJ L 435',
    section: 'Annex I Part B',
    date: '2020-12-23',
    seen: 'seen',
    via: 'French limits page',
  },
  {
    id: 'tce-pce',
    name: 'Trichloroethene + tetrachloroethene, sum',
    kind: 'health',
    parts: [
      { analyte: 'trichloroethylene', divisor: 1, unit: 'ug/L' },
      { analyte: 'tetrachloroethylene', divisor: 1, unit: 'ug/L' },
    ],
    max: 10,
    unit: 'ug/L',
    source: 'Directive (EU) 2020/2184, OJ L 435',
    section: 'Annex I Part B',
    date: '2020-12-23',
    seen: 'memory',
    via: 'same figure seen in repealed 98/83/EC Annex I',
  },
]
