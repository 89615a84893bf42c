import { describe, expect, test } from 'vitest'
import {
  akritasTheilSen,
  censoredKendall,
  kaplanMeier,
  kaplanMeierQuantile,
  regressionOnOrder,
  seasonalCensoredKendall,
} from '@/lib/domain/stats'
import { numberIn, rowsOf, trendCase } from './cases'

const gales = () =>
  rowsOf('gales_creek.csv').map((row) => ({
    time: numberIn(row, 'dectime'),
    value: numberIn(row, 'tcr_ug_l'),
    nonDetect: row.nondetect === '1',
    season: row.season ?? '',
  }))

function tested(points: ReturnType<typeof gales>) {
  const answer = censoredKendall(points)
  if (answer.kind !== 'test') throw new Error('no test')
  return answer
}

function sloped(points: ReturnType<typeof gales>) {
  const answer = akritasTheilSen(points)
  if (answer.kind !== 'slope') throw new Error('no slope')
  return answer
}

// Helsel & Julian, NADA2 2.0.1, article "Censored Data Analysis" (GitHub SwampThingPaul/NADA2).
describe('values with non-detects, as published', () => {
  test('chromium in Gales Creek: tau -0.234, p 0.00648, slope -0.0896, intercept 181.2617', () => {
    const one = trendCase('ats-gales-creek')
    const t = tested(gales())
    const line = sloped(gales())
    if (line.intercept.kind !== 'value') throw new Error('the intercept lies below a limit')
    one.holds({
      n: t.n,
      S: t.s,
      tau: t.tau,
      p: t.pNormal,
      slope: line.slope,
      intercept: line.intercept.value,
    })
    expect([t.tau.toFixed(3), t.pNormal.toFixed(5)]).toEqual(['-0.234', '0.00648'])
  })

  test('chromium in Gales Creek by dry and wet season', () => {
    const one = trendCase('ats-gales-creek')
    const of = (season: string) => gales().filter((point) => point.season === season)
    const both = seasonalCensoredKendall(gales())
    if (both.kind !== 'test') throw new Error('no test')
    one.holds({ S_dry: tested(of('Dry')).s, S_wet: tested(of('Wet')).s, S_seasonal: both.s })
    one.holds({ slope_dry: sloped(of('Dry')).slope, slope_wet: sloped(of('Wet')).slope })
  })

  test('pyrene: both Kaplan-Meier means by name, and the median', () => {
    const one = trendCase('nondetect-pyrene')
    const values = rowsOf('shepyrene.csv').map((row) => ({
      value: numberIn(row, 'pyrene'),
      nonDetect: row.nondetect === '1',
    }))
    const km = kaplanMeier(values)
    if (km.kind !== 'distribution') throw new Error('no distribution')
    const middle = kaplanMeierQuantile(km, 0.5)
    if (middle.kind !== 'value') throw new Error('the median lies below a limit')
    one.holds({
      n: km.n,
      km_mean: km.meanAtSmallestDetected,
      km_mean_lowest_at_its_limit: km.meanAtLowestLimit,
      km_median: middle.value,
    })
  })

  test('pyrene: mean, deviation and median by lognormal regression on order statistics', () => {
    const values = rowsOf('shepyrene.csv').map((row) => ({
      value: numberIn(row, 'pyrene'),
      nonDetect: row.nondetect === '1',
    }))
    const ros = regressionOnOrder(values)
    if (ros.kind !== 'summary') throw new Error('no summary')
    trendCase('nondetect-pyrene').holds({ ros_mean: ros.mean, ros_sd: ros.sd, ros_median: ros.median })
  })
})
