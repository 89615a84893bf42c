import fc from 'fast-check'
import * as PlainDate from 'temporal-polyfill/fns/PlainDate'
import { describe, expect, test } from 'vitest'
import {
  addDays,
  addMonths,
  compareDays,
  type Day,
  dayOf,
  dayOfYear,
  daysBetween,
  FIRST_DAY,
  isDay,
  isRealDate,
  LAST_DAY,
  monthOf,
  yearOf,
  yearsSince,
} from '@/lib/domain/quantity/day'

/** The oracle: an independent implementation of the same calendar. */
const CALENDAR_DAYS = 109_573
const oracleDay = (n: number): Day => PlainDate.toString(PlainDate.addDays(PlainDate.create(1900, 1, 1), n))
const oracleOf = (day: Day) => PlainDate.create(yearOf(day), monthOf(day), Number(day.slice(8)))
const anyDay = fc.integer({ min: 0, max: CALENDAR_DAYS - 1 }).map(oracleDay)

describe('against the Temporal polyfill', () => {
  test('every day of 1900 to 2199 follows the one before, is a day, and has the same number in its year', () => {
    let record = PlainDate.create(1900, 1, 1)
    let ours: Day = FIRST_DAY
    for (let n = 0; n < CALENDAR_DAYS; n++) {
      const day = PlainDate.toString(record)
      if (
        ours !== day ||
        !isDay(day) ||
        dayOfYear(day) !== PlainDate.dayOfYear(record) ||
        daysBetween(FIRST_DAY, day) !== n
      ) {
        expect.fail(`day ${n}: ours ${ours}, the oracle ${day}`)
      }
      if (n < CALENDAR_DAYS - 1) ours = addDays(ours, 1)
      record = PlainDate.addDays(record, 1)
    }
    expect(ours).toBe(LAST_DAY)
  })

  test('adding and subtracting days agrees for random days and jumps', () => {
    fc.assert(
      fc.property(anyDay, anyDay, (a, b) => {
        const n = daysBetween(a, b)
        expect(addDays(a, n)).toBe(b)
        expect(PlainDate.toString(PlainDate.addDays(oracleOf(a), n))).toBe(b)
      }),
      { numRuns: 2000 },
    )
  })

  test('adding months agrees for random days and 30 years each way', () => {
    fc.assert(
      fc.property(anyDay, fc.integer({ min: -360, max: 360 }), (day, months) => {
        const expected = PlainDate.toString(PlainDate.addMonths(oracleOf(day), months))
        if (expected < FIRST_DAY || expected > LAST_DAY)
          expect(() => addMonths(day, months)).toThrow(RangeError)
        else expect(addMonths(day, months)).toBe(expected)
      }),
      { numRuns: 3000 },
    )
  })

  test('three numbers name a real day exactly when the oracle takes them', () => {
    const parts = fc.tuple(
      fc.integer({ min: 1900, max: 2199 }),
      fc.integer({ min: 0, max: 13 }),
      fc.integer({ min: 0, max: 32 }),
    )
    fc.assert(
      fc.property(parts, ([year, month, dayOfMonth]) => {
        const real = oracleTakes(year, month, dayOfMonth)
        expect(isRealDate(year, month, dayOfMonth)).toBe(real)
        const text = `${year}-${String(month).padStart(2, '0')}-${String(dayOfMonth).padStart(2, '0')}`
        expect(isDay(text)).toBe(real)
      }),
      { numRuns: 3000 },
    )
  })
})

function oracleTakes(year: number, month: number, day: number): boolean {
  try {
    PlainDate.fromFields({ year, month, day }, { overflow: 'reject' })
    return true
  } catch (error) {
    if (error instanceof RangeError) return false
    throw error
  }
}

describe('isDay', () => {
  test.each(['1900-01-01', '2199-12-31', '2000-02-29', '2024-02-29', '2026-03-27'])('takes %s', (text) => {
    expect(isDay(text)).toBe(true)
  })

  test.each([
    '1899-12-31',
    '2200-01-01',
    '1900-02-29',
    '2100-02-29',
    '2023-02-29',
    '2026-04-31',
    '2026-00-10',
    '2026-13-01',
    '2026-01-00',
    '2026-1-01',
    '26-01-01',
    '2026/01/01',
    '2026-01-01 ',
    '2026-01-01T00:00',
    '20a6-01-01',
    '2026-0b-01',
    '',
  ])('refuses "%s"', (text) => {
    expect(isDay(text)).toBe(false)
  })

  test('refuses what is not text', () => {
    for (const value of [null, undefined, 20260327, ['2026-03-27'], {}]) expect(isDay(value)).toBe(false)
  })
})

describe('addMonths', () => {
  test.each<[Day, number, Day]>([
    ['2026-01-31', 1, '2026-02-28'],
    ['2024-01-31', 1, '2024-02-29'],
    ['2026-01-31', 2, '2026-03-31'],
    ['2026-01-31', 3, '2026-04-30'],
    ['2024-02-29', 12, '2025-02-28'],
    ['2024-02-29', 48, '2028-02-29'],
    ['2096-02-29', 48, '2100-02-28'],
    ['2026-03-31', -1, '2026-02-28'],
    ['2026-01-15', -1, '2025-12-15'],
    ['2025-12-31', 1, '2026-01-31'],
    ['2026-06-10', 0, '2026-06-10'],
  ])('%s and %d months make %s', (day, months, expected) => {
    expect(addMonths(day, months)).toBe(expected)
  })

  test('counted from the anchor, a monthly series from 31 January keeps its month ends', () => {
    const series = [0, 1, 2, 3, 4].map((n) => addMonths('2026-01-31', n))
    expect(series).toEqual(['2026-01-31', '2026-02-28', '2026-03-31', '2026-04-30', '2026-05-31'])
  })
})

describe('the rest of the calendar', () => {
  test('days between counts leap days', () => {
    expect(daysBetween('2024-02-28', '2024-03-01')).toBe(2)
    expect(daysBetween('2023-02-28', '2023-03-01')).toBe(1)
    expect(daysBetween('2026-03-01', '2026-02-01')).toBe(-28)
  })

  test('the last day of the year is number 366 in leap years, else 365', () => {
    expect([dayOfYear('2024-12-31'), dayOfYear('2023-12-31'), dayOfYear('2100-12-31')]).toEqual([
      366, 365, 365,
    ])
  })

  test('400 years hold 146 097 days, so yearsSince is whole over them and a fraction within', () => {
    expect(yearsSince('2199-12-31', '1900-01-01')).toBeCloseTo(109_572 / 365.2425, 12)
    expect(yearsSince('2026-01-01', '2025-01-01')).toBeCloseTo(365 / 365.2425, 12)
    expect(yearsSince('2025-01-01', '2026-01-01')).toBeLessThan(0)
  })

  test('compareDays sorts days in time', () => {
    expect(['2026-02-01', '2025-12-31', '2026-01-15'].sort(compareDays)).toEqual([
      '2025-12-31',
      '2026-01-15',
      '2026-02-01',
    ])
    expect(compareDays('2026-01-01', '2026-01-01')).toBe(0)
  })

  test('what is no day, no whole number, or past the calendar throws', () => {
    expect(() => addDays('2026-02-30', 1)).toThrow(RangeError)
    expect(() => addDays('2026-02-01', 0.5)).toThrow(RangeError)
    expect(() => addDays('2026-02-01', Number.NaN)).toThrow(RangeError)
    expect(() => addMonths('2026-02-01', 1.5)).toThrow(RangeError)
    expect(() => addMonths('yesterday', 1)).toThrow(RangeError)
    expect(() => addDays(LAST_DAY, 1)).toThrow(RangeError)
    expect(() => addDays(FIRST_DAY, -1)).toThrow(RangeError)
    expect(() => daysBetween('2026-01-01', 'soon')).toThrow(RangeError)
    expect(() => dayOf(2026, 2, 29)).toThrow(RangeError)
  })
})
