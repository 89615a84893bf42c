import {
  type Efficiency,
  efficiencyOf,
  type FlowPoint,
  type FlowQuestion,
  flowPoints,
  GRAVITY_M_PER_S2,
  type PumpEvidence,
  type PumpPower,
  type PumpReading,
  type PumpType,
  pumpEvidenceOver,
} from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { CurrentFact } from './entries'
import type { Equipment } from './equipment'
import { type Side, sideBySide } from './wear-questions'

/** Flow, head and volts of one visit, with amps where they were read, and with what the water gains of the power drawn. */
export type PumpSide = PumpReading & { on: Day; efficiency: Efficiency }

export type PumpStanding = {
  /** What the pump gave at first: by the register, or else by its first full reading. Null where there is none. */
  reference: PumpSide | null
  referenceFrom: 'register' | 'logbook'
  /** The last full reading; null where there is none after the reference. */
  now: PumpSide | null
  /** How the pump works and what drives it; null where the register does not say. */
  type: PumpType | null
  power: PumpPower | null
  /** What the readings say if it is the one or the other kind of pump: of use where the register does not say. */
  evidence: Record<PumpType, PumpEvidence>
  /** Every full reading as a share of new, by kind of pump, oldest first. */
  shares: Record<PumpType, FlowPoint[]>
  /** What is lacking for a full reading, in words; empty where there are two. */
  lacking: string[]
}

const WATER_KG_PER_M3 = 1000

/**
 * The pump's readings at first and since, and what they say to "pump or well?".
 *
 * Head   pumping level, lift from level ground to the pump, and the pressure on the gauge before the cartridge: what the
 *        pump pushes against, but for friction before that gauge. A visit without one of them is no full reading.
 */
export function pumpStanding(
  facts: readonly CurrentFact[],
  equipment: Equipment,
  installedOn: Day | null,
): PumpStanding {
  const { liftM, pump } = equipment
  const changedOn = lastPumpOn(facts)
  const putInOn = changedOn ?? installedOn ?? ''
  const sides = sideBySide(facts).filter(({ on }) => on >= putInOn)
  const full = sides.flatMap((side) => fullReading(side, liftM))
  const stated = statedReference(equipment, putInOn, changedOn)
  const reference = stated ?? full[0] ?? null
  const later = reference ? full.filter(({ on }) => on > reference.on) : []
  const now = later.at(-1) ?? null
  const question = (type: PumpType): FlowQuestion | null =>
    reference && now
      ? { type, power: pump?.power ?? null, reference, readings: later, sheet: pump?.sheet ?? [] }
      : null
  const each = <T>(of: (type: PumpType) => T): Record<PumpType, T> => ({
    centrifugal: of('centrifugal'),
    displacement: of('displacement'),
  })
  const over = <T>(type: PumpType, of: (question: FlowQuestion) => T, none: T): T => {
    const asked = question(type)
    return asked ? of(asked) : none
  }
  return {
    reference,
    referenceFrom: stated ? 'register' : 'logbook',
    now,
    type: pump?.type ?? null,
    power: pump?.power ?? null,
    evidence: each((type) => over(type, pumpEvidenceOver, lone(reference))),
    shares: each((type) => over(type, flowPoints, [])),
    lacking: now === null ? lackingOf(sides, liftM, reference !== null) : [],
  }
}

/** The evidence for the kind of pump that the register names; null where it names none and the two kinds differ. */
export function evidenceOf({ type, evidence }: Pick<PumpStanding, 'type' | 'evidence'>): PumpEvidence | null {
  if (type !== null) return evidence[type]
  const { centrifugal, displacement } = evidence
  if (centrifugal.kind === 'cannot-say' || displacement.kind === 'cannot-say') return null
  return centrifugal.says === displacement.says ? centrifugal : null
}

/** What is asked about the flow of this pump in time; null where its kind or its readings are not known. */
export function flowQuestion(
  { reference, type, power }: PumpStanding,
  facts: readonly CurrentFact[],
  { liftM, pump }: Equipment,
): FlowQuestion | null {
  if (!reference || type === null) return null
  const readings = sideBySide(facts).flatMap((side) => fullReading(side, liftM))
  return { type, power, reference, readings, sheet: pump?.sheet ?? [] }
}

/** The register's word on the pump when new; of no use for a pump that was replaced since. */
function statedReference(
  { reference: { on, flowM3PerS, headM, amps, volts } }: Equipment,
  putInOn: Day,
  changedOn: Day | null,
): PumpSide | null {
  if (flowM3PerS === null || headM === null || volts === null) return null
  if (changedOn !== null && (on === null || on < changedOn)) return null
  const day = on ?? putInOn
  if (day === '') return null
  return sideOf(day, { flowM3PerS, headM, volts, amps })
}

/** One full reading is a reference and nothing to hold against it. */
const lone = (reference: PumpSide | null): PumpEvidence => ({
  kind: 'cannot-say',
  why:
    reference === null
      ? 'flow, pumping level, pressure and volts were never read on one visit of this pump'
      : `there is one full reading of this pump only, of ${reference.on}`,
  next: 'measure flow, both levels, pressure, volts and amps together',
})

function lastPumpOn(facts: readonly CurrentFact[]): Day | null {
  const days = facts.flatMap(({ fact, on }) =>
    fact.kind === 'event' && fact.event === 'pump-replaced' ? [on] : [],
  )
  return days.at(-1) ?? null
}

function fullReading(side: Side, liftM: number | null): PumpSide[] {
  const { on, flowM3PerS, pumpingM, beforePa, volts, amps } = side
  if (flowM3PerS === null || pumpingM === null || beforePa === null || liftM === null) return []
  if (volts === null) return []
  const headM = pumpingM + liftM + beforePa / (WATER_KG_PER_M3 * GRAVITY_M_PER_S2)
  return [sideOf(on, { flowM3PerS, headM, volts, amps })]
}

/** Where nobody read amps, the efficiency says that it cannot be told. */
const sideOf = (on: Day, reading: PumpReading): PumpSide => ({
  on,
  ...reading,
  efficiency: efficiencyOf(reading),
})

const NEEDED: readonly [Exclude<keyof Side, 'on' | 'lengthsM'>, string][] = [
  ['flowM3PerS', 'flow'],
  ['pumpingM', 'the level while pumping'],
  ['beforePa', 'the pressure before the cartridge'],
  ['volts', 'volts'],
]

function lackingOf(sides: readonly Side[], liftM: number | null, once: boolean): string[] {
  const never = NEEDED.filter(([key]) => sides.every((side) => side[key] === null)).map(([, word]) => word)
  const register = liftM === null ? ['the lift to the pump (in the register)'] : []
  if (never.length + register.length > 0) return [...register, ...never]
  return once ? ['a second visit with all of them'] : ['one visit with all of them']
}
