import fc from 'fast-check'
import { expect, test } from 'vitest'
import { extraterrestrialMjPerM2 } from '@/lib/domain/pump'
import {
  clearnessFromSunshine,
  clearnessOfDays,
  demandByHour,
  hourShares,
  MEAN_DAYS,
  monthlyClearness,
  onPlaneWPerM2,
  sunOnPlane,
} from '@/lib/domain/pump/supply'
import { must } from '../../../published/hydraulics/readings'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const level = (latitudeDeg: number) => ({ latitudeDeg, tiltDeg: 0, azimuthDeg: 0, groundShare: 0.2 })

test('the hours of a day sum to the day, or to nothing in polar night', () => {
  fc.assert(
    fc.property(between(-89, 89), fc.integer({ min: 1, max: 365 }), (latitude, day) => {
      const sum = hourShares(latitude, day).reduce((all, share) => all + share, 0)
      if (extraterrestrialMjPerM2(latitude, day) > 0.05) expect(sum).toBeCloseTo(1, 9)
      else expect(sum === 0 || Math.abs(sum - 1) < 1e-9).toBe(true)
    }),
  )
})

test('the days of a month keep its mean, whatever it is', () => {
  fc.assert(
    fc.property(between(0.1, 0.8), fc.integer({ min: 28, max: 31 }), (mean, count) => {
      const days = clearnessOfDays(mean, count)
      expect(days).toHaveLength(count)
      expect(days.reduce((sum, k) => sum + k, 0) / count).toBeCloseTo(mean, 9)
      expect(Math.min(...days)).toBeGreaterThan(0)
      expect(Math.max(...days)).toBeLessThan(1)
    }),
  )
})

test('a year on the level is the user’s own table, month by month', () => {
  const mjPerM2Day = [5, 8, 12, 16, 20, 22, 23, 20, 15, 10, 6, 4]
  const { shares } = must(monthlyClearness({ kind: 'energy', mjPerM2Day }, 44), 'clearness')
  const power = sunOnPlane(level(44), shares, '2027-01-01', 365)
  const lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
  let from = 0
  for (const [month, length] of lengths.entries()) {
    const hours = power.slice(24 * from, 24 * (from + length))
    const perDay = (hours.reduce((sum, watts) => sum + watts, 0) * 3600) / 1e6 / length
    // The mean day of a month stands for the month: within 6 % of the table.
    expect(Math.abs(perDay / (mjPerM2Day[month] ?? 0) - 1)).toBeLessThan(0.06)
    from += length
  }
})

test('sunshine hours and their energy give the same clearness', () => {
  const shares = must(
    monthlyClearness({ kind: 'sunshine', hoursPerDay: new Array<number>(12).fill(5) }, 30),
    'clearness',
  ).shares
  expect(shares[0]).toBeLessThan(0.51)
  expect(shares.every((share) => share > 0.25 && share < 0.75)).toBe(true)
  expect(() => clearnessFromSunshine(9, 8)).toThrow(RangeError)
})

test.each([
  ['kWh taken for MJ', { kind: 'energy' as const, mjPerM2Day: new Array<number>(12).fill(2.4) }, 'month'],
  [
    'a table for another place',
    { kind: 'energy' as const, mjPerM2Day: new Array<number>(12).fill(30) },
    'month 1',
  ],
  [
    'more sunshine than day',
    { kind: 'sunshine' as const, hoursPerDay: new Array<number>(12).fill(13) },
    'month 1',
  ],
  [
    'a negative value',
    { kind: 'clearness' as const, shares: [-0.1, ...new Array<number>(11).fill(0.5)] },
    'month 1',
  ],
])('%s is told by its month, not used', (_, table, words) => {
  expect(must(monthlyClearness(table, 44), 'cannot-say').message).toContain(words)
})

test('a plane tilted to the sun gets more of a winter noon, one turned from it less', () => {
  const facing = (azimuthDeg: number, tiltDeg: number) =>
    onPlaneWPerM2({ latitudeDeg: 44, tiltDeg, azimuthDeg, groundShare: 0.2 }, MEAN_DAYS[11], 12, 300)
  expect(facing(0, 60)).toBeGreaterThan(300)
  expect(facing(180, 60)).toBeLessThan(300)
  expect(facing(0, 0)).toBeCloseTo(300, 9)
})

test('light on a plane is never negative and never runs away at a low sun', () => {
  fc.assert(
    fc.property(
      between(-65, 65),
      between(0, 90),
      fc.integer({ min: 1, max: 365 }),
      fc.integer({ min: 0, max: 23 }),
      between(0, 1000),
      (latitudeDeg, tiltDeg, day, hour, watts) => {
        const found = onPlaneWPerM2(
          { latitudeDeg, tiltDeg, azimuthDeg: 0, groundShare: 0.2 },
          day,
          hour,
          watts,
        )
        expect(found).toBeGreaterThanOrEqual(0)
        expect(found).toBeLessThan(14 * watts + 1e-9)
      },
    ),
  )
})

test('the hours of a demand sum to its day', () => {
  const hours = demandByHour([
    { name: 'house', dailyM3: new Array<number>(12).fill(0.7), pattern: 'house' },
    { name: 'garden', dailyM3: [0, 0, 0, 0, 1, 1, 1, 1, 0, 0, 0, 0], pattern: 'evening' },
  ])
  expect(hours[0]?.reduce((sum, m3) => sum + m3, 0)).toBeCloseTo(0.7, 12)
  expect(hours[6]?.reduce((sum, m3) => sum + m3, 0)).toBeCloseTo(1.7, 12)
  expect(() => demandByHour([{ name: 'x', dailyM3: [1], pattern: 'even' }])).toThrow(RangeError)
  const negative = { name: 'x', dailyM3: new Array<number>(12).fill(-1), pattern: 'even' as const }
  expect(() => demandByHour([negative])).toThrow(RangeError)
})
