import { describe, expect, test } from 'vitest'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { NO_EQUIPMENT } from '@/lib/domain/logbook/equipment'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { otherModels } from '@/lib/domain/logbook/part-models'
import { doubtSaid, partsEntered, warrantySaid } from '@/lib/domain/logbook/part-words'
import { unnamedChanges } from '@/lib/domain/logbook/unnamed-changes'
import { type FittedByVisit, type ListedPart, partRegister } from '@/lib/domain/pump'

const visit = (part: string, on: string, model: string | null = null): FittedByVisit => ({
  entryId: `${part} ${on}`,
  line: 0,
  on,
  part,
  model,
  count: 1,
  warrantyMonths: null,
})
const hand = (kind: string, fittedOn: string | null): ListedPart => ({
  id: `${kind} by hand`,
  kind,
  model: null,
  size: null,
  fittedOn,
  warrantyUntil: null,
  removedOn: null,
  notes: null,
  beside: false,
})
const register = (listed: ListedPart[], fitted: FittedByVisit[]) => partRegister(listed, fitted, () => 12)
const asIs = (day: string) => day
const fact = (on: string, said: Fact): CurrentFact => ({
  id: on,
  spokenBy: on,
  visitId: on,
  on,
  time: null,
  byName: null,
  fact: said,
})

describe('what a visit did to the register of parts', () => {
  test('is told with warranty and with the part whose place was taken', () => {
    const parts = register([hand('pump', '2020-01-01')], [visit('pump', '2026-01-01', 'P')])
    expect(partsEntered(parts, new Set(['pump 2026-01-01']), asIs)).toEqual([
      'Register of parts: pump P entered, warranty until 2027-01-01; the one of 2020-01-01 is marked as taken out.',
    ])
    expect(partsEntered(parts, new Set(['another']), asIs)).toEqual([])
  })

  test('is told as an earlier part where a newer one is there, and with its doubt where that cannot be told', () => {
    const newer = register([hand('cap', '2026-06-01')], [visit('cap', '2026-01-01')])
    expect(partsEntered(newer, new Set(['cap 2026-01-01']), asIs)[0]).toContain(
      'as an earlier one: one of 2026-06-01 is in its place and stays as it is',
    )
    const undated = register([hand('cap', null)], [visit('cap', '2026-01-01')])
    expect(partsEntered(undated, new Set(['cap 2026-01-01']), asIs)[0]).toContain('cannot be told')
    const doubtful = undated.find(({ listedId }) => listedId !== null)
    expect(doubtful && doubtSaid(doubtful, null, asIs)).toContain('a visit fitted one on 2026-01-01')
  })
})

test('a warranty that is not known is not said to be none', () => {
  expect(warrantySaid(null, '2026-01-01', asIs)).toBe('not recorded')
  expect(warrantySaid('2026-01-01', '2026-01-01', asIs)).toBe('until 2026-01-01')
  expect(warrantySaid('2025-12-31', '2026-01-01', asIs)).toBe('ended 2025-12-31')
})

test('work that changed a part without naming it is told at the part that was named last', () => {
  const parts = register([], [visit('cartridge', '2026-01-01'), visit('pump', '2026-01-01')])
  const work: Fact = { kind: 'service-done', duties: ['change-sediment-cartridge'], names: [], parts: [] }
  const later = unnamedChanges(parts, [
    fact('2026-03-01', work),
    fact('2025-03-01', { kind: 'event', event: 'pump-replaced' }),
  ])
  expect([...later]).toEqual([['cartridge 2026-01-01 0', '2026-03-01']])
  expect(unnamedChanges(parts, [fact('2026-03-01', { kind: 'event', event: 'pump-replaced' })]).size).toBe(1)
})

test('a part in place of another name than the model of the well is told, unless one name holds the other', () => {
  const cartridge = { name: '20 in, 5 micron', terminalDropPa: null, referenceFlowM3PerS: null, oRing: null }
  const told = (model: string | null) =>
    otherModels(register([], [visit('cartridge', '2026-01-01', model)]), { ...NO_EQUIPMENT, cartridge })
  expect(told('10 in')).toEqual([{ kind: 'cartridge', fitted: '10 in', named: '20 in, 5 micron' }])
  expect(told(' 20 IN')).toEqual([])
  expect(told(null)).toEqual([])
})
