import {
  type LatLon,
  moveCost,
  orderRound,
  orderWithLocks,
  proposeRounds,
  type RoundProblem,
  travelTimes,
  USUAL_DRIVING,
  type WellDue,
} from '@/lib/domain/place'
import { addDays } from '@/lib/domain/quantity'
import { seededStream } from '@/lib/domain/stats'
import { type Figure, milliseconds } from './stats'

const YARD: LatLon = { latitude: 44.5, longitude: -72.6 }
const HOUR_S = 3600
const TODAY = '2026-11-26'

/** Places within about 30 km of the yard, from fixed dice. */
function places(count: number, seed: number): LatLon[] {
  const dice = seededStream(seed)
  return Array.from({ length: count }, () => ({
    latitude: YARD.latitude + (dice() - 0.5) * 0.5,
    longitude: YARD.longitude + (dice() - 0.5) * 0.7,
  }))
}

function round(count: number, withHours: boolean): RoundProblem {
  const travelS = travelTimes([YARD, ...places(count, count)], USUAL_DRIVING)
  const stops = Array.from({ length: count }, (_, i) => ({
    id: `${i}`,
    serviceS: 600,
    // Every fourth owner minds the hour.
    window: {
      notBeforeS: withHours && i % 4 === 0 ? 10 * HOUR_S : null,
      doneByS: withHours && i % 4 === 2 ? 16 * HOUR_S : null,
    },
  }))
  return { travelS, stops, startS: 7 * HOUR_S, endS: 23 * HOUR_S }
}

function fleet(count: number): WellDue[] {
  const dice = seededStream(7)
  return places(count, 3).map((at, i) => ({
    id: String(i).padStart(4, '0'),
    label: `Well ${i}`,
    at,
    closed: null,
    wishes: { window: { notBeforeS: i % 5 === 0 ? 10 * HOUR_S : null, doneByS: null }, notOn: [] },
    notes: [],
    duties: (['health', 'supply', 'wear'] as const).map((consequence) => {
      const due = addDays(TODAY, Math.floor(dice() * 120) - 60)
      return { key: consequence, name: consequence, consequence, due, from: due, serviceS: 1200 }
    }),
  }))
}

const ORDER = Array.from({ length: 40 }, (_, i) => i)
const LOCKED = new Set([3, 11, 19, 27, 35])

/** Times the order of a round, sure and searched, and a week's proposal out of 300 wells that fall due. */
export function benchPlace(): Figure[] {
  const week = [0, 1, 4, 5, 6].map((n) => ({
    day: addDays(TODAY, n),
    startS: 8 * HOUR_S,
    endS: 16 * HOUR_S,
  }))
  const wells = fleet(300)
  const ms = (name: string, run: () => void): Figure => ({ name, value: milliseconds(run), unit: 'ms' })
  return [
    ms('order of 13 stops, sure', () => orderRound(round(13, false))),
    ms('order of 40 stops', () => orderRound(round(40, false))),
    ms('order of 40 stops, every other with hours', () => orderRound(round(40, true))),
    ms('order of 40 stops with hours, five locked', () => orderWithLocks(round(40, true), ORDER, LOCKED)),
    ms('what every move of 40 stops costs', () => {
      const problem = round(40, true)
      for (const from of ORDER) for (const to of ORDER) moveCost(problem, ORDER, from, to)
    }),
    ms('a week proposed out of 300 wells that fall due', () =>
      proposeRounds(wells, week, YARD, { driving: USUAL_DRIVING, setUpS: 600, soonDays: 30 }),
    ),
  ]
}
