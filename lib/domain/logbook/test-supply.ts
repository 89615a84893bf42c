import {
  type AvailableDrawdown,
  availableDrawdown,
  checkDemand,
  type DemandCheck,
  inflowM3PerS,
} from '@/lib/domain/yield/tests'
import type { Interval80 } from '@/lib/domain/yield/tests/result'
import type { WellRegister } from './register'
import type { SeasonalLow } from './seasonal-low'
import type { TestResult } from './test-result'

/** Water kept above the intake so that the pump draws no air, m. Common practice, no published source. */
export const KEEP_ABOVE_INTAKE_M = 0.3

export type Supply = {
  available: AvailableDrawdown
  /** Rate that the well carries at that drawdown, m³/s with the interval of its capacity; null where it cannot be said. */
  rate: Interval80 | null
  /** Set against the demand, at pumping all day: what counts is the hours it would take. */
  demand: DemandCheck | null
  /** Why something above is missing. */
  missing: string[]
}

/**
 * What a test means for supply: the rate at the drawdown that is left at the seasonal low, against the well's demand.
 * Assumes the capacity of the test holds down to the intake; the report says where the test went less deep.
 */
export function supplyAtLow(
  result: TestResult,
  low: SeasonalLow,
  well: Pick<WellRegister, 'intakeDepthM' | 'demandM3PerS' | 'storageM3'>,
): Supply {
  const available = availableDrawdown({
    staticM: low.kind === 'low' ? low.levelM : null,
    intakeM: well.intakeDepthM,
    keepAboveIntakeM: KEEP_ABOVE_INTAKE_M,
  })
  const missing: string[] = []
  if (low.kind === 'cannot-say') missing.push(low.message)
  else if (available.kind !== 'available') missing.push(available.message)
  if (!tellsInflow(result)) missing.push('This test gives no capacity, so no rate follows from it.')
  const rate = available.kind === 'available' ? inflowAt(result, available.drawdownM) : null
  const demandM3PerDay = well.demandM3PerS === null ? null : well.demandM3PerS * 86_400
  if (demandM3PerDay === null || !(demandM3PerDay > 0)) {
    missing.push('The demand on this well is not recorded: enter it to compare.')
    return { available, rate, demand: null, missing }
  }
  const demand = rate && checkDemand(rate.value, demandM3PerDay, well.storageM3 ?? 0, 24)
  return { available, rate, demand, missing }
}

/** Whether a test says how much comes in at a drawdown. */
export const tellsInflow = (result: TestResult): boolean => inflowAt(result, 1) !== null

/**
 * Inflow at a drawdown (m), in m³/s with the interval of the capacity; null where the test does not tell it.
 * A step test is turned round: Q from s = BQ + CQ².
 */
export function inflowAt(result: TestResult, drawdownM: number): Interval80 | null {
  if (result.kind === 'step') {
    if (result.fit.kind !== 'fit') return null
    const { bSPerM2: b, cS2PerM5: c } = result.fit
    const value = c > 0 ? (Math.sqrt(b * b + 4 * c * drawdownM) - b) / (2 * c) : drawdownM / b
    return { value, low: value, high: value }
  }
  const { capacity } = result
  return (
    capacity && {
      value: inflowM3PerS(capacity.value, drawdownM),
      low: inflowM3PerS(capacity.low, drawdownM),
      high: inflowM3PerS(capacity.high, drawdownM),
    }
  )
}

/** The deepest drawdown that the test itself saw, m; 0 where none is known. Beyond it an inflow is a guess. */
export function testedDrawdownM(result: TestResult): number {
  switch (result.kind) {
    case 'recovery':
      return result.fit.kind === 'fit' ? result.fit.startDrawdownM : 0
    case 'drawdown':
      return result.fit.kind === 'fit' ? result.fit.drawdownM : 0
    case 'step':
      return Math.max(0, ...result.steps.map((step) => step.drawdownM ?? 0))
  }
}
