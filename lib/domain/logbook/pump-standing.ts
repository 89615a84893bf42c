import {
  type Efficiency,
  GRAVITY_M_PER_S2,
  type PumpEvidence,
  type PumpReading,
  type PumpType,
  pumpEvidence,
  wireToWater,
} from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { CurrentFact } from './entries'
import { type Side, sideBySide } from './wear-questions'

/** Flow, head, volts and amps of one visit, with what the water gains of the power drawn. */
export type PumpSide = PumpReading & { on: Day; efficiency: Efficiency }

export type PumpStanding = {
  /** The first full reading since the pump in place was put in, and the last; null where there is none. */
  reference: PumpSide | null
  now: PumpSide | null
  /** The register does not hold how the pump works: what the readings say if it is the one or the other. */
  evidence: Record<PumpType, PumpEvidence>
  /** What is lacking for a full reading, in words; empty where there are two. */
  lacking: string[]
}

const WATER_KG_PER_M3 = 1000

/**
 * The pump's readings at first and now, and what they say to "pump or well?".
 *
 * Head   pumping level, lift from level ground to the pump, and the pressure on the gauge before the cartridge: what the
 *        pump pushes against, but for friction before that gauge. A visit without one of them is no full reading.
 */
export function pumpStanding(
  facts: readonly CurrentFact[],
  liftM: number | null,
  installedOn: Day | null,
): PumpStanding {
  const putInOn = lastPumpOn(facts) ?? installedOn ?? ''
  const sides = sideBySide(facts).filter(({ on }) => on >= putInOn)
  const full = sides.flatMap((side) => fullReading(side, liftM))
  const reference = full[0] ?? null
  const last = full.at(-1) ?? null
  const now = last === reference ? null : last
  const evidence = (type: PumpType) => pumpEvidence({ type, reference, now: now ?? last })
  return {
    reference,
    now,
    evidence:
      now === null
        ? { centrifugal: lone(reference), displacement: lone(reference) }
        : { centrifugal: evidence('centrifugal'), displacement: evidence('displacement') },
    lacking: now === null ? lackingOf(sides, liftM, reference !== null) : [],
  }
}

/** One full reading is a reference and nothing to hold against it. */
const lone = (reference: PumpSide | null): PumpEvidence => ({
  kind: 'cannot-say',
  why:
    reference === null
      ? 'flow, pumping level, pressure, volts and amps were never read on one visit of this pump'
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
  if (volts === null || amps === null) return []
  const headM = pumpingM + liftM + beforePa / (WATER_KG_PER_M3 * GRAVITY_M_PER_S2)
  return [{ on, flowM3PerS, headM, volts, amps, efficiency: wireToWater(flowM3PerS, headM, volts * amps) }]
}

const NEEDED: readonly [Exclude<keyof Side, 'on' | 'lengthsM'>, string][] = [
  ['flowM3PerS', 'flow'],
  ['pumpingM', 'the level while pumping'],
  ['beforePa', 'the pressure before the cartridge'],
  ['volts', 'volts'],
  ['amps', 'amps'],
]

function lackingOf(sides: readonly Side[], liftM: number | null, once: boolean): string[] {
  const never = NEEDED.filter(([key]) => sides.every((side) => side[key] === null)).map(([, word]) => word)
  const register = liftM === null ? ['the lift to the pump (in the register)'] : []
  if (never.length + register.length > 0) return [...register, ...never]
  return once ? ['a second visit with all of them'] : ['one visit with all of them']
}
