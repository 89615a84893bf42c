import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  benjaminiHochberg,
  crossingTime,
  flagged,
  type LineWithError,
  lowess,
  medianAbsoluteDeviation,
  pettitt,
  quantile,
  robustLine,
  robustRegression,
} from '@/lib/domain/stats'
import { noise } from './series'

describe('robustRegression', () => {
  const x = noise(21, 40)
  const clean = noise(22, 40).map((e, i) => 3 - 2 * (x[i] ?? 0) + 0.1 * e)
  const rows = x.map((v) => [1, v])

  test('sets a blunder aside: gallons for litres change nothing', () => {
    const blundered = clean.map((v, i) => (i === 7 ? 3.785 * v + 50 : v))
    const fit = robustRegression(rows, blundered)
    if (fit.kind !== 'regression') throw new Error(fit.kind)
    expect(fit.weights[7]).toBe(0)
    expect(fit.coefficients[0]).toBeCloseTo(3, 1)
    expect(fit.coefficients[1]).toBeCloseTo(-2, 1)
  })

  test('scales with the unit of the values', () => {
    const one = robustRegression(rows, clean)
    const thousand = robustRegression(
      rows,
      clean.map((v) => 1000 * v),
    )
    if (one.kind !== 'regression' || thousand.kind !== 'regression') throw new Error('no regression')
    expect((thousand.coefficients[1] ?? 0) / (one.coefficients[1] ?? 0)).toBeCloseTo(1000, 5)
    expect(thousand.scale / one.scale).toBeCloseTo(1000, 5)
  })

  test('says why there is no regression', () => {
    expect(robustRegression(rows.slice(0, 4), clean.slice(0, 4))).toEqual({
      kind: 'too-few',
      have: 4,
      need: 5,
    })
    expect(
      robustRegression(
        rows.map(() => [1, 2]),
        clean,
      ),
    ).toEqual({ kind: 'degenerate', reason: 'columns-dependent' })
    const exact = robustRegression(
      rows,
      x.map((v) => 3 - 2 * v),
    )
    expect(exact.kind).toBe('no-scatter')
    expect(() => robustRegression([[1, Number.NaN]], [1])).toThrow(RangeError)
    expect(() => robustRegression([[1], [1, 2]], [1, 2])).toThrow(RangeError)
  })
})

describe('crossingTime', () => {
  const falling: LineWithError = {
    kind: 'line',
    centre: 5,
    level: 10,
    slope: -1,
    varLevel: 0.04,
    varSlope: 0.01,
    scatter: 0.5,
    df: 20,
  }

  test('tells the date and an interval around it', () => {
    const crossing = crossingTime(falling, 4, { from: 8, way: 'falling' })
    if (crossing.kind !== 'crossing') throw new Error(crossing.kind)
    expect(crossing.at).toBeCloseTo(11, 12)
    expect(crossing.earliest).toBeLessThan(11)
    expect(crossing.latest).toBeGreaterThan(11)
    // The line at its ends lies one t times its error from the threshold (t of 20 df at 80 %: 1.3253).
    const off = 10 - (crossing.latest - 5) - 4
    expect(Math.abs(off)).toBeCloseTo(1.3253 * Math.sqrt(0.04 + 0.01 * (crossing.latest - 5) ** 2), 3)
  })

  test('a reading crosses within a wider interval than the line', () => {
    const line = crossingTime(falling, 4, { from: 5, way: 'falling' })
    const reading = crossingTime(falling, 4, { from: 5, way: 'falling', of: 'reading' })
    if (line.kind !== 'crossing' || reading.kind !== 'crossing') throw new Error('no crossing')
    expect(reading.earliest).toBeLessThan(line.earliest)
    expect(reading.latest).toBeGreaterThan(line.latest)
  })

  test('is not established where the slope may be nothing, or heads away', () => {
    const unclear = { ...falling, varSlope: 0.9 }
    expect(crossingTime(unclear, 4, { from: 8, way: 'falling' })).toEqual({
      kind: 'not-established',
      reason: 'slope-unclear',
    })
    expect(crossingTime({ ...falling, slope: 1 }, 4, { from: 8, way: 'falling' })).toEqual({
      kind: 'not-established',
      reason: 'moving-away',
    })
    expect(crossingTime(falling, 8, { from: 8, way: 'falling' })).toEqual({ kind: 'passed' })
    expect(crossingTime({ ...falling, slope: 1 }, 20, { from: 8, way: 'rising' }).kind).toBe('crossing')
  })

  test('never dates a crossing before what is known', () => {
    const crossing = crossingTime(falling, 6.9, { from: 8, way: 'falling' })
    if (crossing.kind !== 'crossing') throw new Error(crossing.kind)
    expect(crossing.earliest).toBe(8)
  })

  test('its 80 % interval holds the true crossing in about 80 of 100 seeded records', () => {
    let told = 0
    let held = 0
    for (let seed = 1; seed <= 400; seed++) {
      const line = robustLine(noise(seed, 30).map((e, time) => ({ time, value: 100 - time + 2 * e })))
      if (line.kind !== 'line') throw new Error(line.kind)
      const crossing = crossingTime(line, 60, { from: 29, way: 'falling' })
      if (crossing.kind !== 'crossing') continue
      told++
      if (crossing.earliest <= 40 && 40 <= crossing.latest) held++
    }
    expect(told).toBe(400)
    expect(held / told).toBeGreaterThan(0.74)
    expect(held / told).toBeLessThan(0.86)
  })

  test('refuses impossible questions', () => {
    expect(() => crossingTime(falling, Number.NaN, { from: 8, way: 'falling' })).toThrow(RangeError)
    expect(() => crossingTime({ ...falling, varSlope: -1 }, 4, { from: 8, way: 'falling' })).toThrow(
      RangeError,
    )
    expect(() => crossingTime(falling, 4, { from: 8, way: 'falling', level: 1 })).toThrow(RangeError)
    expect(robustLine([])).toEqual({ kind: 'too-few', have: 0, need: 5 })
  })
})

describe('lowess', () => {
  test('gives back a straight line, whatever the order of the points', () => {
    const x = noise(31, 50)
    const smooth = lowess(
      x,
      x.map((v) => 2 - 3 * v),
    )
    if (smooth.kind !== 'smooth') throw new Error('too few')
    smooth.fitted.forEach((v, i) => {
      expect(v).toBeCloseTo(2 - 3 * (x[i] ?? 0), 9)
    })
  })

  test('takes points at one place at their middle, and does not follow a wild one', () => {
    const x = noise(1, 30).map((_, i) => Math.floor(i / 3))
    const y = noise(2, 30).map((e, i) => (i === 14 ? 500 : 0.1 * e))
    const smooth = lowess(x, y, { span: 0.5 })
    if (smooth.kind !== 'smooth') throw new Error('too few')
    expect(Math.max(...smooth.fitted.map(Math.abs))).toBeLessThan(1)
  })

  test('refuses spans outside 0 to 1 and says too few', () => {
    expect(() => lowess([1, 2, 3], [1, 2, 3], { span: 0 })).toThrow(RangeError)
    expect(() => lowess([1, 2], [1])).toThrow(RangeError)
    expect(lowess([1, 2], [1, 2])).toEqual({ kind: 'too-few', have: 2, need: 3 })
  })
})

describe('pettitt', () => {
  test('finds a step where it was put', () => {
    const values = noise(41, 40).map((e, i) => (i < 25 ? e : e + 4))
    expect(pettitt(values)).toMatchObject({ kind: 'change-point', before: 25 })
  })

  test('finds the mirror of a change in the reversed series', () => {
    const values = noise(42, 31).map((e, i) => (i < 12 ? e : e + 2))
    const there = pettitt(values)
    const back = pettitt([...values].reverse())
    if (there.kind !== 'change-point' || back.kind !== 'change-point') throw new Error('too few')
    expect([back.u, back.p, back.before]).toEqual([there.u, there.p, 31 - there.before])
  })

  test('finds nothing in equal values, and needs six', () => {
    expect(pettitt([2, 2, 2, 2, 2, 2])).toMatchObject({ u: 0, p: 1 })
    expect(pettitt([1, 2])).toEqual({ kind: 'too-few', have: 2, need: 6 })
    expect(() => pettitt([1, Number.NaN])).toThrow(RangeError)
  })
})

describe('false alarms and quantiles', () => {
  test('adjusted p-values keep the order, and never fall below the raw ones', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 40 }), (ps) => {
        const adjusted = benjaminiHochberg(ps)
        ps.forEach((p, i) => {
          expect(adjusted[i]).toBeGreaterThanOrEqual(p * (1 - 1e-12))
          expect(adjusted[i]).toBeLessThanOrEqual(1)
          ps.forEach((q, k) => {
            if (p < q) expect(adjusted[i]).toBeLessThanOrEqual(adjusted[k] ?? Number.NaN)
          })
        })
      }),
    )
  })

  test('flags hold the share of false alarms asked for among a thousand wells without a trend', () => {
    // Uniform p from a seed: with nothing to find, any flag at all is false; that happens in 5 % of fleets.
    let fleets = 0
    for (let seed = 1; seed <= 300; seed++) {
      const ps = noise(seed, 100).map((e) => Math.abs(e * 1e6) % 1)
      if (flagged(ps, 0.05).includes(true)) fleets++
    }
    expect(fleets / 300).toBeLessThan(0.09)
    expect(fleets).toBeGreaterThan(0)
  })

  test('flags more wells when more false alarms are allowed', () => {
    const ps = [0.001, 0.012, 0.02, 0.03, 0.4]
    expect(flagged(ps, 0.05)).toEqual([true, true, true, true, false])
    expect(flagged(ps, 0.01)).toEqual([true, false, false, false, false])
  })

  test('refuse what is no p, no share and no list', () => {
    expect(() => benjaminiHochberg([1.1])).toThrow(RangeError)
    expect(() => flagged([0.1], 0)).toThrow(RangeError)
    expect(() => quantile([], 0.5)).toThrow(RangeError)
    expect(() => quantile([1], 1.5)).toThrow(RangeError)
    expect(medianAbsoluteDeviation([1, 1, 1, 9])).toBe(0)
  })
})
