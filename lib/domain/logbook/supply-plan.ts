import { monthlyStatic } from '@/lib/domain/pump'
import {
  type DrawPattern,
  type Drive,
  monthlyClearness,
  type SunTable,
  type SupplyPlan,
  sunOnPlane,
  type WaterUse,
} from '@/lib/domain/pump/supply'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import type { YieldStanding } from '@/lib/domain/yield/decline/types'
import { availableDrawdown, inflowM3PerS } from '@/lib/domain/yield/tests'
import type { CurrentFact } from './entries'
import { NO_EQUIPMENT } from './equipment'
import { liftStanding } from './lift-standing'
import type { WellRegister } from './register'
import { levelSeries } from './series'
import type { SupplyFacts, SupplySide, UseName } from './supply-facts'
import { KEEP_ABOVE_INTAKE_M } from './test-supply'
import { sideBySide } from './wear-questions'

const DAY_S = 86_400
const YEAR_DAYS = 365
const KWH_MJ = 3.6
const WATER_N_PER_M3 = 9806.65

/** What is taken where nobody wrote it down. All common practice, no published source, but for the sky. */
export const SUPPLY_ASSUMED = {
  /** What dust, warmth and cables leave of the panels' rated power. */
  deratingShare: 0.8,
  /** Share of that power under which the pump does not turn. */
  startShare: 0.15,
  /** Share of light that grass throws back. */
  groundShare: 0.2,
  /** Half of the possible sunshine in every month, by FAO 56, eq. 35: 0.25 + 0.50 × 0.5. */
  clearness: 0.5,
} as const

/** Where a number came from: what the page lists under "what this takes for granted". */
export type SupplyGround = {
  flow: { m3PerS: number; from: 'stated' | 'greatest read' | 'last read'; on: Day | null }
  sun: {
    table: NonNullable<SupplyFacts['sun']> | null
    tiltDeg: number
    azimuthDeg: number
    stated: boolean
  } | null
  uses: { from: 'stated' | "the register's demand" }
  well: { capacityM2PerS: number; on: Day; unseenMonths: number[] }
  lift: 'in the water' | 'checked' | 'not known'
}

export type SupplyBasis =
  | { kind: 'plan'; plan: SupplyPlan; ground: SupplyGround; baselineWellM3PerS: number[] | null }
  | { kind: 'cannot-say'; missing: string[] }

/** What is known of the well's yield: lists and pages have it reckoned already. */
export type SupplyYield = Pick<YieldStanding, 'capacity' | 'baseline'>

/**
 * The year to be simulated from `from` on, with what every number rests on; or what is missing for it.
 * The tank starts full. What the well gives in a month is its capacity × the drawdown left at that month's level at rest
 * (its deep side; a month without a reading counts as the deepest).
 */
export function supplyBasis(
  register: WellRegister,
  side: SupplySide,
  facts: readonly CurrentFact[],
  yields: SupplyYield,
  from: Day,
): SupplyBasis {
  const { facts: stated } = side
  const missing: string[] = []
  const need = <T>(value: T | null, words: string): T | null => {
    if (value === null) missing.push(words)
    return value
  }
  const flow = need(
    flowOf(stated, facts, from),
    'the flow of the pump (supply facts, or a flow read on a visit)',
  )
  const tankM3 = need(register.storageM3, 'the storage tank (edit the well)')
  const uses = need(usesOf(stated, register), 'the water asked for (supply facts, or the demand of the well)')
  const levels = need(monthlyLevels(facts), 'a level at rest (log a visit)')
  const intakeM = need(register.intakeDepthM, 'the depth of the intake (edit the well)')
  const { capacity } = yields
  need(capacity, 'the capacity of the well: flow and both levels of one visit, or a test')
  if (stated.drive === 'sun') need(side.latitudeDeg, 'the place of the well on the earth (edit the well)')
  if (!flow || tankM3 === null || !uses || !levels || intakeM === null || !capacity || missing.length > 0) {
    return { kind: 'cannot-say', missing }
  }
  const drive = driveOf(stated, flow.m3PerS, leastHeadM(side, levels.monthsM))
  if (typeof drive === 'string') return { kind: 'cannot-say', missing: [drive] }
  const sun = stated.drive === 'sun' ? sunOf(stated, side.latitudeDeg ?? 0, from) : null
  if (sun && 'why' in sun) return { kind: 'cannot-say', missing: [sun.why] }
  const rates = (m2PerS: number) => levels.monthsM.map((staticM) => rateAt(m2PerS, staticM, intakeM))
  const lift = liftOf(register, side, facts, capacity.m2PerS)
  return {
    kind: 'plan',
    plan: {
      from,
      drive,
      sunWPerM2: sun?.wPerM2 ?? null,
      wellM3PerS: rates(capacity.m2PerS),
      noLiftMonths: lift.months,
      pumpOff: [],
      tankM3,
      startM3: tankM3,
      uses: uses.uses,
    },
    ground: {
      flow,
      sun: sun?.ground ?? null,
      uses: { from: uses.from },
      well: { capacityM2PerS: capacity.m2PerS, on: capacity.on, unseenMonths: levels.unseen },
      lift: lift.says,
    },
    baselineWellM3PerS: yields.baseline ? rates(yields.baseline.m2PerS) : null,
  }
}

/** Readings older than this say little of the pump in place, years. */
const FLOW_YEARS = 3

/** A sun pump is at full sun now and then only: the greatest of what was read counts as that. */
function flowOf(stated: SupplyFacts, facts: readonly CurrentFact[], from: Day): SupplyGround['flow'] | null {
  if (stated.flow) return { m3PerS: stated.flow.si, from: 'stated', on: null }
  const since = addDays(from, -FLOW_YEARS * YEAR_DAYS)
  const read = sideBySide(facts).flatMap(({ on, flowM3PerS }) =>
    flowM3PerS !== null && flowM3PerS > 0 && on >= since ? [{ m3PerS: flowM3PerS, on }] : [],
  )
  const best = stated.drive === 'mains' ? read.at(-1) : read.sort((a, b) => b.m3PerS - a.m3PerS)[0]
  return best ? { ...best, from: stated.drive === 'mains' ? 'last read' : 'greatest read' } : null
}

const PATTERNS: Record<UseName, DrawPattern> = { house: 'house', stock: 'daylight', garden: 'evening' }

function usesOf(
  stated: SupplyFacts,
  { demandM3PerS }: Pick<WellRegister, 'demandM3PerS'>,
): { uses: WaterUse[]; from: SupplyGround['uses']['from'] } | null {
  if (stated.uses.length > 0) {
    const uses = stated.uses.map(({ name, daily, months }) => ({
      name,
      dailyM3: Array.from({ length: 12 }, (_, i) => (months.includes(i + 1) ? daily.si * DAY_S : 0)),
      pattern: PATTERNS[name],
    }))
    return { uses, from: 'stated' }
  }
  if (demandM3PerS === null || !(demandM3PerS > 0)) return null
  const dailyM3 = new Array<number>(12).fill(demandM3PerS * DAY_S)
  return { uses: [{ name: 'house', dailyM3, pattern: 'house' }], from: "the register's demand" }
}

/** Level at rest of each month, m: the deep side of what was read; where nothing was, the deepest of the year. */
function monthlyLevels(facts: readonly CurrentFact[]): { monthsM: number[]; unseen: number[] } | null {
  const read = monthlyStatic(levelSeries(facts).rest.map(({ on, value }) => ({ on, levelM: value })))
  const known = read.filter((level) => level !== null)
  if (known.length === 0) return null
  const deepest = Math.max(...known)
  return {
    monthsM: read.map((level) => level ?? deepest),
    unseen: read.flatMap((level, i) => (level === null ? [i + 1] : [])),
  }
}

function rateAt(capacityM2PerS: number, staticM: number, intakeM: number): number {
  const available = availableDrawdown({ staticM, intakeM, keepAboveIntakeM: KEEP_ABOVE_INTAKE_M })
  return available.kind === 'available' ? inflowM3PerS(capacityM2PerS, available.drawdownM) : 0
}

/** The lift that there is at least: level ground to pump, and the highest level at rest. At least a metre. */
function leastHeadM({ liftM }: SupplySide, monthsM: readonly number[]): number {
  return Math.max(1, (liftM ?? 0) + Math.min(...monthsM))
}

/**
 * Panels are set by the flow at full sun: what they then make of it less sun follows their power. Without their power the
 * flow goes with the sun. Answers a sentence where the panels could not lift that flow.
 */
function driveOf(stated: SupplyFacts, flowM3PerS: number, headM: number): Drive | string {
  if (stated.drive === 'mains') return { kind: 'mains', flowM3PerS }
  const { deratingShare, startShare } = SUPPLY_ASSUMED
  if (!stated.panel || !(stated.panel.si > 0)) {
    return {
      kind: 'table',
      rows: [
        { wPerM2: 1000 * startShare, flowM3PerS: flowM3PerS * startShare },
        { wPerM2: 1000, flowM3PerS },
      ],
    }
  }
  const powerW = stated.panel.si * deratingShare
  const wireToWater = (flowM3PerS * WATER_N_PER_M3 * headM) / powerW
  if (!(wireToWater > 0) || wireToWater > 1) {
    return 'panels and flow that can both be true: so much water cannot be lifted by panels of that power'
  }
  return {
    kind: 'panels',
    ratedW: stated.panel.si,
    deratingShare,
    wireToWater,
    headM,
    startW: startShare * powerW,
    mostM3PerS: flowM3PerS,
  }
}

type Sun = { wPerM2: Float64Array; ground: NonNullable<SupplyGround['sun']> }

function sunOf(stated: SupplyFacts, latitudeDeg: number, from: Day): Sun | { why: string } {
  const shares = stated.sun
    ? monthlyClearness(tableOf(stated.sun), latitudeDeg)
    : { kind: 'clearness' as const, shares: new Array<number>(12).fill(SUPPLY_ASSUMED.clearness) }
  if (shares.kind === 'cannot-say') return { why: `a sun table that can be true. ${shares.message}` }
  const tiltDeg = stated.tiltDeg ?? Math.round(Math.abs(latitudeDeg))
  const azimuthDeg = stated.azimuthDeg ?? (latitudeDeg < 0 ? 180 : 0)
  const plane = { latitudeDeg, tiltDeg, azimuthDeg, groundShare: SUPPLY_ASSUMED.groundShare }
  return {
    wPerM2: sunOnPlane(plane, shares.shares, from, YEAR_DAYS),
    ground: {
      table: stated.sun ?? null,
      tiltDeg,
      azimuthDeg,
      stated: stated.tiltDeg !== undefined && stated.azimuthDeg !== undefined,
    },
  }
}

function tableOf({ kind, values }: NonNullable<SupplyFacts['sun']>): SunTable {
  if (kind === 'energy') return { kind, mjPerM2Day: values.map((kwh) => kwh * KWH_MJ) }
  return kind === 'sunshine' ? { kind, hoursPerDay: values } : { kind, shares: values }
}

/** Months in which a pump on the ground cannot lift the water; none where it hangs in it. */
function liftOf(
  register: WellRegister,
  { facts: { pumpPlace } }: SupplySide,
  facts: readonly CurrentFact[],
  capacityM2PerS: number,
): { months: number[]; says: SupplyGround['lift'] } {
  if (pumpPlace === 'water') return { months: [], says: 'in the water' }
  if (pumpPlace !== 'ground') return { months: [], says: 'not known' }
  const lift = liftStanding(register, register.equipment ?? NO_EQUIPMENT, facts, capacityM2PerS)
  if (lift.kind === 'cannot-say') return { months: [], says: 'not known' }
  return {
    months: lift.months.flatMap(({ month, spareM }) => (spareM !== null && spareM < 0 ? [month] : [])),
    says: 'checked',
  }
}
