import { expect, test } from 'vitest'
import { REMINDER_DEFAULTS, reminderChoices } from '@/lib/domain/upkeep/reminder-settings'

test('what was never chosen is two weeks before and on the day, in the morning, for the office too', () => {
  expect(REMINDER_DEFAULTS).toEqual({ leadDays: [14, 0], officeDigest: true, hour: 6 })
})

test.each([
  [{ leadDays: [] }],
  [{ leadDays: [7, 7] }],
  [{ leadDays: [-1] }],
  [{ leadDays: [366] }],
  [{ leadDays: [1.5] }],
  [{ hour: 24 }],
])('%j is refused', (choice) => {
  expect(reminderChoices.safeParse(choice).success).toBe(false)
})
