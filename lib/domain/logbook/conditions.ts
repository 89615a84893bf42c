import { type Forecast, forecastBrushes, forecastCartridge, LATE_OVER_EARLY } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { ConditionForecast, Duty } from '@/lib/domain/upkeep/types'
import type { CurrentFact } from './entries'
import { begunOn, brushQuestion, cartridgeQuestion } from './wear-questions'

/**
 * When the measured condition of a duty will be reached, from the readings of the logbook; empty for a
 * duty without one, and where nothing was ever measured for it. `doneOn` are the days on which the duty was
 * done: each began a new cartridge or a new set of brushes.
 */
export function measuredCondition(
  duty: Duty,
  facts: readonly CurrentFact[],
  doneOn: readonly Day[],
): ConditionForecast[] {
  if (!duty.condition) return []
  const { kind, limitSi } = duty.condition
  if (kind !== 'pressure_drop' && kind !== 'brush_length') return []
  const begun = begunOn(duty, doneOn)
  const forecast =
    kind === 'pressure_drop' ? cartridge(limitSi, facts, begun) : brushes(limitSi, facts, begun)
  if (forecast === null) return []
  if (forecast.kind === 'cannot-say') return [{ kind, cannotSay: forecast.why }]
  return [
    {
      kind,
      due: forecast.on,
      from: forecast.low,
      to: forecast.high,
      why: [forecast.why, sayCheapest(forecast.changeBy), ...forecast.warnings].join('; '),
    },
  ]
}

const sayCheapest = (changeBy: Day): string =>
  `changing by ${changeBy} costs least, a late day counted ${LATE_OVER_EARLY} times an early one`

function cartridge(
  terminalPa: number,
  facts: readonly CurrentFact[],
  begun: readonly Day[],
): Forecast | null {
  const question = cartridgeQuestion(terminalPa, facts, begun)
  return question && forecastCartridge(question)
}

function brushes(minimumM: number, facts: readonly CurrentFact[], begun: readonly Day[]): Forecast | null {
  const asked = brushQuestion(minimumM, facts, begun)
  if (asked === null || asked.kind === 'cannot-say') return asked
  return forecastBrushes(asked.question)
}
