import { expect, test } from 'vitest'
import { sayRoughly } from '@/lib/domain/logbook/supply-words'
import { toSi } from '@/lib/domain/quantity'

const gallons = (amount: number, to?: 'nearest' | 'up') =>
  sayRoughly(toSi(amount, 'gal'), 'us', to).replace('\u00a0', ' ')

test('an amount of water of a simulated year has two figures, and a tank that must do is rounded up', () => {
  expect([728, 1983, 64, 5.2].map((amount) => gallons(amount))).toEqual([
    '730 gal',
    '2,000 gal',
    '64 gal',
    '5 gal',
  ])
  expect([2006, 2100, 611].map((amount) => gallons(amount, 'up'))).toEqual([
    '2,100 gal',
    '2,100 gal',
    '620 gal',
  ])
  expect(gallons(0)).toBe('0 gal')
})
