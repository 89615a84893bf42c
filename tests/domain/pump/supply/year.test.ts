import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  drivenAt,
  pumpedBySun,
  type SupplyPlan,
  type SupplyYear,
  saySupply,
  simulateYear,
  supplyResult,
} from '@/lib/domain/pump/supply'
import { addDays, monthOf } from '@/lib/domain/quantity/day'
import { anyPlan, cabin, FROM } from './plans'

const whole = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0)
const resultOf = (plan: typeof cabin) => supplyResult(simulateYear(plan), plan.tankM3)

/** What is wrong with the books of one year, hour by hour; empty where they close. */
function wrongIn(plan: SupplyPlan, year: SupplyYear): string[] {
  let before = plan.startM3
  return Array.from(year.tank).flatMap((tank, i) => {
    const [pumped = Number.NaN, delivered = Number.NaN, asked = Number.NaN] = [
      year.pumped[i],
      year.delivered[i],
      year.demand[i],
    ]
    const month = monthOf(addDays(FROM, Math.floor(i / 24)))
    const most = (plan.wellM3PerS[month - 1] ?? Number.NaN) * 3600
    const holds =
      Math.abs(tank - (before + pumped - delivered)) <= 1e-12 * Math.max(1, plan.tankM3) &&
      tank >= -1e-9 &&
      tank <= plan.tankM3 + 1e-9 &&
      delivered >= 0 &&
      delivered <= asked &&
      pumped >= 0 &&
      pumped <= most + 1e-12
    before = tank
    return holds ? [] : [`hour ${i}: ${pumped} in, ${delivered} of ${asked} out, ${tank} m³ left`]
  })
}

describe('the balance of water', () => {
  test('closes to rounding in every hour of any year, and no hour does what it cannot', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        expect(wrongIn(plan, simulateYear(plan))).toEqual([])
      }),
      { numRuns: 60 },
    )
  })

  test('is seen to be broken when a litre is lost', () => {
    const year = simulateYear(cabin)
    year.pumped[1000] = (year.pumped[1000] ?? 0) + 0.001
    expect(wrongIn(cabin, year)).toHaveLength(1)
  })

  test('over a year is what was pumped, delivered and left', () => {
    const year = simulateYear(cabin)
    const left = year.days.at(-1)?.tankM3 ?? Number.NaN
    expect(cabin.startM3 + whole(year.pumped) - whole(year.delivered)).toBeCloseTo(left, 9)
    expect(year.days).toHaveLength(365)
  })

  test('of the days is that of their hours', () => {
    const year = simulateYear(cabin)
    for (const [d, day] of year.days.entries()) {
      expect(day.pumpedM3).toBeCloseTo(whole(year.pumped.slice(24 * d, 24 * d + 24)), 12)
      expect(day.tankM3).toBe(year.tank[24 * d + 23])
      expect(day.lowestM3).toBeLessThanOrEqual(day.tankM3)
    }
  })
})

describe('a year', () => {
  test('is never the worse for more tank, more well, more pump or less demand', () => {
    fc.assert(
      fc.property(anyPlan, fc.double({ min: 1, max: 2, noNaN: true }), (plan, more) => {
        const missing = (changed: typeof plan) => resultOf(changed).missingM3
        const now = missing(plan) + 1e-9
        expect(
          missing({ ...plan, tankM3: plan.tankM3 * more, startM3: plan.startM3 * more }),
        ).toBeLessThanOrEqual(now)
        expect(
          missing({ ...plan, wellM3PerS: plan.wellM3PerS.map((rate) => rate * more) }),
        ).toBeLessThanOrEqual(now)
        expect(missing({ ...plan, drive: drivenAt(plan.drive, more) })).toBeLessThanOrEqual(now)
        const uses = plan.uses.map((use) => ({ ...use, dailyM3: use.dailyM3.map((m3) => m3 / more) }))
        expect(missing({ ...plan, uses })).toBeLessThanOrEqual(now)
      }),
      { numRuns: 25 },
    )
  })

  test('with enough of everything is never short, and says how long the tank would last', () => {
    const result = resultOf(cabin)
    expect(result).toMatchObject({ firstShortDay: null, shortDays: 0, metShare: 1, shortMonths: [] })
    // A full tank of 5 m³ against 0.9 m³ a day in January and 1.9 m³ in July.
    expect(result.fullTankDays[0]).toBeCloseTo(5 / 0.9, 9)
    expect(result.fullTankDays[6]).toBeCloseTo(5 / 1.9, 9)
    expect(result.leastReserve?.days).toBeGreaterThan(0.3)
    expect(result.leastReserve?.days).toBeLessThan(5 / 0.9 + 1e-9)
    expect(saySupply(result, cabin)).toContain('never short')
  })

  test('without any water coming in is short on the day that the tank gives out', () => {
    const dry = { ...cabin, wellM3PerS: new Array<number>(12).fill(0) }
    const result = resultOf(dry)
    // 5 m³ at 0.9 m³ a day: five whole days from 1 March, short on the sixth.
    expect(result.firstShortDay).toBe('2026-03-06')
    expect(result.leastReserve?.days).toBe(0)
    expect(saySupply(result, dry)).toContain('first on 2026-03-06')
  })

  test('with the pump stopped is short while it stands', () => {
    const stopped = { ...cabin, pumpOff: [{ from: '2026-08-01', to: '2026-08-25' }] }
    const result = resultOf(stopped)
    expect(result.shortMonths).toEqual([8])
    expect(result.firstShortDay).toBe('2026-08-03')
  })

  test('without lift in August is short from then until the sun of the first day after it', () => {
    const result = resultOf({ ...cabin, noLiftMonths: [8] })
    expect(result.shortMonths).toEqual([8, 9])
    expect(result.shortDays).toBeGreaterThan(28)
    expect(result.shortDays).toBeLessThanOrEqual(32)
  })

  test('counts the reserve by the demand of the days to come', () => {
    // A tank of 4 m³, nothing coming in after the first day, 1 m³ a day.
    const plan = {
      ...cabin,
      drive: { kind: 'mains' as const, flowM3PerS: 0 },
      tankM3: 400,
      startM3: 400,
      uses: [{ name: 'house', dailyM3: new Array<number>(12).fill(1), pattern: 'even' as const }],
    }
    const result = resultOf(plan)
    expect(result.shortDays).toBe(0)
    // After 365 days 35 m³ are left; the last day whose reserve can be counted to its end has a year's rest before it.
    expect(result.leastReserve).toBeNull()
    const tight = resultOf({ ...plan, tankM3: 40, startM3: 40 })
    expect(tight.firstShortDay).toBe(addDays(FROM, 40))
    expect(tight.leastReserve?.days).toBe(0)
  })

  test('without demand asks for nothing and lacks nothing', () => {
    const result = resultOf({ ...cabin, uses: [] })
    expect(result).toMatchObject({ shortDays: 0, metShare: 1, missingM3: 0 })
    expect(result.fullTankDays.every((days) => days === null)).toBe(true)
  })
})

describe('a pump', () => {
  test('in the sun gives ηP/ρgH, nothing before it turns, and no more than its most', () => {
    const drive = cabin.drive
    // 200 W × 0.8 × 0.35 over 1,000 × 9.80665 × 12.
    expect(pumpedBySun(drive, 500, 12)).toBeCloseTo((0.35 * 80) / (9806.65 * 12), 12)
    expect(pumpedBySun(drive, 100, 12)).toBe(0)
    expect(pumpedBySun(drive, 1200, 12)).toBe(4e-4)
  })

  test('with a table of its own is read off between its rows', () => {
    const drive = {
      kind: 'table' as const,
      rows: [
        { wPerM2: 200, flowM3PerS: 1e-4 },
        { wPerM2: 600, flowM3PerS: 3e-4 },
      ],
    }
    for (const [sun, flow] of [
      [100, 0],
      [200, 1e-4],
      [400, 2e-4],
      [900, 3e-4],
    ] as const)
      expect(pumpedBySun(drive, sun, 0)).toBeCloseTo(flow, 12)
  })

  test('on mains runs in its hours', () => {
    const drive = { kind: 'mains' as const, flowM3PerS: 2e-4, hours: [6, 7] }
    expect([5, 6, 7, 8].map((hour) => pumpedBySun(drive, 0, hour))).toEqual([0, 2e-4, 2e-4, 0])
  })
})

test.each([
  ['a negative tank', { tankM3: -1 }],
  ['more in the tank than it holds', { startM3: 6 }],
  ['eleven months of well', { wellM3PerS: new Array<number>(11).fill(1e-4) }],
  ['an unknown rate', { wellM3PerS: [...cabin.wellM3PerS.slice(1), Number.NaN] }],
  ['no sun for panels', { sunWPerM2: null }],
  ['a pump without head', { drive: { ...cabin.drive, headM: 0 } }],
])('%s is a broken assumption', (_, part) => {
  expect(() => simulateYear({ ...cabin, ...part } as typeof cabin)).toThrow(RangeError)
})
