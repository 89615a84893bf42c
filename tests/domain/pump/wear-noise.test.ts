import { describe, expect, test } from 'vitest'
import { lifeBelief, OPEN_KINDS } from '@/lib/domain/pump/brush-wear'
import { logMoments } from '@/lib/domain/pump/forecast'
import { gaugeStepPa, loadNoise } from '@/lib/domain/pump/load-noise'

describe('rounding of gauges', () => {
  test('is told from drops that all follow one step, and taken as fine where they do not', () => {
    expect(gaugeStepPa([10_000, 15_000, 25_000, 30_000])).toBe(5000)
    expect(gaugeStepPa([6894.76, 13_789.52, 34_473.8])).toBe(6894.76)
    expect(gaugeStepPa([11_000, 16_000, 23_000])).toBe(1000)
    expect(gaugeStepPa([10_000, 20_000])).toBe(1000)
  })

  test('counts twice step²/12, at the drop expected and not at the one read', () => {
    const readings = [10_000, 15_000, 25_000].map((dropPa, i) => ({
      on: `2024-0${i + 1}-01`,
      used: i,
      flowRatio: 1,
      dropPa,
    }))
    const { extra } = loadNoise(readings, [20_000, 20_000, 20_000])
    for (const variance of extra) expect(variance).toBeCloseTo(5000 ** 2 / 6 / 20_000 ** 2, 12)
  })
})

describe('the life of a set of brushes', () => {
  const lengths = { newM: 0.02, minimumM: 0.008 }
  const prior = { life: { mean: Math.log(3000), deviation: 0.85 }, ...OPEN_KINDS }
  const steady = (count: number) =>
    Array.from({ length: count }, (_, i) => ({ used: 250 * i, shortestM: 0.02 - 0.0015 * i }))

  test('without a length is what it was taken to be beforehand', () => {
    const belief = logMoments(lifeBelief([], lengths, prior).life)
    expect(Math.exp(belief.mean)).toBeGreaterThan(2700)
    expect(Math.exp(belief.mean)).toBeLessThan(3300)
    expect(belief.deviation).toBeGreaterThan(0.8)
  })

  test('is surer with every steady reading, and nears the line through them', () => {
    const [few, many] = [3, 7].map((count) => logMoments(lifeBelief(steady(count), lengths, prior).life))
    expect(many?.deviation).toBeLessThan((few?.deviation ?? 0) / 1.5)
    expect(Math.exp(many?.mean ?? 0)).toBeGreaterThan(1900)
    expect(Math.exp(many?.mean ?? 0)).toBeLessThan(2100)
  })

  test('grows shorter as the wear is seen to quicken', () => {
    const quickened = steady(7).map((r, i) => ({ ...r, shortestM: r.shortestM - 0.00005 * i * i }))
    const [before, after] = [quickened.slice(0, 4), quickened].map((readings) =>
      Math.exp(logMoments(lifeBelief(readings, lengths, prior).life).mean),
    )
    expect(after).toBeLessThan((before ?? 0) * 0.95)
  })
})
