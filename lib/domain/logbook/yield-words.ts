import { dayFor, daysShown, formatQuantity, fromSi, type UnitSystem } from '@/lib/domain/quantity'
import { addDays, type Day, formatDay } from '@/lib/domain/quantity/day'
import type { CapacityTrend, DateOutlook, YieldCause, YieldStanding } from '@/lib/domain/yield/decline/types'
import type { YieldSummary } from './yield-summary'

/** The cause as a few words for lists and headings. */
export const CAUSE_WORDS: Record<YieldCause, string> = {
  well: 'The well itself',
  'water-table': 'The water table',
  pump: 'The pump',
  steady: 'Holds its capacity',
  unclear: 'Cannot tell yet',
}

/** How a well stands, one of six: a loss in the well is told apart by whether its own readings pass the bar. */
export type YieldWord = 'losing' | 'may-be-losing' | Exclude<YieldCause, 'well'>

export const YIELD_WORDS: Record<YieldWord, string> = {
  losing: 'The well is losing capacity',
  'may-be-losing': 'The well may be losing capacity',
  'water-table': 'The water table falls',
  pump: 'The pump gives less',
  steady: 'Holds its capacity',
  unclear: 'Cannot tell yet',
}

export function yieldWord({ cause, flag }: Pick<YieldSummary, 'cause' | 'flag'>): YieldWord {
  if (cause !== 'well') return cause
  return flag ? 'losing' : 'may-be-losing'
}

/**
 * A sentence of the reckoning, which writes lengths in metres with decimals and days as "10 Mar 2020", for a reader of
 * `units`. Only a length that stands as "1.2 m" and a day that is one are turned; everything else stays as it is.
 */
export function inUnits(sentence: string, units: UnitSystem): string {
  if (units === 'metric') return sentence
  const lengths = sentence.replace(/(\d+\.\d+) m(?![\w²³/])/g, (_, metres: string) => {
    const feet = fromSi(Number(metres), 'ft')
    return `${feet.toFixed(feet < 1 ? 2 : 1)} ft`
  })
  return daysShown(lengths, units)
}

/** Past this many years a date is only "not before". */
const YEARS_TOLD = 25
const DAYS_PER_YEAR = 365.25

/** A date with its 80 % interval in words, as seen from `today`: months, as no reckoning here knows the day. */
export function sayOutlook(outlook: DateOutlook, today: Day): string {
  const { on, low, high } = outlook
  const far = addDays(today, Math.round(YEARS_TOLD * DAYS_PER_YEAR))
  if (on === null || on > far) {
    return low === null ? 'open: no end of the interval is known' : `not before ${monthOfYear(low)}`
  }
  const about = `${on <= today ? 'reached about' : 'about'} ${monthOfYear(on)}`
  if (low !== null && high !== null && high <= far) {
    return `${about}; 8 times in 10 between ${monthOfYear(low)} and ${monthOfYear(high)}`
  }
  return low === null
    ? `${about}; the early end is open`
    : `${about}, not before ${monthOfYear(low)}; the late end is open`
}

/** "Oct 2027". */
export function monthOfYear(day: Day): string {
  return formatDay(day, 'short', 'en-GB').replace(/^\d+ /, '')
}

/** A relative change as "down 12 %", "up 3 %" or "no change to speak of". */
export function sayChange(change: number): string {
  const percent = Math.round(100 * Math.abs(change))
  if (percent === 0) return 'no change to speak of'
  return `${change < 0 ? 'down' : 'up'} ${percent} %`
}

/** The chart of capacity in one plain sentence. */
export function sayCapacity(
  { capacity, baseline, tests, evidence }: YieldStanding,
  units: UnitSystem,
): string {
  if (!capacity)
    return 'No capacity was measured yet: it takes a flow and both levels of one visit, or a fitted test.'
  const last = `Last measured ${show(capacity.m2PerS, units)} on ${dayFor(capacity.on, units)}, ${tests} ${tests === 1 ? 'time' : 'times'} in all.`
  if (!baseline) return `${last} No baseline yet.`
  const change = evidence.capacityChange === null ? '' : ` Since then ${sayChange(evidence.capacityChange)}.`
  return `${last} Baseline ${show(baseline.m2PerS, units)} since ${dayFor(baseline.since, units)}, 8 times in 10 between ${show(baseline.low, units)} and ${show(baseline.high, units)}.${change}`
}

/** What the water table did with season and weather taken out. */
export function sayTable({ evidence }: Pick<YieldStanding, 'evidence'>, units: UnitSystem): string {
  const { staticFallM, staticFallMPerYear, chance } = evidence
  if (staticFallM === null || staticFallMPerYear === null) {
    return 'Too few levels at rest to take season and weather out.'
  }
  if (chance.waterTable <= 0.5 || staticFallM <= 0.1) {
    return 'With season and weather taken out, no fall is seen.'
  }
  return `With season and weather taken out it has fallen ${formatQuantity(staticFallM, 'depth', units)}, about ${formatQuantity(staticFallMPerYear, 'depth', units)} a year.`
}

/** The straight trend with its limits, its p and what that means. */
export function sayTrend(trend: CapacityTrend): string {
  if (trend.kind === 'too-few') {
    return `No trend: ${trend.have} of the ${trend.need} tests that it takes.`
  }
  const { perYear, low, high, p } = trend
  const limits = `8 times in 10 between ${percent(low)} and ${percent(high)} a year`
  return `A straight line through the adjusted values since the baseline goes ${percent(perYear)} a year (${limits}). ${sayP(p)} Method: ${trend.method}.`
}

function sayP(p: number): string {
  const words = p < 0.0001 ? 'p below 0.0001' : `p = ${p.toPrecision(2)}`
  return `${words}: of wells that hold their capacity, ${oftenOf(p)} would show a line as steep by chance.`
}

function oftenOf(p: number): string {
  if (p < 0.0001) return 'fewer than 1 in 10,000'
  const of = p >= 0.01 ? 100 : p >= 0.001 ? 1000 : 10_000
  return `about ${Math.round(p * of)} in ${of.toLocaleString('en-US')}`
}

function percent(change: number): string {
  const size = 100 * Math.abs(change)
  const text = size.toFixed(size < 10 ? 1 : 0)
  return `${change < 0 && Number(text) > 0 ? '−' : '+'}${text} %`
}

const show = (m2PerS: number, units: UnitSystem) => formatQuantity(m2PerS, 'capacity', units)
