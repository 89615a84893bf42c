import {
  type Forecast,
  forecastBrushes,
  forecastCartridge,
  forecastFlow,
  forecastLift,
  LATE_OVER_EARLY,
} from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { ConditionForecast, ConditionKind, Duty } from '@/lib/domain/upkeep/types'
import type { CurrentFact } from './entries'
import { NO_EQUIPMENT } from './equipment'
import { liftStanding } from './lift-standing'
import { flowQuestion, pumpStanding } from './pump-standing'
import type { WellRegister } from './register'
import { levelSeries } from './series'
import { begunOn, brushQuestion, cartridgeQuestion } from './wear-questions'

/** What a condition is reckoned from. `doneOn`: the days on which the duty was done, each the start of a new part. */
export type ConditionBasis = {
  register: WellRegister
  facts: readonly CurrentFact[]
  doneOn: readonly Day[]
  /** Specific capacity of the well as last told, m²/s. */
  capacityM2PerS: number | null
}

/**
 * When the measured condition of a duty will be reached, from the readings of the logbook; empty for a
 * duty without one, and where nothing was ever measured for it.
 */
export function measuredCondition(duty: Duty, basis: ConditionBasis): ConditionForecast[] {
  if (!duty.condition) return []
  const { kind, limitSi, from } = duty.condition
  const forecast = FORECASTS[kind](limitSi, duty, basis)
  if (forecast === null) return []
  const model = from === undefined ? [] : [`the limit is that of the model ${from}`]
  if (forecast.kind === 'cannot-say') return [{ kind, cannotSay: [forecast.why, ...model].join('; ') }]
  return [
    {
      kind,
      due: forecast.on,
      from: forecast.low,
      to: forecast.high,
      why: [forecast.why, sayCheapest(forecast.changeBy), ...model, ...forecast.warnings].join('; '),
    },
  ]
}

const sayCheapest = (changeBy: Day): string =>
  `changing by ${changeBy} costs least, a late day counted ${LATE_OVER_EARLY} times an early one`

type ForecastOf = (limitSi: number, duty: Duty, basis: ConditionBasis) => Forecast | null

const FORECASTS: Readonly<Record<ConditionKind, ForecastOf>> = {
  pressure_drop: (terminalPa, duty, { register, facts, doneOn }) => {
    const question = cartridgeQuestion(
      terminalPa,
      facts,
      begunOn(duty, doneOn),
      equipmentOf(register).cartridge,
    )
    return question && forecastCartridge(question)
  },
  brush_length: (minimumM, duty, { register, facts, doneOn }) => {
    const asked = brushQuestion(minimumM, facts, begunOn(duty, doneOn), equipmentOf(register))
    if (asked === null || asked.kind === 'cannot-say') return asked
    return forecastBrushes(asked.question)
  },
  flow_share: (share, _, basis) => flow(basis, () => share),
  flow: (m3PerS, _, basis) => flow(basis, (reference) => m3PerS / reference),
  lift_margin: (marginM, _, { register, facts, capacityM2PerS }) => {
    const lift = liftStanding(register, equipmentOf(register), facts, capacityM2PerS)
    if (lift.kind === 'cannot-say') {
      return {
        kind: 'cannot-say',
        why: `how much suction lift is left cannot be said: enter ${lift.enter.join('; ')}`,
      }
    }
    const levels = levelSeries(facts).rest.map(({ on, value }) => ({ on, levelM: value }))
    return forecastLift({ levels, months: lift.months, marginM })
  },
}

const equipmentOf = (register: WellRegister) => register.equipment ?? NO_EQUIPMENT

function flow({ register, facts }: ConditionBasis, shareOf: (referenceM3PerS: number) => number): Forecast {
  const equipment = equipmentOf(register)
  const standing = pumpStanding(facts, equipment, register.installedOn)
  const question = flowQuestion(standing, facts, equipment)
  if (!question) {
    const lacks = standing.reference
      ? 'how the pump works is not in the register: name its model'
      : `flow, head and volts of one visit are needed first: ${standing.lacking.join(', ')}`
    return { kind: 'cannot-say', why: lacks }
  }
  const share = shareOf(question.reference.flowM3PerS)
  if (!(share > 0 && share < 1)) {
    return { kind: 'cannot-say', why: 'the least flow is not less than what this pump gave when new' }
  }
  return forecastFlow(question, share)
}
