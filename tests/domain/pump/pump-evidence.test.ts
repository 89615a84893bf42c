import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { atSpeed, flowAtHead, primeStanding, pumpCurve, pumpEvidence, valveTest } from '@/lib/domain/pump'
import { must } from '../../published/hydraulics/readings'

const reference = { flowM3PerS: 6e-4, headM: 12, volts: 24, amps: 8 }
const sheet = [
  { flowM3PerS: 0, headM: 16 },
  { flowM3PerS: 6e-4, headM: 12 },
  { flowM3PerS: 9e-4, headM: 7 },
]
const curve = pumpCurve(sheet)
const newFlow = (headM: number, speed = 1) => (curve ? flowAtHead(curve, headM, speed) : Number.NaN)
const ask = (now: typeof reference) =>
  must(pumpEvidence({ type: 'centrifugal', reference, now, sheet }), 'evidence')

describe('pump or well', () => {
  test('a fallen table takes flow along the curve: not the pump', () => {
    const found = ask({ ...reference, headM: 14.5, flowM3PerS: newFlow(14.5) })
    expect(found.flowRatio).toBeCloseTo(newFlow(12) / 6e-4, 6)
    expect(found).toMatchObject({ says: 'not-pump', next: 'look at the well or the water table' })
  })

  test('a low sun is taken out by the affinity laws', () => {
    const dim = atSpeed({ flowM3PerS: 6e-4, headM: 12, powerW: 192 }, 20 / 24)
    const found = ask({ flowM3PerS: dim.flowM3PerS, headM: dim.headM, volts: 20, amps: dim.powerW / 20 })
    expect(found.flowRatio).toBeCloseTo(1, 6)
    expect(found.ampsRatio).toBeCloseTo(1, 6)
    expect(found.efficiencyRatio).toBeCloseTo(1, 6)
    expect(found.says).toBe('not-pump')
  })

  test.each([
    [8, 'impeller or diaphragm'],
    [10, 'binds'],
    [6, 'air on the suction side'],
  ])('a third less at the same head and %s A is the pump, and amps say where to look', (amps, words) => {
    const found = ask({ ...reference, flowM3PerS: 4e-4, amps })
    expect(found.says).toBe('pump')
    expect(found.why).toContain('67 %')
    expect(found.next).toContain(words)
  })

  test('a tenth less is left open', () => {
    expect(ask({ ...reference, flowM3PerS: 5.4e-4 }).says).toBe('unclear')
  })

  test('with one point only the curve is guessed, and a greater head leaves more open', () => {
    const now = { ...reference, headM: 14.5, flowM3PerS: 2.9e-4 }
    const guessed = must(pumpEvidence({ type: 'centrifugal', reference, now }), 'evidence')
    expect(Math.abs(guessed.logOdds)).toBeLessThan(Math.abs(ask(now).logOdds) + 1e-9)
  })

  test('a displacement pump owes its flow to speed, not to head', () => {
    const now = { ...reference, headM: 20 }
    expect(must(pumpEvidence({ type: 'displacement', reference, now }), 'evidence').flowRatio).toBeCloseTo(
      1,
      9,
    )
  })

  test('the less a pump gives, the more it is the pump, and more than new never is', () => {
    const odds = (share: number) => ask({ ...reference, flowM3PerS: share * 6e-4, amps: 20 }).logOdds
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        (share, less) => {
          expect(odds(share * less)).toBeGreaterThanOrEqual(odds(share) - 1e-9)
          expect(odds(1 + share / 5)).toBeLessThan(0)
        },
      ),
    )
  })

  test('clearly more than when new is a reading to check, never a verdict', () => {
    const now = { ...reference, flowM3PerS: 1.5 * 6e-4, amps: 20 }
    const found = must(pumpEvidence({ type: 'centrifugal', reference, now, sheet }), 'cannot-say')
    expect(found.why).toContain('150 %')
    expect(found.next).toContain('check flow')
  })

  test.each([
    ['no reference', null, reference],
    ['no reading', reference, null],
    ['half the voltage', reference, { ...reference, volts: 12 }],
    ['more power out than in', reference, { ...reference, amps: 0.5 }],
    ['an impossible reference', { ...reference, amps: 0.5 }, reference],
    ['a reference without flow', { ...reference, flowM3PerS: 0 }, reference],
    ['a head of nothing', reference, { ...reference, headM: 0 }],
    ['a head at which the new pump stalls', reference, { ...reference, headM: 40, amps: 60 }],
  ])('cannot be said with %s, and says what to measure', (_, before, now) => {
    const found = must(pumpEvidence({ type: 'centrifugal', reference: before, now }), 'cannot-say')
    expect(found.why.length).toBeGreaterThan(10)
    expect(found.next).toMatch(/measure|check|record/)
  })
})

describe('a pump curve', () => {
  test('goes through the points of its own parabola and stalls at its shut-off head', () => {
    const exact = pumpCurve([4e-4, 8e-4].map((q) => ({ flowM3PerS: q, headM: 15 - 8e6 * q * q })))
    expect(exact?.shutOffM).toBeCloseTo(15, 9)
    expect(exact ? flowAtHead(exact, 15 - 8e6 * 36e-8) : Number.NaN).toBeCloseTo(6e-4, 9)
    expect(exact ? flowAtHead(exact, 16) : Number.NaN).toBe(0)
    expect(() => (exact ? flowAtHead(exact, 5, 0) : null)).toThrow(RangeError)
  })

  test('at another speed is the affinity laws', () => {
    if (!curve) throw new Error('no curve')
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 1.5, noNaN: true }),
        fc.double({ min: 1, max: 15, noNaN: true }),
        (speed, head) => {
          const at = atSpeed({ flowM3PerS: flowAtHead(curve, head), headM: head, powerW: 1 }, speed)
          expect(flowAtHead(curve, at.headM, speed)).toBeCloseTo(at.flowM3PerS, 9)
        },
      ),
    )
  })

  test('is none where head rises with flow or no point is known', () => {
    expect(pumpCurve([])).toBeNull()
    expect(pumpCurve([{ flowM3PerS: 0, headM: 5 }])).toBeNull()
    expect(
      pumpCurve([
        { flowM3PerS: 1e-4, headM: 5 },
        { flowM3PerS: 2e-4, headM: 6 },
      ]),
    ).toBeNull()
    expect(() => pumpCurve([{ flowM3PerS: 1e-4, headM: -5 }])).toThrow(RangeError)
  })
})

describe('a check valve', () => {
  const psi = 6894.757293
  test.each([
    ['holds', 40, 39.5, 600],
    ['doubtful', 40, 37, 600],
    ['leaks', 40, 34, 600],
    ['leaks', 40, 20, 60],
    ['cannot-say', 40, 39.5, 60],
    ['cannot-say', 3, 2.5, 900],
    ['cannot-say', 40, 45, 900],
  ])('%s from %s psi to %s psi in %s s', (kind, before, after, heldS) => {
    expect(valveTest({ beforePa: before * psi, afterPa: after * psi, heldS }).kind).toBe(kind)
  })

  test.each([
    ['nothing', [], [], []],
    ['watch', ['2025-03-01'], [], []],
    ['valve', ['2025-03-01', '2025-09-01'], [], []],
    ['watch', ['2023-03-01', '2025-09-01'], [], []],
    ['fresh-work', ['2025-03-01', '2025-09-01'], [], ['2025-08-30', '2025-02-27']],
    ['nothing', ['2025-03-01', '2025-09-01'], ['2025-10-01'], []],
  ] as const)('%s is what losses %j point to', (lookAt, losses, valves, opened) => {
    const found = primeStanding(losses, valves, opened)
    expect(found.lookAt).toBe(lookAt)
    expect(found.why.length).toBeGreaterThan(10)
  })
})
