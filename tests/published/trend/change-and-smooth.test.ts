import { describe, expect, test } from 'vitest'
import { lowess, pettitt, seasonalKendall, seasonalSlope, weightedLeastSquares } from '@/lib/domain/stats'
import { numberIn, rowsOf, trendCase } from './cases'

/** Phosphorus with what a fit on flow leaves; two rows have no flow and give no residual. */
function klamathWithFlow() {
  return rowsOf('klamath_tp.csv')
    .filter((row) => row.tp_used !== '' && row.flow_cfs !== '')
    .map((row) => ({
      season: Number(row.date?.slice(5, 7)),
      year: Number(row.date?.slice(0, 4)),
      tp: numberIn(row, 'tp_used'),
      flow: numberIn(row, 'flow_cfs'),
    }))
}

function seasonal(rows: ReturnType<typeof klamathWithFlow>, fitted: readonly number[]) {
  const values = rows.map(({ season, year, tp }, i) => ({
    season,
    year,
    value: tp - (fitted[i] ?? Number.NaN),
  }))
  const t = seasonalKendall(values)
  const line = seasonalSlope(values)
  if (t.kind !== 'test' || line.kind !== 'slope' || line.limits.kind !== 'limits') throw new Error('too few')
  return { t, line, limits: line.limits }
}

describe('change point, smooth and adjustment, as published', () => {
  // R package trend 1.1.6, vignette section 3.1, after Pettitt 1979 on data of Page 1954. Printed 0.01456.
  test('the change point in the data of Page 1954', () => {
    const one = trendCase('pettitt-page')
    const change = pettitt(one.list('y'))
    if (change.kind !== 'change-point') throw new Error('too few')
    one.holds({ U: change.u, K: change.before, p: change.p })
  })

  // USGS smwrStats 0.7.6 vignette "Trends Examples", section 4: tau -0.071429, p 0.4899, slope -0.001932378.
  test('phosphorus in the Klamath adjusted for flow by a straight line', () => {
    const rows = klamathWithFlow()
    const fit = weightedLeastSquares(
      rows.map(({ flow }) => [1, flow]),
      rows.map(({ tp }) => tp),
      rows.map(() => 1),
    )
    if (fit.kind !== 'solved') throw new Error('no line')
    const [a = Number.NaN, b = Number.NaN] = fit.coefficients
    const { t, line, limits } = seasonal(
      rows,
      rows.map(({ flow }) => a + b * flow),
    )
    if (t.heterogeneity.kind !== 'heterogeneity') throw new Error('too few seasons')
    trendCase('usgs-klamath-flow-adjusted').holds({
      S: t.s,
      varS: t.varS,
      z: t.z,
      p: t.pNormal,
      tau: t.tau,
      tau_b: t.tauB,
      tau_weighted: t.tauWeighted,
      slope: line.slope,
      n_slopes: line.slopes,
      chi_het: t.heterogeneity.chiSquare,
      chi_het_p: t.heterogeneity.p,
      ci95_lcl_gilbert_interpolated: limits.lower,
      ci95_ucl_gilbert_interpolated: limits.upper,
    })
  })

  // Method Helsel & Hirsch 2002, ch. 12; no printed answer seen: R 4.2.2 lowess and statsmodels 0.13.5 agree.
  test('phosphorus in the Klamath adjusted for flow by LOWESS, span 0.5, three robustness rounds', () => {
    const rows = klamathWithFlow()
    const smooth = lowess(
      rows.map(({ flow }) => flow),
      rows.map(({ tp }) => tp),
      { span: 0.5, robustness: 3 },
    )
    if (smooth.kind !== 'smooth') throw new Error('too few')
    const { t, line } = seasonal(rows, smooth.fitted)
    const one = trendCase('usgs-klamath-lowess')
    one.holds({ S: t.s, varS: t.varS, p: t.pNormal, tau: t.tau, slope: line.slope })
    // Closer than the case asks: the same variant of the method gives the same count.
    expect(t.s).toBe(-50)
    expect(rowsOf('klamath_tp.csv').filter((row) => row.tp_used !== '').length - rows.length).toBe(2)
  })
})
