import { expect, test } from 'vitest'
import { partsInPlace, toldOnce } from '@/lib/domain/pump'

const fitted = partsInPlace([
  { part: 'cartridge', model: '20 in', on: '2026-06-29', warrantyMonths: null },
  { part: 'pump', model: 'old', on: '2022-01-01', warrantyMonths: 24 },
])
const part = (kind: string, fittedOn: string | null, removedOn: string | null = null) => ({
  kind,
  fittedOn,
  removedOn,
})

test('of one kind the newer of register and logbook is in place, and told once', () => {
  const told = toldOnce([part('cartridge', '2020-03-01'), part('pump', '2024-05-01')], fitted)
  expect(told.register.map(({ newerOn }) => newerOn)).toEqual(['2026-06-29', null])
  expect(told.logbook.map((line) => line.part)).toEqual(['cartridge'])
})

test('a part of the register whose day nobody wrote down hides nothing, and one taken out is not in place', () => {
  const told = toldOnce([part('cartridge', null), part('pump', '2024-05-01', '2025-01-01')], fitted)
  expect(told.register).toEqual([{ ...part('cartridge', null), newerOn: null }])
  expect(told.logbook.map((line) => line.part)).toEqual(['cartridge', 'pump'])
})
