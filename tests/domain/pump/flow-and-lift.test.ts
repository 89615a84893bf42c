import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type CurvePoint,
  type FlowQuestion,
  flowPoints,
  forecastFlow,
  forecastLift,
  liftOverYear,
  pumpEvidenceOver,
  readFittings,
} from '@/lib/domain/pump'
import { addDays, daysBetween } from '@/lib/domain/quantity/day'
import { dice, normal } from '../yield/tests/simulate'

const NEW = '2020-03-01'
const reference = { on: NEW, flowM3PerS: 4e-4, headM: 30, volts: 48, amps: 6 }
const SHEET: CurvePoint[] = [
  { flowM3PerS: 0, headM: 40 },
  { flowM3PerS: 4e-4, headM: 30 },
  { flowM3PerS: 6e-4, headM: 17.5 },
]

/** A pump that loses an even share a year, read on other heads and voltages with errors of the hand. */
function worn(
  seed: number,
  lossPerYear: number,
  count: number,
  everyDays: number,
  error = 0.04,
): FlowQuestion {
  const roll = dice(seed)
  const readings = Array.from({ length: count }, (_, i) => {
    const on = addDays(NEW, everyDays * (i + 1))
    const volts = 46 + 4 * roll()
    const share = Math.exp((-lossPerYear * daysBetween(NEW, on)) / 365.25 + error * normal(roll))
    return {
      on,
      flowM3PerS: reference.flowM3PerS * (volts / 48) * share,
      headM: 26 + 8 * roll(),
      volts,
      amps: 6,
    }
  })
  return { type: 'displacement', power: 'sun', reference, readings, sheet: [] }
}

describe('flow at a known head and voltage as a limit', () => {
  test('gives a date near the true one, and its interval holds it about as often as it says', () => {
    const truth = addDays(NEW, Math.round((-Math.log(0.75) / 0.08) * 365.25))
    const answers = Array.from({ length: 200 }, (_, i) => forecastFlow(worn(100 + i, 0.08, 8, 120), 0.75))
    const dated = answers.flatMap((answer) => (answer.kind === 'date' ? [answer] : []))
    expect(dated.length).toBeGreaterThan(120)
    const held = dated.filter(({ low, high }) => low <= truth && (high === null || truth <= high))
    expect(held.length / dated.length).toBeGreaterThan(0.7)
    expect(held.length / dated.length).toBeLessThan(0.97)
    const off = dated.map(({ on }) => Math.abs(daysBetween(truth, on))).sort((a, b) => a - b)
    expect(off[off.length >> 1]).toBeLessThan(250)
  })

  test('has no date for a pump that holds, nor from too few readings', () => {
    const sound = Array.from({ length: 100 }, (_, i) => forecastFlow(worn(900 + i, 0, 8, 120), 0.75))
    expect(sound.filter(({ kind }) => kind === 'date').length).toBeLessThan(12)
    expect(forecastFlow(worn(1, 0.2, 2, 200), 0.75)).toMatchObject({ kind: 'cannot-say' })
    expect(forecastFlow(worn(1, 0.2, 6, 20), 0.75)).toMatchObject({ kind: 'cannot-say' })
    expect(() => forecastFlow(worn(1, 0.2, 6, 100), 1.2)).toThrow(RangeError)
  })

  test('takes low sun and more head for what they are, and a motor on mains for one speed', () => {
    const now = { on: addDays(NEW, 400), flowM3PerS: 4e-4 * 0.9, headM: 30, volts: 48 * 0.9, amps: 5 }
    const sun = {
      type: 'displacement' as const,
      power: 'sun' as const,
      reference,
      readings: [now],
      sheet: [],
    }
    expect(flowPoints(sun)[0]?.share).toBeCloseTo(1, 9)
    expect(flowPoints({ ...sun, power: 'mains' })[0]?.share).toBeCloseTo(0.9, 9)
    const deep = { ...now, headM: 35, volts: 48, flowM3PerS: 4e-4 * Math.sqrt(0.5) }
    const jet = { ...sun, type: 'centrifugal' as const, readings: [deep], sheet: SHEET }
    expect(flowPoints(jet)[0]?.share).toBeCloseTo(1, 1)
  })
})

describe('the pump held against itself over all readings', () => {
  test('is worn by the run of them, and no single slip makes it so or hides it', () => {
    const question = worn(7, 0.12, 8, 150)
    expect(pumpEvidenceOver(question)).toMatchObject({ kind: 'evidence', says: 'pump' })
    const slipped = question.readings.map((r, i) => (i === 7 ? { ...r, flowM3PerS: r.flowM3PerS * 1.4 } : r))
    expect(pumpEvidenceOver({ ...question, readings: slipped })).toMatchObject({ says: 'pump' })
    const sound = worn(8, 0, 8, 150)
    const once = sound.readings.map((r, i) => (i === 7 ? { ...r, flowM3PerS: r.flowM3PerS * 0.6 } : r))
    const told = pumpEvidenceOver({ ...sound, readings: once })
    expect(told.kind === 'evidence' && told.says).not.toBe('pump')
  })
})

describe('suction lift as a limit', () => {
  const months = (deepestStaticM: number) => {
    const year = liftOverYear(
      {
        altitudeM: 0,
        groundToPumpM: 1,
        temperatureC: Array.from({ length: 12 }, () => 12),
        line: { pipes: [{ lengthM: 8, insideM: 0.035 }], kSum: 5, roughnessM: 7e-6 },
        flowM3PerS: 4e-4,
        capacityM2PerS: 4e-4,
        cartridgeDropPa: 0,
        requiredM: 3,
      },
      Array.from({ length: 12 }, () => 2),
    )
    if (year.kind !== 'year') throw new Error(year.says)
    return year.months.map((month) => ({ ...month, deepestStaticM }))
  }
  const levels = (fallMPerYear: number, seed = 3) => {
    const roll = dice(seed)
    return Array.from({ length: 24 }, (_, i) => {
      const on = addDays('2020-01-15', 91 * i)
      const season = 0.4 * Math.cos(((i % 4) / 4) * 2 * Math.PI)
      return { on, levelM: 2 + season + (fallMPerYear * 91 * i) / 365.25 + 0.08 * normal(roll) }
    })
  }

  test('names a day in the season in which the falling table takes it', () => {
    const told = forecastLift({ levels: levels(0.25), months: months(5), marginM: 0.5 })
    if (told.kind !== 'date') throw new Error(told.why)
    // 2 m and 0.4 m of season against 4.5 m: the winters of 2028 are the first that reach it.
    expect(told.on > '2027-01-01' && told.on < '2030-12-31').toBe(true)
    expect(told.low <= told.changeBy && told.changeBy <= told.on).toBe(true)
    expect(told.why).toContain('falls by about')
  })

  test('says that a table which holds does not take it, and what few levels cannot say', () => {
    expect(forecastLift({ levels: levels(0), months: months(5), marginM: 0.5 })).toMatchObject({
      kind: 'cannot-say',
    })
    expect(forecastLift({ levels: levels(0.2).slice(0, 3), months: months(5), marginM: 0.5 }).kind).toBe(
      'cannot-say',
    )
  })

  test('is reached at once where it has run out already', () => {
    const told = forecastLift({ levels: levels(0), months: months(1.5), marginM: 0 })
    expect(told).toMatchObject({ kind: 'date', on: levels(0).at(-1)?.on })
  })

  test('common practice, no published source: 5 to 6 ft to water leave ample lift for a surface pump at sea level', () => {
    const [january] = months(0)
    const year = liftOverYear(
      {
        altitudeM: 0,
        groundToPumpM: 0,
        temperatureC: Array.from({ length: 12 }, () => 12),
        line: { pipes: [{ lengthM: 8, insideM: 0.035 }], kSum: 5, roughnessM: 7e-6 },
        flowM3PerS: 9.5 * 6.30902e-5,
        capacityM2PerS: 4e-4,
        cartridgeDropPa: 0,
        requiredM: 3,
      },
      Array.from({ length: 12 }, () => 6 * 0.3048),
    )
    if (year.kind !== 'year') throw new Error(year.says)
    expect(january).toBeDefined()
    expect(year.runsOut).toEqual([])
    for (const { spareM, availableM } of year.months) {
      expect(spareM).toBeGreaterThan(2)
      expect(availableM).toBeCloseTo((spareM ?? 0) + 3, 9)
    }
  })
})

describe('fittings in words', () => {
  test('add up, each with its number', () => {
    expect(readFittings('foot valve, check valve and 2 elbows')).toEqual({
      kind: 'sum',
      kSum: 2.5 + 2.5 + 1.8,
    })
    expect(readFittings('K 4; 3 x 45 elbow')).toEqual({ kind: 'sum', kSum: 4 + 3 * 0.4 })
    expect(readFittings('flux gate')).toMatchObject({ kind: 'problem' })
  })

  test('never add up to less than nothing, whatever is typed', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => {
        const reading = readFittings(text)
        return reading.kind === 'problem' || (Number.isFinite(reading.kSum) && reading.kSum >= 0)
      }),
    )
  })
})
