import { expect, test } from 'vitest'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { NO_EQUIPMENT } from '@/lib/domain/logbook/equipment'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { flowQuestion, pumpStanding } from '@/lib/domain/logbook/pump-standing'
import { forecastFlow } from '@/lib/domain/pump'
import { addDays } from '@/lib/domain/quantity/day'

const BEGUN = '2022-03-01'
const si = (value: number) => ({ si: value, typed: String(value) })

/** Every two months flow, level, pressure and volts, the flow down by a hundredth each time; amps only where given. */
function visits(amps: (n: number) => number | null): CurrentFact[] {
  return Array.from({ length: 15 }, (_, n) => {
    const current = amps(n)
    const facts: Fact[] = [
      { kind: 'flow-reading', flow: si(4e-4 * 0.99 ** n) },
      { kind: 'level-reading', level: si(3), state: 'pumping' },
      { kind: 'pressure-reading', before: si(2.5e5), after: si(2.4e5) },
      { kind: 'electrical-reading', volts: si(48), ...(current === null ? {} : { amps: si(current) }) },
    ]
    return facts.map(
      (fact, i): CurrentFact => ({
        id: `${n} ${i}`,
        spokenBy: 'outfit',
        visitId: String(n),
        on: addDays(BEGUN, 61 * n),
        time: null,
        byName: null,
        fact,
      }),
    )
  }).flat()
}

const equipment = {
  ...NO_EQUIPMENT,
  liftM: 1,
  pump: {
    name: 'Test pump',
    type: 'displacement' as const,
    power: 'sun' as const,
    brushNewM: null,
    brushMinimumM: null,
    brushCount: null,
    npshRequiredM: null,
    referenceVolts: null,
    sheet: [],
    brushPart: null,
  },
}

function judged(amps: (n: number) => number | null) {
  const facts = visits(amps)
  const standing = pumpStanding(facts, equipment, BEGUN)
  const question = flowQuestion(standing, facts, equipment)
  if (!question) throw new Error('the pump was not asked about')
  return { standing, forecast: forecastFlow(question, 0.8) }
}

test('a limit of flow is dated from flow, head and volts where nobody reads amps', () => {
  const { standing, forecast } = judged(() => null)
  expect(standing.lacking).toEqual([])
  expect(standing.reference?.amps).toBeNull()
  expect(standing.reference?.efficiency).toMatchObject({ kind: 'cannot-say' })
  expect(standing.evidence.displacement).toMatchObject({
    kind: 'evidence',
    ampsRatio: null,
    efficiencyRatio: null,
  })
  expect(forecast).toEqual(judged(() => 6).forecast)
  expect(forecast).toMatchObject({ kind: 'date' })
})

test('amps that are read later count for what they are, and never as nothing before', () => {
  const { standing } = judged((n) => (n < 8 ? null : 6))
  expect(standing.now?.efficiency.kind).toBe('efficiency')
  expect(standing.evidence.displacement).toMatchObject({ ampsRatio: null })
})
