import { describe, expect, test } from 'vitest'
import { type MeterReading, questionReading, trackUsage, usedSince } from '@/lib/domain/upkeep'
import { read } from './wells'

const MONTHS = [
  '2024-01-01',
  '2024-02-01',
  '2024-03-01',
  '2024-04-01',
  '2024-05-01',
  '2024-06-01',
  '2024-07-01',
]
/** One reading a month from January 2024. */
const monthly = (...values: number[]) => values.map((value, i) => read(MONTHS[i] ?? '', value))

type Case = [
  name: string,
  readings: MeterReading[],
  rollsAt: number | null,
  used: number | 'cannot-say',
  setAside: string[],
  gaps: number,
]
const CASES: Case[] = [
  ['steady readings', monthly(0, 10, 20, 30), null, 30, [], 0],
  [
    'a meter replaced, with both readings',
    [
      ...monthly(100, 110),
      read('2024-03-01', 4, { explained: 'replaced', replacedFrom: 118, replacedTo: 2 }),
      read('2024-04-01', 14),
    ],
    null,
    // 10 to February, 8 on the old meter, 2 on the new one, then 10.
    30,
    [],
    0,
  ],
  [
    'a meter replaced, the old one read the same day as a line of its own',
    [
      ...monthly(100, 110),
      read('2024-03-01', 118),
      read('2024-03-01', 0, { explained: 'replaced' }),
      read('2024-04-01', 10),
    ],
    null,
    28,
    [],
    0,
  ],
  [
    'a meter replaced, the new one read the same day as a line of its own',
    [
      ...monthly(100, 110),
      read('2024-03-01', 0, { explained: 'replaced', replacedFrom: 118, replacedTo: 0 }),
      read('2024-03-01', 1),
      read('2024-04-01', 11),
    ],
    null,
    29,
    [],
    0,
  ],
  [
    'a meter replaced, the old one never read: the stretch is filled from the pace',
    [
      ...monthly(0, 31, 60),
      read('2024-04-01', 0, { explained: 'replaced' }),
      read('2024-05-01', 30),
      read('2024-06-01', 61),
    ],
    null,
    // 60 and 61 are known; March is filled at about 1 a day, 31.
    152,
    [],
    1,
  ],
  [
    'a meter replaced, the old one never read, and too little to fill it from',
    [...monthly(0, 31), read('2024-03-01', 0, { explained: 'replaced' })],
    null,
    'cannot-say',
    [],
    1,
  ],
  [
    'a roll-over where it rolls over',
    [...monthly(980, 990), read('2024-03-01', 5, { explained: 'rolled-over' })],
    1000,
    25,
    [],
    0,
  ],
  [
    'a roll-over, at what reading unknown',
    [...monthly(980, 990), read('2024-03-01', 5, { explained: 'rolled-over' })],
    null,
    'cannot-say',
    [],
    1,
  ],
  ['a low digit slip', monthly(100, 110, 12, 130, 140), null, 40, ['2024-03-01/12'], 0],
  ['a high digit slip', monthly(100, 110, 1200, 130, 140), null, 40, ['2024-03-01/1200'], 0],
  [
    'a high digit slip on the last reading but one',
    monthly(100, 110, 120, 1300, 140),
    null,
    40,
    ['2024-04-01/1300'],
    0,
  ],
  ['a last reading that runs backward', monthly(100, 110, 120, 90), null, 20, ['2024-04-01/90'], 0],
  [
    'a reset that the reader stands by',
    [...monthly(100, 131), read('2024-03-01', 0, { explained: 'kept' }), read('2024-04-01', 31)],
    null,
    // 31 in January and in March; February is filled at 1 a day.
    91,
    [],
    1,
  ],
  [
    'more hours than a day has',
    monthly(0, 100_000, 200_000, 40_000_000),
    null,
    200_000,
    ['2024-04-01/40000000'],
    0,
  ],
  [
    'three readings in a row that start again: a meter changed without a word',
    monthly(100, 110, 120, 5, 15, 25, 35),
    null,
    // 20 + 30 known, March filled at about a third a day.
    60.5,
    [],
    1,
  ],
]

describe('a meter’s history', () => {
  test.each(CASES)('%s', (_, readings, rollsAt, used, setAside, gaps) => {
    const track = trackUsage(readings, rollsAt)
    expect(track.setAside.map(({ id }) => id)).toEqual(setAside)
    expect(track.gaps.length).toBe(gaps)
    const answer = usedSince(track, readings[0]?.on ?? '')
    if (used === 'cannot-say') {
      expect(answer.kind).toBe('cannot-say')
    } else {
      if (answer.kind !== 'used') throw new Error(answer.why)
      // Filled stretches are estimates: within 2.
      expect(Math.abs(answer.used - used)).toBeLessThanOrEqual(gaps > 0 ? 2 : 1e-9)
      expect(answer.estimated).toBe(gaps > 0)
    }
  })

  test('what is set aside names the reading it disagrees with', () => {
    expect(trackUsage(monthly(100, 110, 12, 130, 140)).setAside[0]?.why).toBe(
      'it is lower than the reading of 1 Feb 2024, and nobody said why',
    )
    expect(trackUsage(monthly(100, 110, 1200, 130, 140)).setAside[0]?.why).toBe(
      'it is higher than the reading of 1 Apr 2024, which came later, and nobody said why',
    )
  })

  test('a leap far beyond every earlier pace waits for a word', () => {
    const quarters = ['2023-01-01', '2023-04-01', '2023-07-01', '2023-10-01', '2024-01-01', '2024-04-01']
    const readings = quarters.map((on, i) => read(on, 30 * i))
    const leap = read('2024-07-01', 3000)
    expect(trackUsage([...readings, leap]).setAside.map(({ id }) => id)).toEqual([leap.id])
    const kept = trackUsage([...readings, { ...leap, explained: 'kept' }])
    expect(kept.setAside).toEqual([])
    expect(kept.last).toEqual({ on: '2024-07-01', value: 3000 })
  })

  test('a day between two readings gets its share of the days, and is called an estimate', () => {
    const track = trackUsage(monthly(0, 31))
    expect(usedSince(track, '2024-01-11')).toEqual({
      kind: 'used',
      used: 21,
      upTo: '2024-02-01',
      estimated: true,
    })
  })

  test('no readings, and a day long before the first, cannot be told', () => {
    expect(usedSince(trackUsage([]), '2024-01-01').kind).toBe('cannot-say')
    expect(usedSince(trackUsage(monthly(0, 31, 60)), '2019-01-01')).toMatchObject({
      kind: 'cannot-say',
      why: expect.stringMatching(/too long after 1 Jan 2019/),
    })
  })

  test.each([-1, Number.NaN, Number.POSITIVE_INFINITY])(
    'a reading of %d is a fault of the caller',
    (value) => {
      expect(() => trackUsage([read('2024-01-01', value)])).toThrow(RangeError)
    },
  )
})

describe('the question put to the reader', () => {
  const H = 3600
  const hours = trackUsage(monthly(0, 100 * H, 200 * H, 300 * H))
  const ask = (on: string, value: number) => questionReading(hours, read(on, value), 'hours')

  test.each([
    ['less than before', '2024-05-01', 250, 'backward', 300, 1044],
    ['more than a later reading', '2024-02-15', 900, 'backward', 100, 200],
    ['more than 24 h a day', '2024-04-03', 900, 'too-fast', 300, 372],
    ['another reading on the same day', '2024-04-01', 900, 'same-day-jump', 276, 324],
  ])('%s', (_, on, h, code, low, high) => {
    const question = ask(on, h * H)
    expect(question?.code).toBe(code)
    expect(question?.expectedBetween).toEqual({ low: low * H, high: high * H })
  })

  test('it names both readings with their days', () => {
    expect(ask('2024-05-01', 250 * H)?.message.replace(/\u00a0/g, ' ')).toBe(
      '250 h on 1 May 2024 is less than the 300 h read on 1 Apr 2024. Was the meter replaced, did it roll over, or is a digit wrong?',
    )
  })

  test('a sound reading, a first reading and an explained one are not questioned', () => {
    expect(ask('2024-05-01', 400 * H)).toBeNull()
    expect(ask('2024-02-15', 150 * H)).toBeNull()
    expect(ask('2024-04-01', 300 * H)).toBeNull()
    expect(questionReading(trackUsage([]), read('2024-05-01', 9e9), 'hours')).toBeNull()
    const replaced = read('2024-05-01', 0, { explained: 'replaced' })
    expect(questionReading(hours, replaced, 'hours')).toBeNull()
  })

  test('a late line from before a change of meters is not held against the new meter', () => {
    const changed = trackUsage([
      ...monthly(0, 100 * H),
      read('2024-04-01', 20 * H, { explained: 'replaced' }),
      read('2024-05-01', 120 * H),
    ])
    expect(questionReading(changed, read('2024-03-01', 200 * H), 'hours')).toBeNull()
  })

  test('a volume is questioned against the pace of its own meter', () => {
    const quarters = ['2023-01-01', '2023-04-01', '2023-07-01', '2023-10-01', '2024-01-01', '2024-04-01']
    const volume = trackUsage(quarters.map((on, i) => read(on, 30 * i)))
    const question = questionReading(volume, read('2024-07-01', 15_000), 'volume')
    expect(question?.code).toBe('too-fast')
    expect(question?.message).toMatch(/more than ten times as fast as this meter ever ran/)
    expect(questionReading(volume, read('2024-07-01', 200), 'volume')).toBeNull()
  })
})
