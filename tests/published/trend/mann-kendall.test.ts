import { describe, expect, test } from 'vitest'
import { exactKendallUpperTail, kendallTest, mannKendall, senSlope } from '@/lib/domain/stats'
import { numberIn, rowsOf, trendCase } from './cases'

const pointsOf = (one: ReturnType<typeof trendCase>) =>
  one.list('t').map((time, i) => ({ time, value: one.list('y')[i] ?? Number.NaN }))

function tested(points: Parameters<typeof mannKendall>[0]) {
  const answer = mannKendall(points)
  if (answer.kind !== 'test') throw new Error('too few points for a test')
  return answer
}

function sloped(points: Parameters<typeof senSlope>[0]) {
  const answer = senSlope(points)
  if (answer.kind !== 'slope') throw new Error('too few points for a slope')
  return answer
}

describe('Kendall and Mann-Kendall, as published', () => {
  // Kendall 1976, Rank Correlation Methods, p. 55, Example 4.3, as quoted by R package Kendall 2.2.1.
  // Printed: S = 34, variance 203.30.
  test('S, variance and tau-b of Kendall 1976, Example 4.3, ties in both variables', () => {
    const one = trendCase('kendall1976-ex4.3')
    const t = kendallTest(one.list('x'), one.list('y'))
    if (t.kind !== 'test') throw new Error('too few')
    one.holds({ S: t.s, varS: t.varS, tau_b: t.tauB, z: t.z, p: t.p })
    expect(t.varS.toFixed(2)).toBe('203.30')
  })

  // EPA QA/G-9S (2006), EPA/240/B-06/003, p. 109. Printed: S = 22, variance 155.33, z = 1.685.
  test('the example with ties of EPA QA/G-9S, p. 109', () => {
    const one = trendCase('epa-g9s-p109')
    const t = tested(pointsOf(one))
    one.holds({ n: t.n, S: t.s, varS: t.varS, z: t.z, p: t.p, tau_a: t.tauA, tau_b: t.tauB })
    expect([t.varS.toFixed(2), t.z.toFixed(3)]).toEqual(['155.33', '1.685'])
    const { slope, limits } = sloped(pointsOf(one))
    if (limits.kind !== 'limits') throw new Error('no limits')
    one.holds({
      slope,
      ci95_lcl_gilbert_interpolated: limits.lower,
      ci95_ucl_gilbert_interpolated: limits.upper,
    })
  })

  // Gilbert 1987, section 16.4.1, from memory: S = 4, one-sided 0.167.
  test('the exact p of four values (Gilbert 1987, section 16.4.1, from memory)', () => {
    const one = trendCase('gilbert1987-n4')
    const t = tested(pointsOf(one))
    expect(t.pMethod).toBe('exact')
    one.holds({ S: t.s, n: t.n, p_exact_two_sided: t.p, p_exact_one_sided: exactKendallUpperTail(4, t.s) })
    expect(sloped(pointsOf(one)).limits.kind).toBe('no-limits')
  })

  // USEPA 2009 Unified Guidance, Example 17-6, p. 17-33, as printed by EnvStats 3.1.0 kendallTrendTest.
  test('sulfate in groundwater, EPA 2009 Example 17-6: test, slope, limits and intercept', () => {
    const one = trendCase('epa2009-ex17.6-sulfate')
    const t = tested(pointsOf(one))
    const { slope, limits, intercept } = sloped(pointsOf(one))
    if (limits.kind !== 'limits') throw new Error('no limits')
    one.holds({ n: t.n, S: t.s, varS: t.varS, z: t.z, p: t.p, tau_a: t.tauA, tau_b: t.tauB })
    one.holds({
      slope,
      intercept_conover: intercept,
      ci95_lcl_gilbert_interpolated: limits.lower,
      ci95_ucl_gilbert_interpolated: limits.upper,
    })
    expect([slope.toFixed(7), limits.lower.toFixed(5), limits.upper.toFixed(5)]).toEqual([
      '26.6666667',
      '20.00000',
      '35.71182',
    ])
  })

  // Hollander & Wolfe, Nonparametric Statistical Methods, table p. 188; printed tau 0.4444444,
  // z 1.6681 and p 0.0953 without continuity correction (www.stat.sc.edu/~habing/courses/518splus3F98.html).
  test('tuna lightness, Hollander & Wolfe: exact, normal and corrected p are three numbers', () => {
    const one = trendCase('hollander-wolfe-tuna')
    const t = kendallTest(one.list('x'), one.list('y'))
    if (t.kind !== 'test') throw new Error('too few')
    one.holds({ S: t.s, n: t.n, tau_b: t.tauB, p_exact_two_sided: t.p, z: t.z, p: t.pNormal })
    one.holds({ z_without_continuity: t.zWithoutContinuity, p_without_continuity: t.pWithoutContinuity })
    expect(t.pMethod).toBe('exact')
    expect([t.zWithoutContinuity.toFixed(4), t.pWithoutContinuity.toFixed(4)]).toEqual(['1.6681', '0.0953'])
  })

  // USGS smwrStats 0.7.6 vignette "Trends Examples" (Lorenz 2017), section 2; data Helsel & Hirsch 2002, C2.
  test('annual flow of the Conecuh, USGS smwrStats: tau -0.12137, p 0.4751, slope -8.875', () => {
    const one = trendCase('usgs-conecuh-annual')
    const t = tested(pointsOf(one))
    const { slope, limits } = sloped(pointsOf(one))
    if (limits.kind !== 'limits') throw new Error('no limits')
    one.holds({ n: t.n, S: t.s, varS: t.varS, z: t.z, p: t.p, tau_a: t.tauA, tau_b: t.tauB, slope })
    one.holds({ ci95_lcl_gilbert_interpolated: limits.lower, ci95_ucl_gilbert_interpolated: limits.upper })
    expect([t.tauB?.toFixed(5), t.p.toFixed(4), slope]).toEqual(['-0.12137', '0.4751', -8.875])
  })

  // pyMannKendall tests/test_pymannkendall.py (GitHub mmhs013/pyMannKendall).
  test('360 values with 7 gaps: the gaps keep their place in the slope', () => {
    const one = trendCase('pymk-360-gaps')
    const points = rowsOf('pymk_1d.csv')
      .filter((row) => row.value !== '')
      .map((row) => ({ time: numberIn(row, 'index'), value: numberIn(row, 'value') }))
    const t = tested(points)
    one.holds({ S: t.s, varS: t.varS, z: t.z, p: t.p, tau: t.tauA, slope: sloped(points).slope })
  })
})

describe('edge cases that follow from the definitions', () => {
  test('a constant series has p 1, slope 0 and limits 0 to 0', () => {
    const one = trendCase('edge-constant')
    const t = tested(pointsOf(one))
    const { slope, limits } = sloped(pointsOf(one))
    one.holds({ S: t.s, varS: t.varS, p: t.p, slope })
    expect(limits).toMatchObject({ kind: 'limits', lower: 0, upper: 0 })
  })

  test('two values are not enough data', () => {
    const points = pointsOf(trendCase('edge-n2'))
    expect(mannKendall(points)).toEqual({ kind: 'too-few', have: 2, need: 3 })
    expect(senSlope(points)).toEqual({ kind: 'too-few', have: 2, need: 3 })
  })

  test('a perfect rise of eight values has the exact p 2 / 8!', () => {
    const one = trendCase('edge-monotone')
    const t = tested(pointsOf(one))
    const { slope } = sloped(pointsOf(one))
    one.holds({ S: t.s, varS: t.varS, z: t.z, p: t.pNormal, p_exact_two_sided: t.p, slope })
  })

  test('two readings of one day are never paired, and count as tied in the variance', () => {
    const one = trendCase('edge-same-day')
    const t = tested(pointsOf(one))
    one.holds({ S: t.s, varS: t.varS, slope: sloped(pointsOf(one)).slope })
  })
})
