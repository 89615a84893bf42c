import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type BrushQuestion,
  brushCourse,
  type CartridgeQuestion,
  cartridgeCourse,
  changeCost,
  forecastBrushes,
  forecastCartridge,
  hoursBySun,
  hoursByVolume,
  learnedInterval,
  sunRunHours,
} from '@/lib/domain/pump'
import { addDays, daysBetween } from '@/lib/domain/quantity/day'
import { must } from '../../published/hydraulics/readings'
import { simulateBrushes, simulateCartridge } from './wear-sim'

const sim = simulateCartridge(31, 2).question

describe('the course of a cartridge', () => {
  const course = must(cartridgeCourse(sim), 'course')

  test('carries each drop to one flow: less where it was read at more', () => {
    const flows = new Map(sim.readings.map((reading) => [reading.on, reading.flowM3PerS ?? 0]))
    for (const point of course.points) {
      const ratio = (flows.get(point.on) ?? 0) / sim.referenceFlowM3PerS
      expect(Math.sign(point.readPa - point.atReferencePa)).toBe(Math.sign(ratio - 1))
    }
    expect(course.earlier).toHaveLength(2)
  })

  test('never falls with use, holds its middle between its ends, and passes the terminal drop', () => {
    for (const [i, at] of course.curve.entries()) {
      expect(at.lowPa).toBeLessThanOrEqual(at.middlePa)
      expect(at.middlePa).toBeLessThanOrEqual(at.highPa)
      expect(at.middlePa).toBeGreaterThanOrEqual(course.curve[i - 1]?.middlePa ?? 0)
    }
    expect(course.curve.at(-1)?.highPa).toBeGreaterThan(course.terminalPa)
  })

  test('cannot be drawn without a reading of it', () => {
    expect(must(cartridgeCourse({ ...sim, readings: [] }), 'cannot-say').why).toContain('no pressure drop')
  })
})

describe('a reference flow that nobody set', () => {
  test('makes the interval wider and is told', () => {
    const width = (question: CartridgeQuestion) => {
      const { low, high } = must(forecastCartridge(question), 'date')
      return daysBetween(low, high ?? '2199-01-01')
    }
    const doubted = { ...sim, referenceFlowDoubt: 0.15 }
    expect(width(doubted)).toBeGreaterThan(width(sim))
    expect(must(forecastCartridge(doubted), 'date').why).toContain('middle of the flows')
  })
})

describe('a flood on record', () => {
  const readings = Array.from({ length: 7 }, (_, i) => ({
    on: addDays('2022-01-01', 30 * i),
    volumeM3: 100 + 30 * i,
    flowM3PerS: 3e-4,
    dropPa: 1000 * (i === 6 ? 42 : 10 + 1.05 * i),
  }))
  const question = { terminalPa: 70_000, referenceFlowM3PerS: 3e-4, changes: ['2022-01-01'], readings }
  const events = [{ on: '2022-06-15', what: 'flood' }]

  test('explains a leap after it, which then counts at once', () => {
    const told = must(forecastCartridge({ ...question, events }), 'date')
    const untold = must(forecastCartridge(question), 'date')
    expect(told.warnings.join(' ')).toContain('the flood of 2022-06-15 has blinded the cartridge')
    expect(untold.warnings.join(' ')).toContain('read it again')
    expect(told.on < untold.on).toBe(true)
    expect(must(cartridgeCourse({ ...question, events }), 'course').blinding).toMatchObject({ certain: true })
  })

  test('before the readings on course explains nothing', () => {
    const early = [{ on: '2022-03-01', what: 'flood' }]
    expect(must(forecastCartridge({ ...question, events: early }), 'date').warnings.join(' ')).toContain(
      'read it again',
    )
  })
})

describe('the day that costs least', () => {
  test('lies between the early end and the middle', () => {
    const { low, changeBy, on } = must(forecastCartridge(sim), 'date')
    expect(low <= changeBy && changeBy < on).toBe(true)
  })

  test('is the quarter of the lives where a late day costs three early ones', () => {
    // Lives of 1 to 100 days: the cheapest interval is 25.
    const lives = Array.from({ length: 100 }, (_, i) => i + 1)
    const cost = (days: number) => lives.reduce((sum, life) => sum + changeCost(days, life, 3), 0)
    const best = lives.reduce((least, days) => (cost(days) < cost(least) ? days : least), 1)
    expect(best).toBe(25)
  })

  test('is offered with its reason, and never costs more than another interval', () => {
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 1500 }), (other) => {
        const offered = must(learnedInterval(simulateCartridge(21, 4).question, 3, other), 'interval')
        expect(offered.costOfOther).toBeGreaterThanOrEqual(0.97)
        expect(offered.why).toContain('cost least')
      }),
      { numRuns: 8 },
    )
  })
})

describe('hours that no meter counted', () => {
  test('come from volume over the middle flow, across a new meter', () => {
    const volumes = [0, 3.6, 7.2, 1, 4.6].map((volumeM3, i) => ({ on: addDays('2024-01-01', i), volumeM3 }))
    const found = must(hoursByVolume(volumes, [4e-4, 5e-4, 6e-4]), 'hours')
    expect(found.counts.map((c) => c.hours)).toEqual([0, 2, 4, 4, 6].map((h) => expect.closeTo(h, 9)))
    expect(found.why).toContain('volume and flow')
    expect(hoursByVolume(volumes, [0]).kind).toBe('cannot-say')
    expect(hoursByVolume(volumes.slice(0, 1), [1e-4]).kind).toBe('cannot-say')
  })

  test('come from the sun: more in summer, none in polar night', () => {
    const year = must(hoursBySun(['2025-01-01', '2025-07-01', '2026-01-01'], 45, null), 'hours').counts
    expect(year[2]?.hours).toBeGreaterThan(1500)
    expect(year[2]?.hours).toBeLessThan(3500)
    expect(sunRunHours(45, 172, 0.6)).toBeGreaterThan(sunRunHours(45, 355, 0.6))
    expect(sunRunHours(75, 355, 0.6)).toBe(0)
    expect(hoursBySun([], 45, null).kind).toBe('cannot-say')
  })

  test('date brushes as well as a meter does when use is uneven over the year, and say where they come from', () => {
    const set = simulateBrushes(7).question
    const scaled: BrushQuestion = {
      ...set,
      hoursFrom: 'volume',
      readings: set.readings.map((r) => ({ ...r, hours: r.hours === null ? null : 1.3 * r.hours })),
    }
    const [metered, estimated] = [set, scaled].map((question) => must(forecastBrushes(question), 'date'))
    expect(Math.abs(daysBetween(metered?.on ?? '', estimated?.on ?? ''))).toBeLessThan(30)
    expect(estimated?.why).toContain('reckoned from volume and flow')
  })
})

describe('the course of a set of brushes', () => {
  const pair = (lengths: readonly (readonly number[])[]): BrushQuestion => ({
    newM: 0.02,
    minimumM: 0.008,
    replacedOn: ['2020-01-01'],
    readings: lengths.map((lengthsM, i) => ({
      on: addDays('2020-01-01', 100 * i),
      hours: 300 * i,
      lengthsM,
    })),
  })

  test('shows the wear of each brush', () => {
    const course = must(
      brushCourse(
        pair([
          [0.02, 0.02],
          [0.019, 0.0188],
          [0.018, 0.0176],
        ]),
      ),
      'course',
    )
    expect(course.wearPerUse[0]).toBeCloseTo(0.002 / 600, 9)
    expect(course.wearPerUse[1]).toBeCloseTo(0.0024 / 600, 9)
    expect(course.by).toBe('hours')
    expect(course.lifeUse).toBeGreaterThan(2000)
  })

  test('names the one brush that wears suddenly, and what to look at', () => {
    const lengths = [
      [0.02, 0.02],
      [0.0193, 0.0193],
      [0.0187, 0.0187],
      [0.0181, 0.0181],
      [0.0175, 0.0152],
    ]
    const findings = must(brushCourse(pair(lengths)), 'course').findings
    const sudden = findings.find((finding) => finding.kind === 'sudden')
    expect(sudden).toMatchObject({ brush: 2 })
    expect(sudden?.lookAt.join(' ')).toMatch(/commutator.*moisture/)
  })

  test('counts the hours of a day on which only the meter was read', () => {
    const set = pair([[0.02], [0.019], [0.018]])
    const begun = {
      ...set,
      readings: [{ on: '2020-01-01', hours: 0, lengthsM: [] }, ...set.readings.slice(1)],
    }
    expect(must(brushCourse(begun), 'course').points.map((p) => p.used)).toEqual([300, 600])
  })

  test('cannot be drawn without knowing when it was put in', () => {
    expect(brushCourse({ ...pair([[0.02]]), replacedOn: [] }).kind).toBe('cannot-say')
    expect(brushCourse(pair([])).kind).toBe('cannot-say')
  })
})
