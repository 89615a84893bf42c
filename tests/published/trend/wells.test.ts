import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { mannKendall, seasonalKendall, seasonalSlope, senSlope } from '@/lib/domain/stats'
import { jsonOf, numberIn, rowsOf, trendCase } from './cases'

const span = z.array(z.number())
const byMonth = z.record(z.string(), z.number())
const Reference = z.record(
  z.string(),
  z.object({
    n: z.number(),
    seasonal_kendall: z.object({
      S: z.number(),
      varS: z.number(),
      z: z.number(),
      p: z.number(),
      tau: z.number(),
      tau_b: z.number(),
      slope_per_year: z.number(),
      ci95_gilbert: span,
      ci90_gilbert: span,
      n_slopes: z.number(),
      chi_het: z.number(),
      chi_het_p: z.number(),
      S_by_month: byMonth,
      varS_by_month: byMonth,
    }),
    hirsch_slack: z.object({ cov: z.number(), varS_corrected: z.number(), z: z.number(), p: z.number() }),
    plain_mann_kendall: z.object({
      S: z.number(),
      varS: z.number(),
      z: z.number(),
      p: z.number(),
      tau_b: z.number(),
      sen_slope_per_year: z.number(),
      ci95_gilbert: span,
    }),
  }),
)
const REFERENCE = Reference.parse(jsonOf('depth_open_reference.json'))

/** Agreement to nine digits: the reference equals R rkt 1.7 and EnvStats 3.1.0 to 1e-9. */
function same(actual: number | undefined, wanted: number, what: string) {
  const off = Math.abs((actual ?? Number.NaN) - wanted)
  expect(off, `${what}: ${actual} for ${wanted}`).toBeLessThanOrEqual(1e-9 * Math.abs(wanted) + 1e-12)
}

function readings(site: string) {
  return rowsOf('depth_open.csv')
    .filter((row) => row.site === site)
    .map((row) => {
      const date = row.date ?? ''
      const [year, month, day] = date.split('-').map(Number)
      if (year === undefined || month === undefined || day === undefined) throw new Error(`no day in ${date}`)
      const start = Date.UTC(year, 0, 1)
      const dayOfYear = (Date.UTC(year, month - 1, day) - start) / 86_400_000
      const time = year + dayOfYear / ((Date.UTC(year + 1, 0, 1) - start) / 86_400_000)
      return { season: month, year, time, value: numberIn(row, 'depth_to_water') }
    })
}

// Six real shallow wells; origin and licence in tests/published/data/trend/README.md.
describe.each(Object.entries(REFERENCE))('depth to water at %s', (site, wanted) => {
  const values = readings(site)
  const one = trendCase(`well-${site}`)

  test('the seasonal test, its months and its heterogeneity agree with the reference', () => {
    const t = seasonalKendall(values)
    if (t.kind !== 'test' || t.heterogeneity.kind !== 'heterogeneity') throw new Error('too few values')
    const { seasonal_kendall: r } = wanted
    one.holds({ n: t.n, S: t.s, varS: t.varS, z: t.z, p: t.pNormal, tau: t.tau })
    one.holds({ chi_het: t.heterogeneity.chiSquare })
    same(t.varS, r.varS, 'varS')
    same(t.z, r.z, 'z')
    expect(t.pNormal / r.p).toBeCloseTo(1, 7)
    same(t.tauB, r.tau_b, 'tau-b')
    same(t.heterogeneity.p, r.chi_het_p, 'heterogeneity p')
    for (const month of t.seasons) {
      expect(month.s).toBe(r.S_by_month[`${month.season}`])
      same(month.varS, r.varS_by_month[`${month.season}`] ?? Number.NaN, `varS of month ${month.season}`)
    }
  })

  test('the test that allows for memory agrees with the reference', () => {
    const t = seasonalKendall(values)
    if (t.kind !== 'test' || t.dependent.kind !== 'test') throw new Error('too few years')
    one.holds({ varS_corrected: t.dependent.varS, p_corrected: t.dependent.pNormal })
    same(t.dependent.covariance, wanted.hirsch_slack.cov, 'covariance')
    same(t.dependent.z, wanted.hirsch_slack.z, 'corrected z')
  })

  test('the seasonal slope and its limits agree with the reference', () => {
    const { seasonal_kendall: r } = wanted
    for (const [level, name, limits] of [
      [0.95, 'ci95_gilbert', r.ci95_gilbert],
      [0.9, 'ci90_gilbert', r.ci90_gilbert],
    ] as const) {
      const slope = seasonalSlope(values, level)
      if (slope.kind !== 'slope' || slope.limits.kind !== 'limits') throw new Error('no slope')
      expect(slope.slopes).toBe(r.n_slopes)
      one.holds({ slope: slope.slope, [name]: [slope.limits.lower, slope.limits.upper] })
      same(slope.limits.lower, limits[0] ?? Number.NaN, 'lower limit')
      same(slope.limits.upper, limits[1] ?? Number.NaN, 'upper limit')
    }
  })

  test('the plain test and Sen slope on decimal years agree with the reference', () => {
    const t = mannKendall(values)
    const line = senSlope(values)
    const { plain_mann_kendall: r } = wanted
    if (t.kind !== 'test' || line.kind !== 'slope' || line.limits.kind !== 'limits')
      throw new Error('too few')
    one.holds({ plain_mk_S: t.s, plain_mk_p: t.p, plain_sen_slope: line.slope })
    same(t.varS, r.varS, 'varS')
    same(t.z, r.z, 'z')
    same(t.tauB, r.tau_b, 'tau-b')
    same(line.limits.lower, r.ci95_gilbert[0] ?? Number.NaN, 'lower limit')
    same(line.limits.upper, r.ci95_gilbert[1] ?? Number.NaN, 'upper limit')
  })
})

test('a raw p of monthly levels that says falling is held back by the memory between months', () => {
  const t = seasonalKendall(readings('USGS-362858116195301'))
  if (t.kind !== 'test' || t.dependent.kind !== 'test') throw new Error('too few')
  expect(t.pNormal).toBeLessThan(0.05)
  expect(t.dependent.pNormal).toBeGreaterThan(0.25)
})
