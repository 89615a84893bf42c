import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type BrushQuestion,
  brushCourse,
  type CartridgeQuestion,
  cartridgeCourse,
  type Forecast,
  forecastBrushes,
  forecastCartridge,
  learnedInterval,
} from '@/lib/domain/pump'
import { addDays, type Day } from '@/lib/domain/quantity/day'

/** Ends in order and around the middle, or a reason; no text with a number that is none. */
function inOrder(answer: Forecast): void {
  const { why } = answer
  expect(why.length).toBeGreaterThan(10)
  expect(why).not.toMatch(/NaN|Infinity|undefined|null/)
  if (answer.kind === 'cannot-say') return
  const { low, on, changeBy, high, warnings } = answer
  for (const day of [low, on, changeBy, high ?? on]) expect(day).toMatch(/^\d{4}-\d{2}-\d{2}$/)
  expect(low <= changeBy && changeBy <= on).toBe(true)
  expect(high === null || on <= high).toBe(true)
  expect(warnings.join(' ')).not.toMatch(/NaN|Infinity|undefined/)
}

function inOrderCartridge(question: CartridgeQuestion): void {
  inOrder(forecastCartridge(question))
  const course = cartridgeCourse(question)
  if (course.kind === 'course') {
    for (const [i, { used, lowPa, middlePa, highPa }] of course.curve.entries()) {
      expect([used, lowPa, middlePa, highPa].every(Number.isFinite)).toBe(true)
      expect(lowPa <= middlePa && middlePa <= highPa).toBe(true)
      expect(middlePa).toBeGreaterThanOrEqual(course.curve[i - 1]?.middlePa ?? 0)
    }
  }
  const interval = learnedInterval(question)
  if (interval.kind === 'interval') expect(interval.days).toBeGreaterThanOrEqual(0)
}

const BASE = { terminalPa: 70_000, referenceFlowM3PerS: 3e-4, changes: ['2022-01-01'] }
const at = (i: number, volumeM3: number | null, dropPa: number) => ({
  on: addDays('2022-01-01', i),
  volumeM3,
  flowM3PerS: 3e-4,
  dropPa,
})

describe('contradictory records of a cartridge', () => {
  const many = (count: number, drop: (i: number) => number, volume: (i: number) => number | null) => ({
    ...BASE,
    readings: Array.from({ length: count }, (_, i) => at(i, volume(i), drop(i))),
  })
  const cases: Record<string, CartridgeQuestion> = {
    'drops that only fall': many(
      8,
      (i) => 60_000 - 6000 * i,
      (i) => 10 * i,
    ),
    'drops that never move': many(
      40,
      () => 20_000,
      (i) => 5 * i,
    ),
    'drops that leap to and fro': many(
      20,
      (i) => (i % 2 ? 5000 : 60_000),
      (i) => 10 * i,
    ),
    'a new volume meter half way': many(
      10,
      (i) => 10_000 + 3000 * i,
      (i) => (i < 5 ? 900 + 10 * i : 10 * (i - 5)),
    ),
    'a meter that stands still': many(
      6,
      (i) => 10_000 + 3000 * i,
      () => 500,
    ),
    'a meter read now and then': many(
      9,
      (i) => 10_000 + 3000 * i,
      (i) => (i % 4 ? null : 10 * i),
    ),
    'every reading on one day': {
      ...BASE,
      readings: [10, 20, 30, 40].map((kPa) => at(0, 100, 1000 * kPa)),
    },
    'new beyond its end': many(
      5,
      () => 500_000,
      (i) => 10 * i,
    ),
    'a drop that can hardly be read': many(
      6,
      (i) => 0.1 + 0.01 * i,
      (i) => 10 * i,
    ),
    'four hundred readings': many(
      400,
      (i) => 10_000 * Math.exp(i / 300),
      (i) => i,
    ),
    'changed every day': {
      ...BASE,
      changes: Array.from({ length: 30 }, (_, i) => addDays('2022-01-01', i)),
      readings: Array.from({ length: 30 }, (_, i) => at(i, i, 12_000)),
    },
    'a change after the last reading': { ...BASE, changes: ['2022-01-01', '2023-01-01'], readings: [] },
  }
  for (const [name, question] of Object.entries(cases)) {
    test(name, () => inOrderCartridge(question))
  }

  test('with floods, doubted flows and meters that fall, in any order', () => {
    const day = fc.integer({ min: 0, max: 2000 }).map((d) => addDays('2018-01-01', d))
    const reading = fc.record({
      on: day,
      volumeM3: fc.option(fc.double({ min: 0, max: 3000, noNaN: true })),
      flowM3PerS: fc.option(fc.integer({ min: 1, max: 3000 }).map((ml) => ml / 1e6)),
      dropPa: fc.integer({ min: 1, max: 3_000_000 }).map((tenths) => tenths / 10),
      of: fc.option(fc.constantFrom<'old' | 'new'>('old', 'new')),
    })
    fc.assert(
      fc.property(
        fc.array(reading, { maxLength: 20 }),
        fc.array(day, { maxLength: 5 }),
        fc.array(day, { maxLength: 2 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.integer({ min: 1000, max: 400_000 }),
        (readings, changes, floods, referenceFlowDoubt, terminalPa) =>
          inOrderCartridge({
            terminalPa,
            referenceFlowM3PerS: 3e-4,
            referenceFlowDoubt,
            events: floods.map((on) => ({ on, what: 'flood' })),
            volumes: readings.flatMap(({ on, volumeM3 }) =>
              volumeM3 === null ? [] : [{ on, count: volumeM3 }],
            ),
            changes,
            readings,
          }),
      ),
      { numRuns: 120 },
    )
  })
})

describe('contradictory records of brushes', () => {
  const set = (
    lengths: number[],
    hours: (i: number) => number | null,
    replacedOn: Day[] = ['2022-01-01'],
  ) => ({
    newM: 0.02,
    minimumM: 0.008,
    replacedOn,
    readings: lengths.map((m, i) => ({ on: addDays('2022-01-01', 60 * i), hours: hours(i), lengthsM: [m] })),
  })
  const cases: Record<string, BrushQuestion> = {
    'brushes that grow': set([0.016, 0.017, 0.018, 0.019], (i) => 200 * i),
    'brushes that never wear': set([0.02, 0.02, 0.02, 0.02, 0.02], (i) => 500 * i),
    'worn out at the first look': set([0.005], (i) => 100 * (i + 1)),
    'an hour meter that stands still': set([0.02, 0.018, 0.016], () => 700),
    'an hour meter changed twice': set(
      [0.02, 0.018, 0.016, 0.014, 0.012],
      (i) => [900, 100, 300, 20, 240][i] ?? 0,
    ),
    'lengths that leap to and fro': set([0.02, 0.01, 0.019, 0.009, 0.018, 0.0095], (i) => 300 * i),
    'two hundred readings': set(
      Array.from({ length: 200 }, (_, i) => 0.02 - 0.00005 * i),
      (i) => 10 * i,
    ),
    'a set put in every other month': set([0.02, 0.019, 0.02, 0.019, 0.02, 0.019], (i) => 150 * i, [
      '2022-01-01',
      '2022-05-01',
      '2022-09-01',
      '2022-09-01',
    ]),
    'worn in a wink by the record': set([0.02, 0.0081], (i) => 0.001 * i),
  }
  for (const [name, question] of Object.entries(cases)) {
    test(name, () => {
      inOrder(forecastBrushes(question))
      const course = brushCourse(question)
      if (course.kind === 'cannot-say') return
      expect(course.lifeLow <= course.lifeUse && course.lifeUse <= course.lifeHigh).toBe(true)
      expect(Number.isFinite(course.lifeHigh)).toBe(true)
    })
  }
})
