/** What published guides say about shock chlorination: targets, contact, cautions, and their doubts about dug wells. */
import type { Sourced } from '../types'

type Said = Sourced & { text: string }

const CDC = { source: 'US CDC, Disinfecting Wells (flood)', date: '2004', seen: 'seen' } as const
const AGWT = {
  source: 'American Ground Water Trust, Well disinfection',
  date: 'undated',
  seen: 'seen',
} as const
const ALBERTA = {
  source: 'Alberta Agriculture, Module 6 Shock Chlorination, Agdex 716_a10',
  date: 'undated',
  seen: 'seen',
} as const
const ONTARIO = {
  source: 'Ontario Ministry of the Environment, Water Supply Wells, ch. 8',
  date: 'undated',
  seen: 'seen',
} as const
const BRANT = { source: 'Brant County Health Unit, Ontario', date: 'undated', seen: 'seen' } as const
const WHO_TN1 = {
  source: 'WHO / WEDC Technical note 1, Cleaning and disinfecting wells',
  date: '2013',
  seen: 'seen',
} as const

/** Target strengths, mg/L of available chlorine in the water, and what each is for. */
export const TARGETS: readonly (Sourced & { lowMgL: number; highMgL: number; use: string })[] = [
  { ...ONTARIO, lowMgL: 50, highMgL: 200, use: 'bacteria, the range allowed' },
  {
    source: 'Alberta Health Services, Table 1',
    date: 'undated',
    seen: 'seen',
    lowMgL: 50,
    highMgL: 50,
    use: 'bacteria',
  },
  { ...CDC, lowMgL: 100, highMgL: 100, use: 'after a flood; drilled, bored and dug wells' },
  { ...ALBERTA, lowMgL: 200, highMgL: 200, use: 'iron and sulfur bacteria' },
  { ...AGWT, lowMgL: 200, highMgL: 300, use: 'bacteria' },
]

/** How long the chlorine must stand. */
export const CONTACT: readonly (Sourced & { hours: number; text: string })[] = [
  { ...ONTARIO, hours: 12, text: 'undisturbed at least 12 hours' },
  { ...BRANT, hours: 12, text: 'let sit 12 hours' },
  { ...CDC, hours: 8, text: 'overnight; pump off the next day (8 h is our reading of a night)' },
  { ...WHO_TN1, hours: 0.5, text: 'at least 30 minutes in an emergency, then dewater' },
]

/** Shown beside the calculator and printed on the work sheet, always all of them. */
export const CAUTIONS: readonly Said[] = [
  { ...ALBERTA, text: 'Never mix chlorine with acid, ammonia or any other cleaner: it makes poison gas.' },
  {
    ...CDC,
    text: 'Do not go into a well or pit: gas gathers there and has killed people. Work from above, in moving air.',
  },
  { ...CDC, text: 'Switch the power off before you open the well or clear it.' },
  { ...CDC, text: 'Wear gloves, goggles and an apron. Wash splashes off at once with plain water.' },
  {
    source: 'Mesa County Health Department; Alberta Agriculture',
    date: 'undated',
    seen: 'seen',
    text: 'Dissolve dry chlorine in a bucket of water first: add chlorine to water, never water to chlorine.',
  },
  {
    ...AGWT,
    text: 'Use plain bleach, less than 3 months old, with no scent and no additives. Read its strength on the label.',
  },
  {
    source: 'Rules common to the guides read',
    date: 'undated',
    seen: 'seen',
    text: 'Take out or bypass filters and the softener before you start: chlorine spoils them, and they eat the chlorine.',
  },
  {
    source: 'Town of Madison, Connecticut; US CDC',
    date: 'undated',
    seen: 'seen',
    text: 'Flush through an outside tap, away from the septic system: chlorine kills it.',
  },
  { ...WHO_TN1, text: 'Keep chlorinated water out of streams, ponds and wetlands.' },
  {
    ...CDC,
    text: 'If the water smells of fuel or chemicals, chlorine does not help: stop and call for help.',
  },
  { ...CDC, text: 'Nobody drinks the water until a test is clear.' },
]

/** The published doubts, shown beside the calculator for a large-diameter dug well. */
export const DUG_WELL_DOUBTS: readonly Said[] = [
  { ...BRANT, text: 'Shock chlorination "is not recommended if the well is dug".' },
  { ...AGWT, text: '"Disinfection is not feasible for large-diameter dug wells."' },
  {
    source: 'St. Clair County, Michigan, Well Water Disinfection Procedures',
    date: 'undated',
    seen: 'seen',
    text: '"Dug well chlorination will likely not be successful in permanently eliminating bacterial contamination."',
  },
  {
    ...ALBERTA,
    text: 'Bacteria that come back point to a fault in the structure, not to too little chlorine.',
  },
]

/** Days of normal use before the water is tested again. */
export const RETEST: readonly (Sourced & { days: number })[] = [
  { source: 'Hickory UWCD, after US CDC', date: 'undated', seen: 'seen', days: 5 },
  { source: 'Town of Madison, Connecticut', date: 'undated', seen: 'seen', days: 7 },
]

/** pH in which chlorine works well. */
export const PH_RANGE: Sourced & { low: number; high: number } = { ...AGWT, low: 6, high: 7.5 }

/**
 * Printed dose tables that miss what they say they make, by arithmetic on their own rows (mg/L made, lowest and highest). They
 * are named so that nobody doses by them; the calculator does not follow them.
 */
export const TABLES_AMISS: readonly (Sourced & {
  id: string
  saysMgL: number | null
  makesMgL: readonly [number, number]
  text: string
})[] = [
  {
    id: 'MI-STCLAIR',
    source: 'St. Clair County, Michigan, Well Water Disinfection Procedures, Table 1',
    date: 'undated',
    seen: 'seen',
    saysMgL: 500,
    makesMgL: [214, 804],
    text: 'says 500 mg/L and makes 214 to 804',
  },
  {
    id: 'US-QT100',
    source: 'Shock chlorination procedures, Table 1 (quarts of laundry bleach), author not stated',
    date: 'undated',
    seen: 'seen',
    saysMgL: 100,
    makesMgL: [45, 402],
    text: 'says 100 mg/L and makes 45 to 402: it never gives less than a quarter of a quart nor more than a gallon',
  },
  {
    ...BRANT,
    id: 'ON-BRANT',
    saysMgL: null,
    makesMgL: [33.7, 757.6],
    text: 'names no strength and makes 34 to 758 mg/L from one kind of well to the next',
  },
  {
    id: 'CO-MESA',
    source: 'Mesa County Health Department, Shock Chlorination, Table II',
    date: 'undated',
    seen: 'seen',
    saysMgL: null,
    makesMgL: [419, 524],
    text: 'names no strength and makes 419 to 524 mg/L, more than twice what Ontario allows',
  },
  {
    id: 'CT-MADISON',
    source: 'Town of Madison, Connecticut, How to Chlorinate Your Well',
    date: 'undated',
    seen: 'seen',
    saysMgL: null,
    makesMgL: [44.7, 44.7],
    text: 'makes 45 mg/L in a 6-inch well, under the least of 50 that Ontario asks for',
  },
]
