import { expect, test } from 'vitest'
import { mannKendallWithMemory } from '@/lib/domain/stats'
import { numberIn, rowsOf } from './cases'

/** Monthly rainfall, 353 values with the gaps closed, as the source tests it; counted from 1,
 * as residuals that are equal on paper are ranked as rounding leaves them. */
const rainfall = () =>
  rowsOf('pymk_1d.csv')
    .filter((row) => row.value !== '')
    .map((row, i) => ({ time: i + 1, value: numberIn(row, 'value') }))

// pyMannKendall tests/test_pymannkendall.py (GitHub mmhs013/pyMannKendall, commit 2541218), Hamed & Rao 1998.
test.each([
  // lag = 3: var_s 14226812.425138814, z -0.5191093899188985, p 0.603684460662274.
  { lagMax: 3, mayShrink: false, varS: 14226812.425138814, z: -0.5191093899188985, p: 0.603684460662274 },
  // all lags: var_s 257403.38678462413, z -3.859273515045842, p 0.00011372459883540742.
  {
    lagMax: 400,
    mayShrink: true,
    varS: 257403.38678462413,
    z: -3.859273515045842,
    p: 0.00011372459883540742,
  },
])('Hamed & Rao on monthly rainfall, lags up to $lagMax', ({ lagMax, mayShrink, varS, z, p }) => {
  const t = mannKendallWithMemory(rainfall(), { lagMax, mayShrink })
  if (t.kind !== 'test') throw new Error('too few')
  expect(t.s).toBe(-1959)
  expect(t.varS / varS).toBeCloseTo(1, 8)
  expect(t.z).toBeCloseTo(z, 8)
  expect(t.pNormal).toBeCloseTo(p, 8)
})

test('a season left in the series cannot make the evidence stronger unless that is asked for', () => {
  const t = mannKendallWithMemory(rainfall(), { lagMax: 400 })
  if (t.kind !== 'test') throw new Error('too few')
  expect(t.inflation).toBe(1)
  expect(t.pNormal).toBeCloseTo(0.37591058740506833, 8)
})
