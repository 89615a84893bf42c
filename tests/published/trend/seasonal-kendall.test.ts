import { describe, expect, test } from 'vitest'
import { regionalKendall, type SeasonalValue, seasonalKendall, seasonalSlope } from '@/lib/domain/stats'
import { numberIn, rowsOf, trendCase } from './cases'

function tested(values: readonly SeasonalValue[]) {
  const answer = seasonalKendall(values)
  if (answer.kind !== 'test') throw new Error('too few values for a test')
  return answer
}

function dependent(values: readonly SeasonalValue[]) {
  const answer = tested(values).dependent
  if (answer.kind !== 'test') throw new Error('too few years for a correction')
  return answer
}

function heterogeneity(values: readonly SeasonalValue[]) {
  const answer = tested(values).heterogeneity
  if (answer.kind !== 'heterogeneity') throw new Error('too few seasons to compare')
  return { chi_het: answer.chiSquare, chi_het_p: answer.p }
}

function sloped(values: readonly SeasonalValue[]) {
  const answer = seasonalSlope(values)
  if (answer.kind !== 'slope' || answer.limits.kind !== 'limits') throw new Error('no slope or no limits')
  return {
    slope: answer.slope,
    n_slopes: answer.slopes,
    ci95_lcl_gilbert_interpolated: answer.limits.lower,
    ci95_ucl_gilbert_interpolated: answer.limits.upper,
  }
}

/** Everything that the larger cases expect under the same names. */
function all(values: readonly SeasonalValue[]) {
  const t = tested(values)
  return {
    S: t.s,
    varS: t.varS,
    z: t.z,
    p: t.pNormal,
    tau: t.tau,
    tau_b: t.tauB,
    tau_weighted: t.tauWeighted,
    ...heterogeneity(values),
    ...sloped(values),
  }
}

const klamath = () =>
  rowsOf('klamath_tp.csv')
    .filter((row) => row.tp_used !== '')
    .map((row) => ({
      season: Number(row.date?.slice(5, 7)),
      year: Number(row.date?.slice(0, 4)),
      value: numberIn(row, 'tp_used'),
    }))

describe('seasonal Kendall, as published', () => {
  // R package trend 1.1.6, vignette sections 1.2, 1.3, 2.2 (GitHub cran/trend), data R datasets::nottem.
  // Printed: S 224, varS 11364, z 2.0919, p 0.03645, slope 0.05; corrected varS 19663.33, p 0.1102.
  test('Nottingham temperatures: p says trend until the memory between months is allowed for', () => {
    const one = trendCase('nottem-seasonal')
    const values = rowsOf('nottem.csv').map((row) => ({
      season: numberIn(row, 'month'),
      year: numberIn(row, 'year'),
      value: numberIn(row, 'temperature_F'),
    }))
    one.holds(all(values))
    const d = dependent(values)
    one.holds({
      hs_covariance: d.covariance,
      varS_corrected: d.varS,
      z_corrected: d.z,
      p_corrected: d.pNormal,
      z_corrected_without_continuity: d.zWithoutContinuity,
      p_corrected_without_continuity: d.pWithoutContinuity,
    })
    const month = (m: number) => tested(values).seasons.find((season) => season.season === m)?.s
    one.holds({ S_august: month(8), S_september: month(9) })
    expect([d.varS.toFixed(2), d.pWithoutContinuity.toFixed(4)]).toEqual(['19663.33', '0.1102'])
  })

  // USEPA 2009 Unified Guidance, Example 14-10, p. 14-38, as printed by EnvStats 3.1.0.
  test('EPA 2009 Example 14-10, three years of months, limits and heterogeneity', () => {
    const one = trendCase('epa2009-ex14.10')
    const values = one.list('y').map((value, i) => ({
      season: one.list('month')[i] ?? Number.NaN,
      year: one.list('year')[i] ?? Number.NaN,
      value,
    }))
    one.holds(all(values))
    expect(sloped(values).ci95_ucl_gilbert_interpolated.toFixed(8)).toBe('0.07213086')
    expect(tested(values).dependent).toEqual({ kind: 'too-few', have: 3, need: 10 })
  })

  // Help page kendallSeasonalTrendTest of EnvStats 3.1.0, Details: S = 0, p = 1.
  test('seasons with opposite trends cancel in S, and heterogeneity says so', () => {
    const one = trendCase('opposite-seasons')
    const values = one.list('y').map((value, i) => ({
      season: one.list('season')[i] ?? Number.NaN,
      year: one.list('year')[i] ?? Number.NaN,
      value,
    }))
    const t = tested(values)
    one.holds({ S: t.s, p: t.pNormal, ...heterogeneity(values) })
  })

  // USGS smwrStats 0.7.6 vignette "Trends Examples", section 4: tau -0.2605, p 0.005624.
  test('phosphorus in the Klamath: missing months and many ties', () => {
    trendCase('usgs-klamath-seasonal').holds(all(klamath()))
    const t = tested(klamath())
    expect([t.tau.toFixed(4), t.pNormal.toFixed(6)]).toEqual(['-0.2605', '0.005624'])
  })

  // USGS smwrStats 0.7.6 vignette, section 6; RK3b of Helsel, Mueller & Slack 2006, SIR 2005-5275.
  test('regional Kendall over 25 sites, with the covariance between sites', () => {
    const one = trendCase('usgs-rk3b-regional')
    const sites = rowsOf('rk3b.csv')
      .filter((row) => row.nh4 !== '')
      .map((row) => ({ site: row.site ?? '', year: numberIn(row, 'year'), value: numberIn(row, 'nh4') }))
    const values = sites.map(({ site, year, value }) => ({ season: site, year, value }))
    one.holds(all(values))
    const d = dependent(values)
    one.holds({
      hs_covariance: d.covariance,
      varS_corrected: d.varS,
      z_corrected: d.z,
      p_corrected: d.pNormal,
    })
    expect(regionalKendall(sites)).toEqual(tested(values))
  })

  // pyMannKendall tests/test_pymannkendall.py (GitHub mmhs013/pyMannKendall).
  test('360 values with 7 gaps by months', () => {
    const one = trendCase('pymk-360-gaps')
    const values = rowsOf('pymk_1d.csv')
      .filter((row) => row.value !== '')
      .map((row) => {
        const index = numberIn(row, 'index')
        return { season: index % 12, year: Math.floor(index / 12), value: numberIn(row, 'value') }
      })
    const t = tested(values)
    one.holds({
      S_seasonal: t.s,
      varS_seasonal: t.varS,
      z_seasonal: t.z,
      p_seasonal: t.pNormal,
      tau_seasonal: t.tau,
      slope_seasonal: sloped(values).slope,
    })
  })
})
