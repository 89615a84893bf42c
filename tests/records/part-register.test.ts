import { beforeAll, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import { exportParts } from '@/lib/exchange/export-parts'
import { sendVisit } from '@/lib/exchange/send-visit'
import { undoBatch } from '@/lib/records/batch-undo'
import { commitBatch } from '@/lib/records/batches'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { savePumpModel } from '@/lib/records/models'
import { partRegisterOf } from '@/lib/records/part-register'
import { savePart } from '@/lib/records/parts'
import { rebuild } from '@/lib/records/rebuild'
import { record } from '@/lib/records/record'
import { bareWell } from '@/lib/records/well-fields'
import { createWell, wellPage } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'

let db: Db
beforeAll(async () => {
  db = await freshDb()
  await savePumpModel(
    db,
    installer,
    null,
    {
      name: 'Brookline 9',
      type: null,
      power: null,
      brushNewM: null,
      brushMinimumM: null,
      brushCount: null,
      brushPart: null,
      warrantyMonths: 36,
      npshRequiredM: null,
      referenceVolts: null,
      sheet: [],
      retired: false,
      typed: {},
    },
    AT,
  )
})

async function well(label: string): Promise<string> {
  const made = await createWell(db, installer, bareWell(label), AT)
  if (made.kind !== 'stored') throw new Error(made.kind)
  return made.id
}

type Fit = { part: string; model?: string; count?: number; warrantyMonths?: number }
const fits = (...parts: Fit[]) => ({
  kind: 'service-done',
  duties: ['look-around'],
  names: ['Look around'],
  parts: parts.map((part) => ({ count: 1, ...part })),
})

const line = (wellId: string, occurredOn: string, payload: unknown, more: object = {}) => ({
  id: newId(),
  wellId,
  visitId: newId(),
  occurredOn,
  occurredTime: null,
  byName: null,
  supersedes: null,
  withdraws: null,
  payload,
  ...more,
})

async function write(...drafts: ReturnType<typeof line>[]): Promise<string> {
  const outcome = await record(db, technician, drafts, AT, TODAY)
  if (outcome.kind !== 'stored') throw new Error(JSON.stringify(outcome))
  return drafts[0]?.id ?? ''
}

const byHand = (wellId: string, kind: string, fittedOn: string, more: object = {}) =>
  savePart(
    db,
    installer,
    wellId,
    null,
    {
      kind,
      model: null,
      size: null,
      fittedOn,
      warrantyUntil: null,
      removedOn: null,
      notes: null,
      beside: false,
      ...more,
    },
    AT,
  )

const seen = (wellId: string) =>
  partRegisterOf(db, technician, wellId).map(
    ({ kind, model, fittedOn, removedOn, warrantyUntil }) =>
      `${kind} ${model ?? '-'} ${fittedOn} to ${removedOn ?? 'now'}, warranty ${warrantyUntil ?? '-'}`,
  )

const partChanges = (wellId: string) =>
  (wellPage(db, installer, wellId)?.changes ?? [])
    .filter(({ targetKind }) => targetKind === 'part')
    .map(({ action, byName, before, after }) => ({
      action,
      byName,
      before: before === null ? null : JSON.parse(before),
      after: after === null ? null : JSON.parse(after),
    }))

describe('a visit that fits a part', () => {
  test('enters it with its model’s warranty, marks the earlier one as taken out, and says so in the change record', async () => {
    const wellId = await well('P1')
    await byHand(wellId, 'pump', '2022-05-01', { model: 'Slow lift 40', notes: 'second hand' })
    await write(line(wellId, '2026-05-01', fits({ part: 'pump', model: 'brookline 9' })))
    expect(seen(wellId)).toEqual([
      'pump brookline 9 2026-05-01 to now, warranty 2029-05-01',
      'pump Slow lift 40 2022-05-01 to 2026-05-01, warranty -',
    ])
    const changes = partChanges(wellId)
    expect(changes.find(({ action }) => action === 'part taken out by a visit')).toMatchObject({
      byName: 'Joss',
      before: { kind: 'pump', model: 'Slow lift 40', removedOn: null, notes: 'second hand' },
      after: { kind: 'pump', model: 'Slow lift 40', removedOn: '2026-05-01', notes: 'second hand' },
    })
    expect(changes.find(({ action }) => action === 'part fitted by a visit')).toMatchObject({
      byName: 'Joss',
      before: null,
      after: { kind: 'pump', model: 'brookline 9', fittedOn: '2026-05-01', warrantyUntil: '2029-05-01' },
    })
  })

  test('taken back or corrected takes that back, part by part', async () => {
    const wellId = await well('P2')
    await byHand(wellId, 'cartridge', '2026-01-01', { size: '10 in' })
    const id = await write(
      line(wellId, '2026-05-01', fits({ part: 'cartridge', model: '20 in' }, { part: 'o-rings', count: 2 })),
    )
    expect(seen(wellId)).toHaveLength(3)
    const replacement = fits({ part: 'o-rings', count: 2 })
    await write(
      line(
        wellId,
        TODAY,
        {
          kind: 'correction',
          reason: 'no cartridge',
          occurredOn: '2026-05-02',
          occurredTime: null,
          replacement,
        },
        { supersedes: id },
      ),
    )
    expect(seen(wellId)).toEqual([
      'cartridge - 2026-01-01 to now, warranty -',
      'o-rings - 2026-05-02 to now, warranty -',
    ])
    expect(partChanges(wellId)[0]?.byName).toBe('Joss')
    await write(line(wellId, TODAY, { kind: 'withdrawal', reason: 'wrong well' }, { withdraws: id }))
    expect(seen(wellId)).toEqual(['cartridge - 2026-01-01 to now, warranty -'])
    const actions = partChanges(wellId).map(({ action }) => action)
    expect(actions.filter((action) => action === 'part taken back with its visit')).toHaveLength(2)
    const back = partChanges(wellId).find(
      ({ action, after }) => action === 'part changed with its visit' && after.kind === 'cartridge',
    )
    expect(back).toMatchObject({ before: { removedOn: '2026-05-01' }, after: { removedOn: null } })
  })

  test('of an earlier day than one written by hand comes in as an earlier one and overwrites nothing', async () => {
    const wellId = await well('P3')
    await byHand(wellId, 'check valve', '2026-06-01', { model: 'brass' })
    await write(line(wellId, '2026-05-01', fits({ part: 'check valve', model: 'plastic' })))
    expect(seen(wellId)).toEqual([
      'check valve brass 2026-06-01 to now, warranty -',
      'check valve plastic 2026-05-01 to 2026-06-01, warranty -',
    ])
  })

  test('twice on one day leaves the later line in place, whatever order they are sent in, and after a rebuild', async () => {
    const wellId = await well('P4')
    const [first, second] = [newId(), newId()]
    await write(
      line(wellId, '2026-05-01', fits({ part: 'cartridge', model: 'B' }), {
        id: second,
        occurredTime: '15:00',
      }),
    )
    await write(
      line(wellId, '2026-05-01', fits({ part: 'cartridge', model: 'A' }), {
        id: first,
        occurredTime: '09:00',
      }),
    )
    const expected = [
      'cartridge B 2026-05-01 to now, warranty -',
      'cartridge A 2026-05-01 to 2026-05-01, warranty -',
    ]
    expect(seen(wellId)).toEqual(expected)
    await rebuild(db, 'all')
    expect(seen(wellId)).toEqual(expected)
  })

  test('sent by a phone, twice, is entered once', async () => {
    const wellId = await well('P5')
    const typed = {
      visitId: newId(),
      date: '2026-11-19',
      otherWork: 'Changed the brushes',
      partKind1: 'brushes',
      partModel1: 'set 9',
      partWarranty1: '6',
    }
    const clock = { at: AT, today: TODAY }
    expect((await sendVisit(db, technician, wellId, typed, clock)).kind).toBe('stored')
    expect((await sendVisit(db, technician, wellId, typed, clock)).kind).toBe('already')
    expect(seen(wellId)).toEqual(['brushes set 9 2026-11-19 to now, warranty 2027-05-19'])
    expect(partChanges(wellId)).toHaveLength(1)
  })
})

describe('an import that fits parts', () => {
  test('marks the earlier ones as taken out, and gives them back when it is taken back', async () => {
    const wellId = await well('P6')
    await write(line(wellId, '2025-05-01', fits({ part: 'cartridge', model: 'old' })))
    const {
      id: _,
      wellId: _w,
      ...draft
    } = line(wellId, '2026-05-01', fits({ part: 'cartridge', model: 'new' }))
    const plan = {
      what: 'visits' as const,
      fileName: 'visits.csv',
      fileSha256: '',
      wells: [],
      updateExisting: false,
      duties: [],
      entries: [{ wellLabel: 'P6', row: 2, contentKey: ['x'], draft: { ...draft, id: '' } as never }],
    }
    const outcome = await commitBatch(db, installer, plan, AT)
    if (outcome.kind !== 'done' || !outcome.batchId) throw new Error(JSON.stringify(outcome))
    expect(seen(wellId)).toEqual([
      'cartridge new 2026-05-01 to now, warranty -',
      'cartridge old 2025-05-01 to 2026-05-01, warranty -',
    ])
    expect(partChanges(wellId).map(({ action, byName }) => `${action}, ${byName}`)).toEqual(
      expect.arrayContaining(['part fitted by a visit, Maren', 'part taken out by a visit, Maren']),
    )
    expect((await undoBatch(db, installer, outcome.batchId, AT, TODAY)).kind).toBe('undone')
    expect(seen(wellId)).toEqual(['cartridge old 2025-05-01 to now, warranty -'])
    expect(partChanges(wellId).map(({ action }) => action)).toContain('part taken back with its visit')
  })
})

test('the register of parts of a well is not for those who may not see it', async () => {
  const wellId = await well('P7')
  await write(line(wellId, '2026-05-01', fits({ part: 'cap' })))
  expect(partRegisterOf(db, owner('somebody'), wellId)).toEqual([])
})

test('the parts of every well leave as a file for the installer, with warranty and day of taking out', async () => {
  const wellId = await well('P8, export')
  await write(line(wellId, '2026-04-01', fits({ part: 'lamp', model: '=40 W', warrantyMonths: 12 })))
  await write(line(wellId, '2026-05-01', fits({ part: 'lamp' })))
  const file = [...exportParts(db, installer)].join('')
  expect(file.split('\n').filter((row) => row.includes('P8, export'))).toEqual([
    '"P8, export",lamp,,,1,2026-05-01,,,visit,',
    `"P8, export",lamp,'=40 W,,1,2026-04-01,2027-04-01,2026-05-01,visit,`,
  ])
  expect(() => [...exportParts(db, technician)]).toThrow(NotAllowed)
})
