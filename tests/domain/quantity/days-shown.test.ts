import { expect, test } from 'vitest'
import { daysShown } from '@/lib/domain/quantity'

test('days within a sentence are written as their reader does', () => {
  const sentence =
    'Due 27 Mar 2026: last done 2025-03-27. 30 Nov falls in the closed season (15 Nov to 20 Apr), so by 14 Nov 2025.'
  expect(daysShown(sentence, 'us')).toBe(
    'Due Mar 27, 2026: last done Mar 27, 2025. Nov 30 falls in the closed season (Nov 15 to Apr 20), so by Nov 14, 2025.',
  )
  expect(daysShown(sentence, 'metric')).toBe(sentence.replace('2025-03-27', '27 Mar 2025'))
})

test('what is no day stays as it is', () => {
  for (const text of ['141.63 of 2026-13-45', '12 Marks', 'lot 2026-1', 'row 3 of 12'])
    expect(daysShown(text, 'us')).toBe(text)
})
