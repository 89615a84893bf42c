import type { RemedyKind, SupplyInput, SupplyPlan, SupplyResult } from '@/lib/domain/pump/supply'
import { addDays, type Day, monthName } from '@/lib/domain/quantity/day'
import { dayFor, displayUnit, formatQuantity, type UnitSystem } from '@/lib/domain/quantity/format'
import { fromSi, toSi } from '@/lib/domain/quantity/units'
import type { SupplyFacts } from './supply-facts'
import { SUPPLY_ASSUMED, type SupplyGround } from './supply-plan'
import { KEEP_ABOVE_INTAKE_M } from './test-supply'

const DAY_S = 86_400
const SOON_DAYS = 30

/** How the year stands, by word: it decides the shape beside it. */
export function supplyTone(
  { firstShortDay }: Pick<SupplyResult, 'firstShortDay'>,
  today: Day,
): { tone: 'alarm' | 'watch' | 'calm'; word: string } {
  if (firstShortDay === null) return { tone: 'calm', word: 'Not short in a usual year' }
  return firstShortDay <= addDays(today, SOON_DAYS)
    ? { tone: 'alarm', word: 'Short within 30 days' }
    : { tone: 'watch', word: 'Runs short this year' }
}

/** Days, or hours where there are few, without a false last digit. */
export function sayLasting(days: number): string {
  if (days < 2) return `${Math.round(days * 24)} hours`
  return `${days < 10 ? days.toFixed(1) : Math.round(days)} days`
}

/** An amount of water as the year is known: two figures, to the nearest or so that it is enough. */
export function sayRoughly(m3: number, units: UnitSystem, to: 'nearest' | 'up' = 'nearest'): string {
  const unit = displayUnit('tank', units)
  const amount = fromSi(m3, unit)
  if (amount <= 0) return formatQuantity(0, 'tank', units)
  const step = 10 ** (Math.floor(Math.log10(amount)) - 1)
  const times = to === 'up' ? Math.ceil(amount / step - 1e-9) : Math.round(amount / step)
  return formatQuantity(toSi(times * step, unit), 'tank', units)
}

export const REMEDY_WORDS: Record<RemedyKind, string> = {
  'bigger-tank': 'A bigger tank',
  'earlier-brush-service': 'Brushes served before they fail',
  'pump-service': 'A pump that gives what it gave when new',
  rehabilitation: 'The well made good again',
  'more-panels': 'Half as many panels again',
}

export const INPUT_WORDS: Record<SupplyInput, string> = {
  tank: 'Tank',
  demand: 'Demand',
  pump: 'Flow of the pump',
  well: 'What the well gives',
  sun: 'Sun',
}

/** All that the year takes for granted, each with where it comes from. */
export function supplyAssumptions(ground: SupplyGround, plan: SupplyPlan, units: UnitSystem): string[] {
  return [
    sayFlow(ground, units),
    ...saySun(ground),
    sayWell(ground, plan, units),
    ground.uses.from === 'stated'
      ? `Water asked for as stated: ${sayUses(plan, units)}. When in the day it is drawn is common practice, no published source.`
      : `No use was stated: the demand of the register, ${sayUses(plan, units)}, counts as a house that draws it all the year. This is an assumption.`,
    `The tank of ${formatQuantity(plan.tankM3, 'tank', units)} can be used whole, and is full on ${dayFor(plan.from, units)}. A float switch stops the pump when it is full.`,
    sayLift(ground, plan),
    'A usual year: no dry spell, no leak, no stop of the pump.',
  ]
}

function sayFlow({ flow }: SupplyGround, units: UnitSystem): string {
  const amount = formatQuantity(flow.m3PerS, 'flow', units)
  if (flow.on === null) return `The pump gives ${amount}, as stated.`
  const which =
    flow.from === 'last read' ? 'the flow last read' : 'the greatest flow read, taken as that of full sun'
  return `The pump gives ${amount}: ${which}, on ${dayFor(flow.on, units)}.`
}

const TABLE_WORDS: Record<NonNullable<SupplyFacts['sun']>['kind'], string> = {
  energy: 'energy on the level, kWh/m² a day',
  sunshine: 'hours of bright sun a day, turned to energy by FAO 56, eq. 35',
  clearness: 'clearness',
}

function saySun({ sun }: SupplyGround): string[] {
  if (!sun) return []
  const { deratingShare, startShare, clearness } = SUPPLY_ASSUMED
  const table = sun.table
    ? `The sun of each month by the table entered here (${TABLE_WORDS[sun.table.kind]}; source: ${sun.table.source}).`
    : `No sun table was entered: the sky is taken to be clear for half of the daylight in every month, so that ${Math.round(100 * clearness)} % of the sun above the air reaches the ground (a clearness of ${clearness}: 0.25 comes through any sky, and 0.50 times the clear share besides; FAO 56, Allen et al. 1998, eq. 35). This is an assumption: enter the table of your place under Supply facts. The row “Sun” under “How sure this is” tells what a fifth more or less would do.`
  return [
    table,
    'Sun above the air by FAO 56, eqs. 21 to 25; the days of a month by Bendt et al. 1981, in the order of Knight et al. 1991; its hours by Collares-Pereira and Rabl 1979; the share of sky light by Erbs et al. 1982; the tilt by Liu and Jordan 1963.',
    `Panels tilted ${sun.tiltDeg}° and turned ${sun.azimuthDeg}° from south${sun.stated ? '' : ' (assumed where it was not stated: tilted to the latitude, facing the noon sun)'}, with ${Math.round(100 * deratingShare)} % of their rated power left by dust, warmth and cables; under ${Math.round(100 * startShare)} % of it the pump does not turn (common practice, no published source). Shade is not counted.`,
  ]
}

function sayWell({ well }: SupplyGround, plan: SupplyPlan, units: UnitSystem): string {
  const least = Math.min(...plan.wellM3PerS)
  const month = monthName(plan.wellM3PerS.indexOf(least) + 1)
  const unseen =
    well.unseenMonths.length === 0
      ? ''
      : ` Nothing was read in ${well.unseenMonths.length} of the twelve months: they count as the deepest.`
  return `The well gives its capacity of ${formatQuantity(well.capacityM2PerS, 'capacity', units)} (${dayFor(well.on, units)}) times the drawdown left at each month's level at rest, with ${formatQuantity(KEEP_ABOVE_INTAKE_M, 'margin', units)} kept over the intake: least in ${month}, ${formatQuantity(least, 'flow', units)}.${unseen}`
}

function sayUses({ uses }: SupplyPlan, units: UnitSystem): string {
  return uses
    .map(({ name, dailyM3 }) => {
      const months = dailyM3.flatMap((m3, i) => (m3 > 0 ? [i + 1] : []))
      const amount = formatQuantity(Math.max(...dailyM3) / DAY_S, 'demand', units)
      return months.length === 12 ? `${name} ${amount}` : `${name} ${amount} in ${sayMonths(months)}`
    })
    .join(', ')
}

const sayMonths = (months: readonly number[]): string =>
  months.map((month) => monthName(month).slice(0, 3)).join(', ')

function sayLift({ lift }: SupplyGround, { noLiftMonths }: SupplyPlan): string {
  if (lift === 'in the water') return 'The pump hangs in the water: no suction lift to lose.'
  if (lift === 'not known') {
    return 'Whether a sucking pump can lift the water in every month is not counted: where the pump stands, or what its lift rests on, is not known.'
  }
  return noLiftMonths.length === 0
    ? 'The suction lift holds in every month with a level (page Wear and pump).'
    : `In ${sayMonths(noLiftMonths)} the suction lift runs out (page Wear and pump): the pump gives nothing then.`
}
