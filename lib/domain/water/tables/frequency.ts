/** How often published bodies say a private well is tested, and after what events it is tested again. */
import type { AgainEvent } from '../events'
import type { Sourced } from '../types'

export type TestGroup =
  | 'bacteria'
  | 'nitrate'
  | 'general'
  | 'metals'
  | 'radio-and-organics'
  | 'sanitary-inspection'

export type FrequencyRow = Sourced & { body: string; group: TestGroup; months: number; note?: string }

const EPA = { source: "US EPA, Protect Your Home's Water", date: '2021-01-19', seen: 'seen' } as const
const CDC = {
  source: 'US CDC private-well advice, as quoted by the Michigan drinking-water site',
  date: 'undated',
  seen: 'seen',
} as const
const CANADA = { source: 'Health Canada, Test your well water', date: '2024', seen: 'seen' } as const
const NHDES = {
  source: 'New Hampshire DES recommendation, as quoted by a driller and a laboratory',
  date: '2020',
  seen: 'seen',
} as const
const WISCONSIN = {
  source: 'eXtension, Testing Recommendations for Private Drinking Water Wells, Figure 1 (Wisconsin)',
  date: 'undated',
  seen: 'seen',
} as const

export const FREQUENCIES: readonly FrequencyRow[] = [
  { ...EPA, body: 'US EPA', group: 'bacteria', months: 12 },
  { ...EPA, body: 'US EPA', group: 'nitrate', months: 12 },
  { ...EPA, body: 'US EPA', group: 'general', months: 12, note: 'total dissolved solids and pH' },
  { ...CDC, body: 'US CDC', group: 'bacteria', months: 12 },
  { ...CDC, body: 'US CDC', group: 'nitrate', months: 12 },
  {
    ...CDC,
    body: 'US CDC',
    group: 'general',
    months: 12,
    note: 'total dissolved solids and pH; a mechanical check each spring',
  },
  { ...CANADA, body: 'Health Canada', group: 'bacteria', months: 6 },
  { ...CANADA, body: 'Health Canada', group: 'general', months: 24 },
  {
    body: 'Health Canada (First Nations wells)',
    group: 'bacteria',
    months: 4,
    source: 'Health Canada Pub. 100047',
    date: '2010',
    seen: 'seen',
    note: 'two or three times a year',
  },
  {
    body: 'Lambton Public Health, Ontario',
    group: 'bacteria',
    months: 4,
    source: 'Lambton Public Health, Well Water Safety',
    date: '2013-09-17',
    seen: 'seen',
    note: 'dug wells at least three times a year: spring melt, summer, fall',
  },
  { ...NHDES, body: 'New Hampshire DES', group: 'bacteria', months: 12 },
  { ...NHDES, body: 'New Hampshire DES', group: 'nitrate', months: 12 },
  { ...NHDES, body: 'New Hampshire DES', group: 'metals', months: 36, note: 'every 3 to 5 years' },
  { ...NHDES, body: 'New Hampshire DES', group: 'general', months: 36, note: 'every 3 to 5 years' },
  {
    ...NHDES,
    body: 'New Hampshire DES',
    group: 'radio-and-organics',
    months: 36,
    note: 'every 3 to 5 years',
  },
  {
    body: 'State of Maine',
    group: 'nitrate',
    months: 12,
    source: '22 MRSA 2660-T uniform testing recommendation, as quoted by a laboratory',
    date: '2017',
    seen: 'seen',
  },
  { ...WISCONSIN, body: 'Wisconsin / eXtension', group: 'bacteria', months: 12 },
  {
    ...WISCONSIN,
    body: 'Wisconsin / eXtension',
    group: 'nitrate',
    months: 60,
    note: 'only where below 2 mg/L; else yearly',
  },
  {
    body: 'New York DOH',
    group: 'bacteria',
    months: 12,
    source: 'NYS DOH Individual Water Supply Wells Fact Sheet #3',
    date: 'undated',
    seen: 'seen',
    note: 'the full list when the well is new',
  },
  {
    body: 'WHO',
    group: 'sanitary-inspection',
    months: 12,
    source: 'WHO Guidelines for drinking-water quality, ch. 5, and small water supplies guidelines',
    date: '2024',
    seen: 'memory',
  },
]

export type AgainRow = Sourced & { event: AgainEvent; words: string; groups: readonly TestGroup[] }

const row = (
  event: AgainEvent,
  words: string,
  groups: readonly TestGroup[],
  source: string,
  date = 'undated',
): AgainRow => ({
  event,
  words,
  groups,
  source,
  date,
  seen: 'seen',
})

export const AGAIN: readonly AgainRow[] = [
  row(
    'flooded',
    'a flood, or surface water over the well',
    ['bacteria', 'nitrate'],
    'US EPA; US CDC; Health Canada',
  ),
  row(
    'opened',
    'the well, pump or plumbing was repaired, replaced or opened',
    ['bacteria'],
    'US EPA; US CDC',
  ),
  row(
    'changed',
    'taste, smell, colour or clearness changed',
    ['bacteria', 'general', 'metals'],
    'US EPA; US CDC; Lambton Public Health',
  ),
  row(
    'land-disturbed',
    'building, new industry or waste nearby',
    ['general', 'radio-and-organics'],
    'US EPA',
  ),
  row('infant', 'a baby, or someone with child, in the house', ['nitrate', 'bacteria'], 'US EPA'),
  row('season', 'thaw, autumn rain, a long dry spell, or long unused', ['bacteria'], 'Health Canada', '2019'),
  row('wildfire', 'a wildfire nearby', ['bacteria', 'general'], 'Health Canada', '2024'),
  row('illness', 'stomach illness nobody can explain', ['bacteria'], 'Health Canada; US EPA chart'),
  row('septic-trouble', 'septic trouble or a broken well cap', ['bacteria'], 'NGWA text'),
  row(
    'sold',
    'the house was sold',
    ['bacteria', 'nitrate', 'general', 'metals'],
    'NH RSA 477:4-c disclosure; advice page',
  ),
]

/** The analytes of a group, for the bottle list. */
export const GROUP_ANALYTES: Readonly<Record<Exclude<TestGroup, 'sanitary-inspection'>, readonly string[]>> =
  {
    bacteria: ['total-coliform', 'e-coli'],
    nitrate: ['nitrate', 'nitrite'],
    general: ['ph', 'total-dissolved-solids', 'hardness', 'alkalinity', 'chloride', 'sulfate', 'turbidity'],
    metals: ['arsenic', 'copper', 'iron', 'lead', 'manganese', 'sodium', 'fluoride'],
    'radio-and-organics': [
      'uranium',
      'radon',
      'benzene',
      'trichloroethylene',
      'tetrachloroethylene',
      'pfoa',
      'pfos',
    ],
  }
