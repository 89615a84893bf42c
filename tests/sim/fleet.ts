/**
 * Invented fleets of wells with known truth, for measuring how well declines are told from seasons.
 *
 * The world: a static level that swings with the season and wanders with the weather (with memory), a capacity that
 * falls with the saturated thickness to some power, a pump whose flow sags a little with lift, readings with noise,
 * gaps and blunders, and one thing that goes wrong (or nothing). Every number comes from the seed.
 */
import { addDays, type Day, yearsSince } from '@/lib/domain/quantity/day'
import type { YieldEvent, YieldVisit, YieldWell } from '@/lib/domain/yield/decline/types'
import { type Dice, diceFrom } from './dice'
import { type Course, drawGround } from './ground'
import { firstTime, partLeft } from './losses'
import { readAt } from './reading'
import type { TrueCause, Truth } from './score'
import type { FleetSettings } from './settings'

export type SimulatedWell = {
  id: string
  well: YieldWell
  visits: YieldVisit[]
  events: YieldEvent[]
  truth: Truth
}

const START: Day = '2008-01-01'
const DAYS_PER_YEAR = 365.2425
/** Truth is looked up no further ahead than this. */
const AHEAD_YEARS = 60

/** A fleet of `settings.wells` wells; the same settings give the same fleet. */
export function simulateFleet(settings: FleetSettings): SimulatedWell[] {
  const dice = diceFrom(settings.seed)
  return Array.from({ length: settings.wells }, (_, i) => simulateWell(`S${i + 1}`, settings, dice))
}

function simulateWell(id: string, settings: FleetSettings, dice: Dice): SimulatedWell {
  const first = addDays(START, Math.floor(dice.uniform(0, 10 * DAYS_PER_YEAR)))
  const years = dice.uniform(...settings.years)
  const course = drawCourse(settings, dice, years)
  const ground = drawGround(settings, dice, course)
  const days = visitDays(settings, dice, first, years)
  const visits = days.map((on) => readAt(on, first, ground, settings, dice))
  const demandM3PerS = ground.carriedM3PerS(0) * dice.uniform(...settings.demandPart)
  const end = yearsSince(days[days.length - 1] ?? first, first)
  return {
    id,
    well: {
      wellDepthM: ground.depthM,
      intakeDepthM: ground.intakeM,
      demandM3PerS,
      installedOn: first,
    },
    visits,
    events: eventsOf(course, first),
    truth: truthOf(course, first, end, (t) => ground.carriedM3PerS(t) < demandM3PerS),
  }
}

function drawCourse(settings: FleetSettings, dice: Dice, years: number): Course {
  const cause = drawCause(settings, dice)
  const rehabAt = cause === 'rehabilitated' ? dice.uniform(0.4, 0.75) * years : null
  const onsetAt = dice.uniform(0.05, 0.7) * (rehabAt ?? years)
  const rate = dice.uniform(...settings.ratePerYear)
  const shape = dice.pick(settings.shapes)
  const restored = dice.uniform(0.85, 1.03)
  const replacedAt =
    cause === 'pump' && dice.uniform(0, 1) < settings.pumpsReplaced
      ? dice.uniform(onsetAt / years + 0.2, 0.95) * years
      : null
  const capacityLeft = (t: number): number => {
    if (cause !== 'clogging' && cause !== 'rehabilitated') return 1
    if (rehabAt !== null && t >= rehabAt) return restored * partLeft(shape, rate, t - rehabAt)
    return partLeft(shape, rate, t - onsetAt)
  }
  const pumpLeft = (t: number): number => {
    if (cause !== 'pump' || (replacedAt !== null && t >= replacedAt)) return 1
    return Math.max(0.2, partLeft(shape, rate, t - onsetAt))
  }
  const fallM = cause === 'watertable' ? dice.uniform(...settings.tableFallMPerYear) : 0
  const tableFallM = (t: number): number => fallM * Math.max(0, t - onsetAt)
  return { cause, onsetAt, rehabAt, replacedAt, capacityLeft, pumpLeft, tableFallM }
}

function drawCause(settings: FleetSettings, dice: Dice): TrueCause {
  const causes: TrueCause[] = ['steady', 'clogging', 'watertable', 'pump', 'rehabilitated']
  let left = dice.uniform(0, 1)
  for (const cause of causes) {
    left -= settings.shares[cause]
    if (left < 0) return cause
  }
  return 'steady'
}

/** A well whose worn pump was replaced within the record is a steady one at its end. */
function truthOf(course: Course, first: Day, end: number, short: (t: number) => boolean): Truth {
  const { cause, onsetAt, rehabAt, replacedAt, capacityLeft } = course
  const declines = cause === 'clogging' || cause === 'rehabilitated'
  const until = rehabAt ?? AHEAD_YEARS
  const crosses75At = declines ? firstTime((t) => capacityLeft(t) < 0.75, until - 1e-6) : null
  const shortAt = cause === 'rehabilitated' ? null : firstTime(short, AHEAD_YEARS)
  return {
    cause: replacedAt !== null && replacedAt <= end ? 'steady' : cause,
    onset: cause === 'steady' ? null : later(first, onsetAt),
    crosses75On: crosses75At === null ? null : later(first, crosses75At),
    shortOn: shortAt === null ? null : later(first, shortAt),
    leftAtEnd: capacityLeft(end),
  }
}

function eventsOf({ rehabAt, replacedAt }: Course, first: Day): YieldEvent[] {
  const events: YieldEvent[] = []
  if (rehabAt !== null) events.push({ on: later(first, rehabAt), kind: 'rehabilitated' })
  if (replacedAt !== null) events.push({ on: later(first, replacedAt), kind: 'pump-replaced' })
  return events
}

function visitDays(settings: FleetSettings, dice: Dice, first: Day, years: number): Day[] {
  const count = Math.max(3, Math.round(dice.uniform(...settings.visitsPerYear) * years))
  const offsets = Array.from({ length: count - 1 }, () => Math.floor(dice.uniform(1, years * DAYS_PER_YEAR)))
  return [0, ...new Set(offsets)].sort((a, b) => a - b).map((offset) => addDays(first, offset))
}

function later(first: Day, years: number): Day {
  return addDays(first, Math.round(years * DAYS_PER_YEAR))
}
