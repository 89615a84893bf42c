import { describe, expect, test } from 'vitest'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { begunOn, brushQuestion, cartridgeQuestion, sideBySide } from '@/lib/domain/logbook/wear-questions'

const fact = (on: string, it: Fact): CurrentFact => ({
  id: `${on} ${it.kind}`,
  spokenBy: '',
  visitId: on,
  on,
  time: null,
  byName: null,
  fact: it,
})
const length = (on: string, mm: number) =>
  fact(on, { kind: 'brush-length', lengths: [{ si: mm / 1000, typed: `${mm} mm` }] })
function asked(facts: CurrentFact[], replacedOn: string[]) {
  const found = brushQuestion(0.008, facts, replacedOn)
  if (found?.kind !== 'asked') throw new Error('nothing is asked')
  return found.question
}

describe('the length of a new brush', () => {
  test('is what sets measured on the day they were put in', () => {
    const facts = [length('2024-01-01', 19), length('2024-06-01', 17), length('2025-01-01', 20)]
    expect(asked(facts, ['2024-01-01', '2025-01-01']).newM).toBeCloseTo(0.0195, 9)
  })

  test('is never that of the old set, measured on the day on which it came out', () => {
    const facts = [length('2024-01-01', 19), length('2024-06-01', 15), length('2025-01-01', 9)]
    expect(asked(facts, ['2025-01-01']).newM).toBeCloseTo(0.019, 9)
  })

  test('is not known where nothing longer than the least was measured, nor anything at all', () => {
    expect(brushQuestion(0.02, [length('2024-01-01', 19)], [])).toMatchObject({ kind: 'cannot-say' })
    expect(brushQuestion(0.008, [], [])).toBeNull()
    expect(cartridgeQuestion(140_000, [], [])).toBeNull()
  })
})

test('readings of one visit stand side by side, each blank left unknown', () => {
  const on = '2025-01-01'
  const [side, ...more] = sideBySide([
    fact(on, { kind: 'flow-reading', flow: { si: 4e-4, typed: '24 L/min' } }),
    fact(on, { kind: 'pressure-reading', before: { si: 2e5, typed: '200 kPa' } }),
    fact(on, { kind: 'electrical-reading', amps: { si: 6, typed: '6 A' } }),
  ])
  expect(more).toEqual([])
  expect(side).toMatchObject({ flowM3PerS: 4e-4, beforePa: 2e5, dropPa: null, amps: 6, volts: null })
  expect(side?.pumpingM).toBeNull()
})

test("what the register says of before the logbook comes first among a part's beginnings", () => {
  expect(begunOn({ lastDoneOn: '2020-01-01' }, ['2024-01-01'])).toEqual(['2020-01-01', '2024-01-01'])
  expect(begunOn({ lastDoneOn: null }, ['2024-01-01'])).toEqual(['2024-01-01'])
})
