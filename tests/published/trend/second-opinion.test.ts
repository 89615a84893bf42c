import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import {
  benjaminiHochberg,
  chiSquareUpper,
  kendallTest,
  lowess,
  medianAbsoluteDeviation,
  normalCdf,
  normalQuantile,
  normalUpper,
  quantile,
  robustRegression,
  senSlope,
  tCdf,
  tQuantile,
} from '@/lib/domain/stats'
import { jsonOf } from './cases'

/*
 * A second opinion: seeded series answered by scipy 1.10.1 and by R 4.2.2 with MASS 7.3-58.2.
 * Made by second_opinion.py and second_opinion.R in tests/published/data/trend.
 */
const list = z.array(z.number())
const INPUT = z.array(z.object({ time: list, value: list })).parse(jsonOf('second_opinion_input.json'))
const SCIPY = z
  .object({
    series: z.array(
      z.object({
        tau_b: z.number(),
        p_asymptotic: z.number(),
        p_exact: z.number().optional(),
        slope: z.number(),
        intercept: z.number(),
        lower90: z.number(),
        upper90: z.number(),
      }),
    ),
    functions: z.record(z.string(), z.array(list)),
  })
  .parse(jsonOf('second_opinion_scipy.json'))
const R = z
  .object({
    series: z.array(
      z.object({
        lowess: list,
        rlm: list,
        rlm_se: list,
        rlm_scale: list,
        quantiles: list,
        mad: list,
        p: list,
        bh: list,
      }),
    ),
  })
  .parse(jsonOf('second_opinion_r.json'))

function close(actual: readonly (number | undefined)[], wanted: readonly number[], relative: number) {
  expect(actual.length).toBe(wanted.length)
  wanted.forEach((value, i) => {
    const off = Math.abs((actual[i] ?? Number.NaN) - value)
    expect(off, `${actual[i]} for ${value}`).toBeLessThanOrEqual(relative * Math.abs(value) + 1e-12)
  })
}

const cases = INPUT.map((input, i) => ({ n: input.time.length, i, ...input }))

describe.each(cases)('a seeded series of $n values', ({ i, time, value }) => {
  const points = time.map((t, k) => ({ time: t, value: value[k] ?? Number.NaN }))

  test('has the tau-b and p-values of scipy', () => {
    const t = kendallTest(time, value)
    const s = SCIPY.series[i]
    if (t.kind !== 'test' || !s) throw new Error('too few')
    close([t.tauB, t.pWithoutContinuity], [s.tau_b, s.p_asymptotic], 1e-10)
    if (s.p_exact !== undefined) {
      expect(t.pMethod).toBe('exact')
      close([t.p], [s.p_exact], 1e-10)
    }
  })

  test('has the Sen line of scipy, and limits within one ordered slope of its rounded ranks', () => {
    const line = senSlope(points, 0.9)
    const s = SCIPY.series[i]
    if (line.kind !== 'slope' || !s) throw new Error('too few')
    close([line.slope, line.intercept], [s.slope, s.intercept], 1e-10)
    if (line.limits.kind !== 'limits') throw new Error('no limits')
    const slopes = points
      .flatMap((a, k) => points.slice(k + 1).map((b) => (b.value - a.value) / (b.time - a.time)))
      .sort((a, b) => a - b)
    // scipy rounds the rank of each limit: ours lies between the neighbours of its slope.
    for (const [ours, theirs] of [
      [line.limits.lower, s.lower90],
      [line.limits.upper, s.upper90],
    ] as const) {
      const first = slopes.findIndex((slope) => slope >= theirs - 1e-12)
      const last = slopes.findLastIndex((slope) => slope <= theirs + 1e-12)
      expect(ours).toBeGreaterThanOrEqual((slopes[first - 1] ?? -Infinity) - 1e-12)
      expect(ours).toBeLessThanOrEqual((slopes[last + 1] ?? Infinity) + 1e-12)
    }
  })

  test('has the bisquare regression of MASS, its errors and its scale', () => {
    const fit = robustRegression(
      time.map((t) => [1, t]),
      value,
    )
    const r = R.series[i]
    if (fit.kind !== 'regression' || !r) throw new Error(`no regression: ${fit.kind}`)
    close(fit.coefficients, r.rlm, 1e-6)
    close([fit.scale], r.rlm_scale, 1e-6)
    const errors = fit.covariance.map((line, k) => Math.sqrt(line[k] ?? Number.NaN))
    close(errors, r.rlm_se, 1e-6)
  })

  test('has the quantiles, MAD and adjusted p-values of R', () => {
    const r = R.series[i]
    if (!r) throw new Error('no answer of R')
    close(
      [0, 0.1, 0.5, 0.83, 1].map((p) => quantile(value, p)),
      r.quantiles,
      1e-12,
    )
    close([medianAbsoluteDeviation(value)], r.mad, 1e-12)
    close(benjaminiHochberg(r.p), r.bh, 1e-12)
  })
})

// With fewer than a dozen points in a local line, a wild value can cost all its neighbours their weight:
// there R gives the wild value itself and we the median of the neighbours, so the short series are left out.
test.each(cases.filter(({ n }) => n >= 25))(
  '$n seeded values have the LOWESS curve of R',
  ({ i, time, value }) => {
    const smooth = lowess(time, value, { span: 0.5, robustness: 3 })
    if (smooth.kind !== 'smooth') throw new Error('too few')
    close(smooth.fitted, R.series[i]?.lowess ?? [], 1e-9)
  },
)

describe('special functions, against scipy', () => {
  const rows = (name: string) => SCIPY.functions[name] ?? []

  test('the normal tail keeps its digits to 30 standard deviations', () => {
    for (const [z0 = 0, p = 0] of rows('normal_upper')) close([normalUpper(z0)], [p], 1e-9)
    for (const [z0 = 0, p = 0] of rows('normal_upper'))
      close([normalCdf(-z0), normalCdf(z0)], [p, 1 - p], 1e-9)
    expect(rows('normal_upper').length).toBe(11)
  })

  test('normal quantiles', () => {
    for (const [p = 0, z0 = 0] of rows('normal_quantile')) close([normalQuantile(p)], [z0], 1e-10)
    expect(rows('normal_quantile').length).toBe(8)
  })

  test("Student's t, chances and quantiles, to the seven digits that jstat keeps", () => {
    for (const [t = 0, df = 0, p = 0] of rows('t_cdf')) close([tCdf(t, df)], [p], 1e-7)
    for (const [p = 0, df = 0, t = 0] of rows('t_quantile')) close([tQuantile(p, df)], [t], 1e-7)
    expect(rows('t_cdf').length + rows('t_quantile').length).toBe(40)
  })

  test('chi-square tail', () => {
    for (const [x = 0, df = 0, p = 0] of rows('chi_square_upper')) close([chiSquareUpper(x, df)], [p], 1e-9)
    expect(rows('chi_square_upper').length).toBe(15)
  })
})
