import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  addDays,
  type DateOrder,
  FIRST_DAY,
  formatDay,
  monthName,
  parseDay,
  parseDayTime,
  parseTime,
} from '@/lib/domain/quantity/day'

const anyDay = fc.integer({ min: 0, max: 109_572 }).map((n) => addDays(FIRST_DAY, n))

describe('parseDay reads', () => {
  test.each<[string, DateOrder | null, string]>([
    ['2026-03-27', null, '2026-03-27'],
    [' 2026-03-27 ', null, '2026-03-27'],
    ['2026-3-7', null, '2026-03-07'],
    ['2026/03/27', 'dmy', '2026-03-27'],
    ['2026-03-27T23:30', null, '2026-03-27'],
    ['2026-03-27T23:30:00.000Z', null, '2026-03-27'],
    ['2026-03-27 00:30:00+13:00', null, '2026-03-27'],
    ['27 Mar 2026', null, '2026-03-27'],
    ['27 March 2026', null, '2026-03-27'],
    ['27th march, 2026', null, '2026-03-27'],
    ['27-Mar-2026', null, '2026-03-27'],
    ['27-Mar-26', 'dmy', '2026-03-27'],
    ['March 27, 2026', null, '2026-03-27'],
    ['Mar 27 2026', null, '2026-03-27'],
    ['Sept. 3, 2026', null, '2026-09-03'],
    ['27\u00a0Mar\u00a02026', null, '2026-03-27'],
    ['27/3/2026', null, '2026-03-27'],
    ['28/10/2025', null, '2025-10-28'],
    ['10/28/2025', null, '2025-10-28'],
    ['03/03/2025', null, '2025-03-03'],
    ['03/04/2025', 'dmy', '2025-04-03'],
    ['03/04/2025', 'mdy', '2025-03-04'],
    ['3.4.2025', 'dmy', '2025-04-03'],
    ['3-27-26', 'mdy', '2026-03-27'],
    ['27/3/70', 'dmy', '1970-03-27'],
    ['27/3/69', 'dmy', '2069-03-27'],
    ['26-03-27', 'ymd', '2026-03-27'],
    ['3/27/2026 2:30 PM', 'mdy', '2026-03-27'],
    ['29/2/2024', null, '2024-02-29'],
  ])('%s (order %s) as %s', (text, order, day) => {
    expect(parseDay(text, order)).toEqual({ ok: true, day })
  })
})

describe('parseDay refuses', () => {
  test.each<[string, DateOrder | null, string]>([
    ['03/04/2025', null, 'ambiguous'],
    ['3-4-2025', null, 'ambiguous'],
    ['01/12/2025', 'ymd', 'ambiguous'],
    ['3-27-26', null, 'ambiguous'],
    ['27-Mar-26', null, 'ambiguous'],
    ['28/10/2025', 'mdy', 'not-real'],
    ['10/28/2025', 'dmy', 'not-real'],
    ['31/02/2025', null, 'not-real'],
    ['31 Jun 2025', null, 'not-real'],
    ['2026-02-30', null, 'not-real'],
    ['2026-13-01', null, 'not-real'],
    ['1866-05-01', null, 'not-real'],
    ['2026-03-27T25:00', null, 'not-real'],
    ['soon', null, 'not-a-date'],
    ['', null, 'not-a-date'],
    ['46108', null, 'not-a-date'],
    ['2026', null, 'not-a-date'],
    ['27 Foo 2026', null, 'not-a-date'],
    ['3/27-2026', null, 'not-a-date'],
    ['03/04/2025/06', 'dmy', 'not-a-date'],
  ])('%s (order %s) as %s', (text, order, reason) => {
    const reading = parseDay(text, order)
    expect(reading).toMatchObject({ ok: false, reason })
    if (!reading.ok) expect(reading.message).toMatch(/^".*" .+/)
  })

  test('prose is refused quickly and quoted in part', () => {
    const reading = parseDay('2 T 2 '.repeat(100_000), null)
    expect(reading).toMatchObject({ ok: false, reason: 'not-a-date' })
    if (!reading.ok) expect(reading.message.length).toBeLessThan(120)
  })

  test('an ambiguous date names both readings', () => {
    const reading = parseDay('03/04/2025', null)
    expect(reading).toMatchObject({ message: expect.stringContaining('3 Apr 2025 or 4 Mar 2025') })
  })

  test('a month that is not real is not blamed where the day is at fault', () => {
    expect(parseDay('31/02/2025', null)).toMatchObject({
      message: expect.stringContaining('no day 31 in month 2'),
    })
  })
})

describe('parseDayTime', () => {
  test('keeps the time where there is one and null where there is none', () => {
    expect(parseDayTime('2026-03-27T09:05', null)).toEqual({ ok: true, day: '2026-03-27', time: '09:05' })
    expect(parseDayTime('Mar 27, 2026 2:30 pm', null)).toEqual({ ok: true, day: '2026-03-27', time: '14:30' })
    expect(parseDayTime('27 Mar 2026, 14:30', null)).toEqual({ ok: true, day: '2026-03-27', time: '14:30' })
    expect(parseDayTime('2026-03-27', null)).toEqual({ ok: true, day: '2026-03-27', time: null })
  })
})

describe('parseTime', () => {
  test.each([
    ['14:30', '14:30'],
    ['9:05', '09:05'],
    ['2:30 pm', '14:30'],
    ['2:30pm', '14:30'],
    ['2 p.m.', '14:00'],
    ['12:15 am', '00:15'],
    ['12 pm', '12:00'],
    ['14h30', '14:30'],
    ['0930', '09:30'],
    ['14:30:59', '14:30'],
    ['00:00', '00:00'],
    ['23:59', '23:59'],
  ])('reads %s as %s', (text, time) => {
    expect(parseTime(text)).toEqual({ ok: true, time })
  })

  test.each([
    ['24:00', 'not-real'],
    ['14:60', 'not-real'],
    ['14:30 pm', 'not-real'],
    ['0:30 am', 'not-real'],
    ['2960', 'not-real'],
    ['9', 'not-a-time'],
    ['noonish', 'not-a-time'],
    ['', 'not-a-time'],
  ])('refuses "%s" as %s', (text, reason) => {
    expect(parseTime(text)).toMatchObject({ ok: false, reason })
  })
})

describe('formatDay', () => {
  test('writes the day as each locale does', () => {
    expect(formatDay('2026-03-07', 'short', 'en-GB')).toBe('7 Mar 2026')
    expect(formatDay('2026-03-07', 'short', 'en-US')).toBe('Mar 7, 2026')
    expect(formatDay('2026-03-27', 'long', 'en-GB')).toBe('27 March 2026')
    expect(formatDay('2026-03-27', 'long', 'en-US')).toBe('March 27, 2026')
    expect(formatDay('2026-03-27', 'iso', 'en-US')).toBe('2026-03-27')
    expect(() => formatDay('2026-02-30', 'iso', 'en-US')).toThrow(RangeError)
  })

  test('whatever is written reads back as the same day, with or without an order', () => {
    const style = fc.constantFrom<'long' | 'short' | 'iso'>('long', 'short', 'iso')
    const locale = fc.constantFrom<'en-US' | 'en-GB'>('en-US', 'en-GB')
    const order = fc.constantFrom<DateOrder | null>('ymd', 'dmy', 'mdy', null)
    fc.assert(
      fc.property(anyDay, style, locale, order, (day, inStyle, inLocale, withOrder) => {
        expect(parseDay(formatDay(day, inStyle, inLocale), withOrder)).toEqual({ ok: true, day })
      }),
    )
  })

  test('a date of three numbers without an order is never given a reading that the other order disputes', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 31 }), fc.integer({ min: 1, max: 31 }), (one, two) => {
        const text = `${one}/${two}/2025`
        const guess = parseDay(text, null)
        const both = [parseDay(text, 'dmy'), parseDay(text, 'mdy')].filter((reading) => reading.ok)
        const days = new Set(both.map((reading) => reading.day))
        expect(guess.ok).toBe(days.size === 1)
        if (guess.ok) expect(days.has(guess.day)).toBe(true)
      }),
    )
  })
})

test('knows twelve months and no thirteenth', () => {
  expect([1, 12].map(monthName)).toEqual(['January', 'December'])
  expect(() => monthName(13)).toThrow(RangeError)
})
