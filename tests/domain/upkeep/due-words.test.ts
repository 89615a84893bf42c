import { expect, test } from 'vitest'
import { addDays } from '@/lib/domain/quantity'
import { sayDistance } from '@/lib/domain/upkeep/due-words'
import { DUTY_LIBRARY } from '@/lib/domain/upkeep/library'
import { consequenceOfRank, consequenceRank } from '@/lib/domain/upkeep/rank'
import { partsHint, truckList } from '@/lib/domain/upkeep/truck'

const TODAY = '2026-11-20'

test.each([
  [0, 'today'],
  [1, 'tomorrow'],
  [3, 'in 3 days'],
  [-1, '1 day past'],
  [-12, '12 days past'],
  [60, 'in 60 days'],
  [61, 'in about 2 months'],
  [-365, 'about 12 months past'],
  [730, 'in about 2 years'],
  [-913, 'about 2.5 years past'],
])('%d days from today is said as "%s"', (days, words) => {
  expect(sayDistance(addDays(TODAY, days), TODAY)).toBe(words)
})

test('what to take along is counted by the duties that want it, the most wanted first', () => {
  expect(truckList(['nitrate-sample', 'bacteria-sample', 'own-duty'])).toEqual([
    { part: 'cooler with ice', duties: 2 },
    { part: 'alcohol wipes', duties: 1 },
    { part: 'nitrate bottle', duties: 1 },
    { part: 'sterile bacteria bottle', duties: 1 },
  ])
  expect(truckList([])).toEqual([])
  expect(partsHint('own-duty')).toEqual([])
})

test('a rank is turned back into its consequence, and no other number is', () => {
  for (const { consequence } of DUTY_LIBRARY) {
    expect(consequenceOfRank(consequenceRank(consequence))).toBe(consequence)
  }
  expect(() => consequenceOfRank(4)).toThrow(RangeError)
})
