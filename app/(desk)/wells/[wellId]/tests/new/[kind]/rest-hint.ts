import { span } from '@/lib/domain/yield/tests/result'

/** The last recovery of the well that could be reckoned: how long the water takes to come to rest. */
export type LastRecovery = { on: string; timeConstantS: number } | null

/**
 * How long the pump should be off before the level counts as at rest. After five time constants less than a hundredth
 * of a drawdown is left (exp(−5) = 0.7 %). Two readings that agree: common practice, no published source.
 */
export function restHint(last: LastRecovery, show: (day: string) => string): string {
  const enough = last
    ? `Pump off at least ${span(5 * last.timeConstantS)} before, by the recovery of ${show(last.on)}.`
    : 'Pump off overnight before, where it can be.'
  return `${enough} It is at rest when two readings ten minutes apart agree.`
}
