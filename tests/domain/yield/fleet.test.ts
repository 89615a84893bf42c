import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { bandOf, callsAcrossFleet, callsByBand, leastOddsCalled } from '@/lib/domain/yield/decline/fleet'
import { FLAG } from '@/lib/domain/yield/decline/priors'

const MARGIN = Math.exp(FLAG.margin)

describe('calls over a fleet', () => {
  test('are none without a flagged well', () => {
    expect(leastOddsCalled([], 100, 0.05)).toBeNull()
  })

  test('hold a single well of many to its part of the share', () => {
    // Of 100 wells the first rank must stay under 0.05 / 100: odds of 2000 and the margin.
    expect(leastOddsCalled([1999 * MARGIN], 100, 0.05)).toBeNull()
    expect(leastOddsCalled([2001 * MARGIN], 100, 0.05)).toBe(2001 * MARGIN)
  })

  test('step up: Benjamini and Hochberg 1995, section 3.2, fifteen p-values of which four are called at 5 %', () => {
    const printed = [
      0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528,
      0.759, 1.0,
    ]
    const least = leastOddsCalled(
      printed.map((p) => MARGIN / p),
      15,
      0.05,
    )
    expect(least).toBeCloseTo(MARGIN / 0.0095, 6)
  })

  test('from the flagged wells alone are those from the whole fleet, where every likely loss is flagged', () => {
    const fleets = fc.array(fc.double({ min: 0.01, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 40 })
    fc.assert(
      fc.property(fleets, fc.double({ min: 0.01, max: 0.4, noNaN: true }), (odds, share) => {
        const wells = odds.map((declineOdds, i) => ({
          well: String(i),
          standing: {
            suspicion: 0,
            flag: declineOdds > MARGIN / share,
            evidence: { ...NOTHING, declineOdds },
          },
        }))
        const flaggedOdds = wells.filter((w) => w.standing.flag).map((w) => w.standing.evidence.declineOdds)
        const least = leastOddsCalled(flaggedOdds, odds.length, share)
        const called = callsAcrossFleet(wells, share).map((w) => w.standing.evidence.declineOdds)
        expect(called.sort()).toEqual(flaggedOdds.filter((one) => least !== null && one >= least).sort())
      }),
    )
  })
})

describe('calls over a fleet, by bands of odds', () => {
  const power = fc.double({ min: -3, max: 9, noNaN: true }).map((one) => 10 ** one)
  const any = fc.oneof(
    power,
    // On and a hair beside the edges of bands.
    fc
      .tuple(fc.nat({ max: 90 }), fc.constantFrom(0, -1, 1))
      .map(([n, off]) => 2 ** (n / 4) * (1 + off * 2e-16)),
    fc.constantFrom(Number.MIN_VALUE, Number.MAX_VALUE, Number.POSITIVE_INFINITY),
  )
  const bandsOf = (odds: readonly number[]) =>
    [...new Set(odds.map(bandOf))].map((band) => ({
      band,
      n: odds.filter((one) => bandOf(one) === band).length,
    }))

  test('are those from all odds, and better odds are never in a lower band', () => {
    let called = 0
    fc.assert(
      fc.property(
        fc.array(any, { maxLength: 60 }),
        fc.nat({ max: 400 }),
        fc.double({ min: 0.01, max: 0.6, noNaN: true }),
        (odds, others, share) => {
          const listed = odds.length + others
          const leastOdds = leastOddsCalled(odds, listed, share)
          const held = odds.filter((one) => leastOdds !== null && one >= leastOdds).length
          const read = (band: number) => odds.filter((one) => bandOf(one) === band)
          expect(callsByBand(bandsOf(odds), listed, share, read)).toEqual({ leastOdds, held })
          const rising = [...odds].sort((a, b) => a - b).map(bandOf)
          expect(rising).toEqual([...rising].sort((a, b) => a - b))
          called += held
        },
      ),
    )
    expect(called).toBeGreaterThan(0)
  })

  test('read the odds near the bar only', () => {
    const odds = Array.from({ length: 4000 }, (_, i) => 1.005 ** i)
    const read: number[] = []
    const calls = callsByBand(bandsOf(odds), 5000, 0.05, (band) => {
      read.push(band)
      return odds.filter((one) => bandOf(one) === band)
    })
    expect(calls.leastOdds).toBe(leastOddsCalled(odds, 5000, 0.05))
    expect(calls.held).toBeGreaterThan(1000)
    expect(read.length).toBeLessThan(4)
  })
})

const NOTHING = {
  declineOdds: 1,
  chance: { well: 0, waterTable: 0, pump: 0 },
  capacityChange: null,
  flowChange: null,
  staticFallM: null,
  staticFallMPerYear: null,
  used: 0,
  mended: 0,
  leftOut: 0,
}
