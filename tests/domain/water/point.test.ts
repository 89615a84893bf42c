import { expect, test } from 'vitest'
import { isAfterTreatment } from '@/lib/domain/water/point'

test.each([
  'Kitchen tap, after treatment',
  'after the UV lamp',
  'RO tap',
  'post-filter',
  'softened water, bath',
  'Treated',
  'reverse osmosis tap',
  'kitchen, behind the carbon filter',
])('%s is after treatment', (point) => {
  expect(isAfterTreatment(point)).toBe(true)
})

test.each([
  '',
  'kitchen tap',
  'Well head, before treatment',
  'Pressure tank, before treatment',
  'untreated',
  'raw, ahead of the softener',
  'Outside tap',
  'tap after the pressure tank',
  'rooftop tank',
  'post office tap',
])('"%s" is not', (point) => {
  expect(isAfterTreatment(point)).toBe(false)
})
