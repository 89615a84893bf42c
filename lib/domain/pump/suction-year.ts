import { type Day, monthOf } from '@/lib/domain/quantity/day'
import { quantile } from '@/lib/domain/stats'
import { darcyHead, fittingsHeadM, hazenWilliamsHeadM, type Pipe } from './friction'
import { deepestStatic } from './suction'
import { waterDensityKgPerM3, waterViscosityPaS } from './water-physics'

/** The wetter years are no comfort: of the readings of a month all but the deepest fifth are shallower than this. */
const DEEP_SHARE = 0.8

/**
 * Static level of each month in m below the measuring point, January first: on the deep side of what was read in that
 * month over the years; null where nothing ever was.
 */
export function monthlyStatic(readings: readonly { on: Day; levelM: number }[]): (number | null)[] {
  return Array.from({ length: 12 }, (_, month) => {
    const own = readings.filter((r) => monthOf(r.on) === month + 1).map((r) => r.levelM)
    return own.length === 0 ? null : quantile(own, DEEP_SHARE)
  })
}

export type SuctionLine = {
  pipes: readonly Pipe[]
  /** Sum of the K of foot valve, bends and fittings, at the velocity in the first pipe. */
  kSum: number
  roughnessM: number
  /** For Hazen–Williams; that of old plastic where it is left out. */
  hazenC?: number
}

export type SuctionFriction = {
  /** By Darcy–Weisbach, fittings included: the figure that is used. */
  headM: number
  /** Pipes alone by both laws. */
  darcyM: number
  hazenWilliamsM: number
  /** True where the two differ by more than a quarter: look at bore, roughness and flow. */
  apart: boolean
}

/** For old plastic; 150 is for new. */
const C_PLASTIC = 140

/**
 * Friction of the suction side at a flow and water temperature, by Darcy–Weisbach with Hazen–Williams as the check.
 * Units   m³/s, °C, m. Throws RangeError for sizes that cannot be, and for a line without a pipe.
 */
export function suctionFriction(
  line: SuctionLine,
  flowM3PerS: number,
  temperatureC: number,
): SuctionFriction {
  const [first] = line.pipes
  if (!first) throw new RangeError('a suction line without a pipe')
  const viscosity = waterViscosityPaS(temperatureC) / waterDensityKgPerM3(temperatureC)
  const sum = (of: (pipe: Pipe) => number) => line.pipes.reduce((all, pipe) => all + of(pipe), 0)
  const darcyM = sum((pipe) => darcyHead(pipe, flowM3PerS, line.roughnessM, viscosity).headM)
  const hazenWilliamsM = sum((pipe) => hazenWilliamsHeadM(pipe, flowM3PerS, line.hazenC ?? C_PLASTIC))
  const fittingsM = fittingsHeadM(line.kSum, flowM3PerS, first.insideM)
  const apart = Math.abs(darcyM - hazenWilliamsM) > 0.25 * Math.max(darcyM, hazenWilliamsM)
  return { headM: darcyM + fittingsM, darcyM, hazenWilliamsM, apart }
}

export type SuctionYear = {
  altitudeM: number
  groundToPumpM: number
  /** Temperature of the water in each month, °C. */
  temperatureC: readonly number[]
  line: SuctionLine
  flowM3PerS: number
  /** Flow over drawdown, m²/s; null where it is not known (drawdown is then not reckoned and the answer says so). */
  capacityM2PerS: number | null
  cartridgeDropPa: number
  requiredM: number
}

export type LiftMonth = {
  month: number
  staticM: number | null
  deepestStaticM: number
  /** Suction head to spare over what is asked for, m, and the net positive suction head available; null without a level. */
  spareM: number | null
  availableM: number | null
}

export type LiftOverYear =
  | { kind: 'year'; months: LiftMonth[]; runsOut: number[]; unknown: number[]; says: string }
  | { kind: 'cannot-say'; says: string }

/**
 * Suction head to spare in each month with its own water temperature and static level, and the months in which the
 * lift runs out.
 *
 * Shape   `monthlyStaticM` and `temperatureC` twelve values, January first.
 * Answer  'cannot-say' without a static level in any month, or without the capacity that tells the drawdown.
 * Throws  RangeError for lists that are not twelve long, or sizes that cannot be.
 */
export function liftOverYear(year: SuctionYear, monthlyStaticM: readonly (number | null)[]): LiftOverYear {
  if (monthlyStaticM.length !== 12 || year.temperatureC.length !== 12) {
    throw new RangeError(`${monthlyStaticM.length} levels and ${year.temperatureC.length} temperatures`)
  }
  if (year.capacityM2PerS === null || !(year.capacityM2PerS > 0)) {
    return { kind: 'cannot-say', says: 'The drawdown is not known: read both levels and the flow together.' }
  }
  if (monthlyStaticM.every((level) => level === null)) {
    return { kind: 'cannot-say', says: 'No static level is known in any month: read one at each visit.' }
  }
  const drawdownM = year.flowM3PerS / year.capacityM2PerS
  const months = monthlyStaticM.map((staticM, i): LiftMonth => {
    const temperatureC = year.temperatureC[i] ?? Number.NaN
    const frictionM = suctionFriction(year.line, year.flowM3PerS, temperatureC).headM
    const deepestStaticM = deepestStatic({ ...year, temperatureC, drawdownM, frictionM })
    return {
      month: i + 1,
      staticM,
      deepestStaticM,
      spareM: staticM === null ? null : deepestStaticM - staticM,
      // The deepest level is the one at which just what is asked for is left.
      availableM: staticM === null ? null : year.requiredM + deepestStaticM - staticM,
    }
  })
  const known = months.flatMap((m) => (m.spareM === null ? [] : [{ month: m.month, spareM: m.spareM }]))
  const worst = known.sort((a, b) => a.spareM - b.spareM)
  const runsOut = worst.filter((m) => m.spareM < 0).map((m) => m.month)
  const unknown = months.filter((m) => m.spareM === null).map((m) => m.month)
  return { kind: 'year', months, runsOut, unknown, says: sayLift(runsOut, unknown, worst[0]?.spareM ?? 0) }
}

function sayLift(runsOut: readonly number[], unknown: readonly number[], leastM: number): string {
  const rest = unknown.length === 0 ? '' : ` Nothing is known of ${unknown.length} of the twelve months.`
  if (runsOut.length === 0)
    return `The lift holds in every month with a level; ${leastM.toFixed(1)} m are to spare in the tightest.${rest}`
  const ordered = [...runsOut].sort((a, b) => a - b).join(', ')
  return `The lift runs out in ${runsOut.length === 1 ? 'month' : 'months'} ${ordered} (1 is January), by up to ${(-leastM).toFixed(1)} m.${rest}`
}
