import { expect, test } from 'vitest'
import { nextBrushCheckH, suggestedMinimumM } from '@/lib/domain/pump'

// US Navy NAVEDTRA 14113 (page Brushes-289) and NAVEDTRA 14120; the 20 mm brush is our example.
test('a 20 mm brush is changed at 10 mm with a tamped lead, at 8 mm with a spring-enclosed one', () => {
  expect(suggestedMinimumM(0.02, 'tamped')).toBe(0.01)
  expect(suggestedMinimumM(0.02, 'spring-enclosed')).toBe(0.008)
})

test('a riveted brush is changed an eighth of an inch above its metal, and not guessed where that is unknown', () => {
  expect(suggestedMinimumM(0.02, 'riveted', 0.005)).toBeCloseTo(0.005 + 0.0254 / 8, 12)
  expect(suggestedMinimumM(0.02, 'riveted')).toBeNull()
})

// US Army TM 11-6125-252-15, para. 4-7: check at 1,000 h, then every 200 h.
test('new brushes are looked at after 1,000, 1,200 and 1,400 hours', () => {
  expect([0, 1000, 1200].map(nextBrushCheckH)).toEqual([1000, 1200, 1400])
})
