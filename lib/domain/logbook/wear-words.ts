import { type Forecast, LATE_OVER_EARLY, type LearnedInterval } from '@/lib/domain/pump'
import { addDays, type Day, daysBetween, monthName } from '@/lib/domain/quantity/day'
import { dayFor, daysShown, formatQuantity, type UnitSystem } from '@/lib/domain/quantity/format'
import type { DutyStanding } from '@/lib/domain/upkeep/types'
import type { LiftStanding } from './lift-standing'
import { evidenceOf } from './pump-standing'
import type { CartridgeStanding, WearStanding } from './wear-standing'

/** Mean length of a month, days. */
const MONTH_DAYS = 365.25 / 12

/** When a part reaches its limit, in sentences; `what` names part and limit ("The cartridge", "its terminal drop"). */
export function sayForecast(
  forecast: Forecast,
  [part, limit]: readonly [part: string, limit: string],
  today: Day,
  units: UnitSystem,
): string {
  if (forecast.kind === 'cannot-say') {
    return `When ${lower(part)} reaches ${limit} cannot be said: ${daysShown(forecast.why, units)}. Until then the calendar counts.`
  }
  const { on, low, high, changeBy, why } = forecast
  // Where the limit was passed before the last reading, nothing is left to forecast.
  if (high !== null && on <= today && daysBetween(low, high) <= 1) {
    return `${part} had reached ${limit} when it was last read, on ${dayFor(on, units)}. This is reckoned ${daysShown(why, units)}.`
  }
  const reaches = on < today ? 'will have reached' : 'reaches'
  const between =
    high === null
      ? `not before ${dayFor(low, units)}; the late end is open`
      : `8 times in 10 between ${dayFor(low, units)} and ${dayFor(high, units)}`
  return `${part} ${reaches} ${limit} about ${dayFor(on, units)}, ${between}. Changing it by ${dayFor(changeBy, units)} costs least, a late day counted ${LATE_OVER_EARLY} times an early one. This is reckoned ${daysShown(why, units)}.`
}

/** The interval that the well's own cartridges suggest: offered with its reason and its cost. */
export function sayInterval(
  { interval, fixedDays }: Extract<CartridgeStanding, { kind: 'known' }>,
  units: UnitSystem,
): string {
  if (interval.kind === 'cannot-say') {
    return `This well's own cartridges suggest no interval yet: ${interval.why}.`
  }
  const { days, volumeM3, why, costOfOther } = interval
  const volume = volumeM3 === null ? '' : ` (${formatQuantity(volumeM3, 'tank', units)})`
  const offer = `This well's own cartridges suggest ${days} days${volume} between changes: ${why}.`
  if (fixedDays === null || costOfOther === null) return offer
  const cost =
    costOfOther < 1.05
      ? 'cost about the same'
      : `cost ${costOfOther.toFixed(1)} times as much by that rule: the offer saves ${Math.round(100 * (1 - 1 / costOfOther))} %`
  return `${offer} The duty's fixed ${fixedDays} days ${cost}. It is an offer: the duty stays as you set it.`
}

/** The limits that a learned interval makes: whole months, and the volume where that is counted. */
export function intervalLimits({ days, volumeM3 }: Extract<LearnedInterval, { kind: 'interval' }>): {
  everyMonths: number
  everyM3: number | null
} {
  const everyM3 = volumeM3 === null ? null : Number(volumeM3.toPrecision(2))
  return { everyMonths: Math.max(1, Math.round(days / MONTH_DAYS)), everyM3 }
}

/** Below this much to spare, what is assumed may use it up, m. */
const LITTLE_M = 1

/** The month in which least lift is left, and how much. */
export function sayLift(lift: LiftStanding, units: UnitSystem): string {
  if (lift.kind === 'cannot-say') {
    return `How much suction lift is left cannot be said. Enter ${lift.enter.join('; ')}.`
  }
  const { tightest, unknown } = lift
  const name = monthName(tightest.month)
  const size = formatQuantity(Math.abs(tightest.spareM), 'margin', units)
  const gap = unknown === 0 ? '' : ` Nothing is known of ${unknown} of the twelve months.`
  if (tightest.spareM < 0) {
    return `Suction lift is least in ${name}, and by this reckoning it falls short by ${size}: the pump may lose its water then.${gap}`
  }
  const little = tightest.spareM < LITTLE_M ? ' That is little: what is assumed below may use it up.' : ''
  return `Suction lift is least in ${name}; ${size} are left then.${little}${gap}`
}

/** How pressing a sentence about wear is: it decides the word and the shape beside it. */
export type Urgent = { tone: 'alarm' | 'watch' | 'note' | 'unsure'; word: string; says: string }

const SOON_DAYS = 30

/**
 * The one sentence about wear and pump that presses most: a measured limit passed or near, then prime, then the pump's
 * own readings, then the next measured limit; else that nothing measured says when.
 */
export function mostUrgent(
  duties: readonly Pick<DutyStanding, 'name' | 'limits'>[],
  { prime, pump }: Pick<WearStanding, 'prime' | 'pump'>,
  today: Day,
  units: UnitSystem,
): Urgent {
  const measured = nextMeasured(duties)
  if (measured && measured.due <= addDays(today, SOON_DAYS)) return sayMeasured(measured, today, units)
  if (prime.lookAt === 'valve' || prime.lookAt === 'joints') {
    const word = prime.lookAt === 'valve' ? 'Look at the check valve' : 'Look at the suction joints'
    return { tone: 'watch', word, says: sentence(daysShown(prime.why, units)) }
  }
  const evidence = evidenceOf(pump)
  if (evidence?.kind === 'evidence' && evidence.says === 'pump') {
    return {
      tone: 'watch',
      word: 'The pump gives less',
      says: `${sentence(evidence.why)} Next: ${evidence.next}.`,
    }
  }
  if (measured) return sayMeasured(measured, today, units)
  return {
    tone: 'unsure',
    word: 'Cannot say',
    says: 'Nothing measured tells yet when a part is worn: the calendar counts.',
  }
}

type Measured = { name: string; due: Day; why: string }

function nextMeasured(duties: readonly Pick<DutyStanding, 'name' | 'limits'>[]): Measured | null {
  const all = duties.flatMap(({ name, limits }) =>
    limits.flatMap(({ basis, due, why }) =>
      basis === 'condition' && due !== null ? [{ name, due, why }] : [],
    ),
  )
  return all.sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : 0))[0] ?? null
}

function sayMeasured({ name, due, why }: Measured, today: Day, units: UnitSystem): Urgent {
  const says = `${name}: by what was measured, ${due < today ? 'since' : 'by'} about ${dayFor(due, units)} (${daysShown(why, units)}).`
  if (due < today) return { tone: 'alarm', word: 'Limit passed', says }
  if (due <= addDays(today, SOON_DAYS)) return { tone: 'watch', word: 'Limit within 30 days', says }
  return { tone: 'note', word: 'Next measured limit', says }
}

/** A clause of the reckoning as a sentence of its own. */
export const sentence = (clause: string): string =>
  `${clause.charAt(0).toUpperCase()}${clause.slice(1)}${/[.!?]$/.test(clause) ? '' : '.'}`

const lower = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`
