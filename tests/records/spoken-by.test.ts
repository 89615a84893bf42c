import { expect, test } from 'vitest'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { entriesOfWell } from '@/lib/records/entries'
import { newId } from '@/lib/records/ids'
import { record } from '@/lib/records/record'
import { bareWell } from '@/lib/records/well-fields'
import { createWell, visibleWell, wellPage } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const SHEET: Fact = {
  kind: 'sample',
  sampledAt: '2026-11-10T08:00',
  receivedAt: '2026-11-10T12:00',
  confirmedBy: 'nobody at all',
  results: [
    { analyte: 'Total coliform', result: 'Absent' },
    { analyte: 'Nitrate as N', result: '1.2', unit: 'mg/L' },
  ],
}

test('a lab sheet from an owner is unconfirmed, whatever it says, until the outfit confirms it', async () => {
  const db = await freshDb()
  const well = await createWell(db, installer, { ...bareWell('A-1'), ownerName: 'Orla Finch' }, AT)
  if (well.kind !== 'stored') throw new Error(well.kind)
  const ownerId = visibleWell(db, installer, well.id)?.ownerId ?? null
  const verdict = () => wellPage(db, installer, well.id)?.standing?.water.verdict
  const draft = {
    id: newId(),
    wellId: well.id,
    visitId: newId(),
    occurredOn: '2026-11-10',
    occurredTime: null,
    byName: 'Orla Finch',
    supersedes: null,
    withdraws: null,
    payload: SHEET,
  }
  expect(await record(db, owner(ownerId), [draft], AT, TODAY)).toMatchObject({ stored: [draft.id] })
  const [stored] = entriesOfWell(db.sqlite, well.id)
  expect(stored?.payload).toMatchObject({ enteredBy: 'owner' })
  expect(stored?.payload).not.toHaveProperty('confirmedBy')
  expect(verdict()).toBe('inconclusive')
  // Sent twice it is stored once: what is compared is what was stored.
  expect(await record(db, owner(ownerId), [draft], AT, TODAY)).toMatchObject({ already: [draft.id] })

  const confirmation = {
    ...draft,
    id: newId(),
    byName: 'Maren',
    supersedes: draft.id,
    payload: {
      kind: 'correction',
      reason: 'held against the paper',
      occurredOn: '2026-11-10',
      occurredTime: null,
      replacement: { ...SHEET, enteredBy: 'owner', confirmedBy: 'Maren' },
    },
  }
  expect(await record(db, installer, [confirmation], AT, TODAY)).toMatchObject({ stored: [confirmation.id] })
  expect(verdict()).toBe('meets')
})
