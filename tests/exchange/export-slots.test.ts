import { expect, test } from 'vitest'
import { EXPORTS_AT_ONCE, exportSlot } from '@/lib/exchange/export-slots'

test('so many exports run at once and no more, and a place given back twice is one place', () => {
  const slots = Array.from({ length: EXPORTS_AT_ONCE }, () => exportSlot())
  expect(slots.every((slot) => slot !== null)).toBe(true)
  expect(exportSlot()).toBeNull()
  slots[0]?.()
  slots[0]?.()
  const again = exportSlot()
  expect(again).not.toBeNull()
  expect(exportSlot()).toBeNull()
  for (const slot of [...slots, again]) slot?.()
  expect(exportSlot()).not.toBeNull()
})
