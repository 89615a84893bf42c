/**
 * Worked examples that are wrong in print: our formulas must refuse to give their answer, and give the one that their own
 * formula gives. Each was read in the place named.
 */
import { describe, expect, test } from 'vitest'
import { findAnalyte } from '@/lib/domain/water/analytes'
import { langelier, sodiumAdsorption } from '@/lib/domain/water/indices'
import { limitInHome, readUnit, toHome } from '@/lib/domain/water/units'

const gramsHard = (unit: string): number => {
  const hardness = findAnalyte('hardness')
  const conversion = hardness && toHome(hardness, readUnit(unit), null)
  if (conversion?.kind !== 'factor') throw new Error(unit)
  return conversion.factor
}

describe('a printed answer that its own formula does not give is not ours', () => {
  test.each([
    {
      what: 'SAR of sodium 1000, calcium 200, magnesium 100 mg/L',
      where: 'turf booklet, flippingbook 530013 p. 6: halves after the root',
      printed: 20.6,
      ours: sodiumAdsorption(1000, 200, 100) ?? Number.NaN,
      right: 14.41,
      within: 0.05,
    },
    {
      what: 'Langelier index of pH 6.8, 20 °C, solids 80, calcium hardness 20, alkalinity 25',
      where: 'codingace.net, third row of the table: pHs printed 7.91, its formula gives 9.27',
      printed: -1.11,
      ours: (() => {
        const answer = langelier({
          ph: 6.8,
          tempC: 20,
          tdsMgL: 80,
          calciumHardnessMgL: 20,
          alkalinityMgL: 25,
        })
        return answer.kind === 'index' ? answer.value : Number.NaN
      })(),
      right: -2.476,
      within: 0.01,
    },
    {
      what: '100 mg/L hardness in German degrees',
      where: 'worldcalc.org: swaps the French and the German degree',
      printed: 10,
      ours: 100 / gramsHard('°dH'),
      right: 5.603,
      within: 0.01,
    },
    {
      what: '17.1 mg/L hardness in grains per gallon',
      where: 'instrument maker, answer 1000710: says multiply by 17.1, its own table has 0.058',
      printed: 17.1 * 17.1,
      ours: 17.1 / gramsHard('gpg'),
      right: 1,
      within: 0.002,
    },
    {
      what: 'nitrite of 0.5 mg/L as NO2, in mg/L as N',
      where: 'galwaywater.ie water limits',
      printed: 0.03,
      ours: limitInHome('nitrite', 0.5, 'mg/L as NO2'),
      right: 0.1522,
      within: 0.0002,
    },
    {
      what: 'the WHO value for nitrate, 50 as NO3, in mg/L as N',
      where: 'queshub 4386: takes 50 for a value as N',
      printed: 50,
      ours: limitInHome('nitrate', 50, 'mg/L as NO3'),
      right: 11.295,
      within: 0.002,
    },
  ])('$what ($where)', ({ printed, ours, right, within }) => {
    expect(Math.abs(ours - right)).toBeLessThanOrEqual(within)
    expect(Math.abs(ours - printed)).toBeGreaterThan(10 * within)
  })
})
