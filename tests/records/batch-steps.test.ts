import { describe, expect, test } from 'vitest'
import { OUTFIT } from '@/lib/access/viewer'
import { batchList, undoBatch } from '@/lib/records/batch-undo'
import { commitBatch } from '@/lib/records/batches'
import type { Db } from '@/lib/records/db'
import { dueCounts } from '@/lib/records/due-list'
import { newId } from '@/lib/records/ids'
import { record } from '@/lib/records/record'
import { wellList } from '@/lib/records/well-list'
import { AT, benchPlan, TODAY } from '../bench/fleet-db'
import { freshDb } from '../setup/fresh-db'
import { technician } from '../setup/viewers'

const entries = (db: Db) => Number(db.sqlite.prepare('SELECT COUNT(*) FROM "Entry"').pluck().get())
const labels = (db: Db) => wellList(db, OUTFIT, {}, null, 100).rows.map((row) => row.label)

async function committed(db: Db) {
  const outcome = await commitBatch(db, OUTFIT, benchPlan(0, 5), AT)
  if (outcome.kind !== 'done') throw new Error('refused')
  return outcome
}

describe('an import', () => {
  test('is stored whole, with standings; the same file again changes nothing and leaves no batch', async () => {
    const db = await freshDb()
    expect((await committed(db)).counts).toMatchObject({ wellsAdded: 5, dutiesAdded: 15, entriesAdded: 100 })
    const due = dueCounts(db, OUTFIT, TODAY, {})
    // Three duties a well, and the first water test of each, as none of them has a lab sheet.
    expect(Object.values(due).reduce((a, b) => a + b)).toBe(20)
    const again = await committed(db)
    expect(again.batchId).toBeNull()
    expect(again.counts).toMatchObject({
      wellsAdded: 0,
      wellsUnchanged: 5,
      entriesAdded: 0,
      entriesUnchanged: 100,
    })
    expect(batchList(db, OUTFIT, 10).length).toBe(1)
  })

  test('of which one row names no well stores nothing at all', async () => {
    const db = await freshDb()
    const plan = benchPlan(0, 5)
    plan.wells.pop()
    const outcome = await commitBatch(db, OUTFIT, plan, AT)
    expect(outcome.kind).toBe('refused')
    expect(labels(db)).toEqual([])
    expect(entries(db)).toBe(0)
  })

  test('is not seen half-way, and a visit saved meanwhile waits and is stored', async () => {
    const db = await freshDb()
    await committed(db)
    const seen = new Set<number>()
    const wellId = String(db.sqlite.prepare('SELECT "id" FROM "Well" LIMIT 1').pluck().get())
    const importing = commitBatch(db, OUTFIT, benchPlan(100, 60), AT, () => seen.add(labels(db).length))
    const visit = {
      id: newId(),
      wellId,
      visitId: newId(),
      occurredOn: TODAY,
      occurredTime: null,
      byName: null,
      supersedes: null,
      withdraws: null,
    }
    const saving = record(
      db,
      technician,
      [{ ...visit, payload: { kind: 'note', text: 'meanwhile' } }],
      AT,
      TODAY,
    )
    expect((await importing).kind).toBe('done')
    expect((await saving).kind).toBe('stored')
    expect([...seen]).toEqual([5])
    expect(labels(db).length).toBe(65)
  })

  test('is taken back as one step by withdrawals, and can be imported again', async () => {
    const db = await freshDb()
    const { batchId } = await committed(db)
    expect(await undoBatch(db, OUTFIT, batchId ?? '', AT, TODAY)).toMatchObject({
      kind: 'undone',
      entriesWithdrawn: 100,
      wellsTakenOut: 5,
      wellsKept: 0,
    })
    expect(labels(db)).toEqual([])
    expect(entries(db)).toBe(200)
    expect((await undoBatch(db, OUTFIT, batchId ?? '', AT, TODAY)).kind).toBe('undone-before')
    expect((await committed(db)).counts).toMatchObject({ wellsAdded: 5, entriesAdded: 100 })
    expect(labels(db).length).toBe(5)
    expect((await committed(db)).batchId).toBeNull()
  })

  test('leaves a well in the register on which somebody has written since', async () => {
    const db = await freshDb()
    const { batchId } = await committed(db)
    const wellId = String(
      db.sqlite.prepare(`SELECT "id" FROM "Well" WHERE "label" = 'W000002'`).pluck().get(),
    )
    const line = {
      id: newId(),
      wellId,
      visitId: newId(),
      occurredOn: TODAY,
      occurredTime: null,
      byName: null,
      supersedes: null,
      withdraws: null,
    }
    await record(db, technician, [{ ...line, payload: { kind: 'note', text: 'mine' } }], AT, TODAY)
    expect(await undoBatch(db, OUTFIT, batchId ?? '', AT, TODAY)).toMatchObject({
      wellsTakenOut: 4,
      wellsKept: 1,
    })
    expect(labels(db)).toEqual(['W000002'])
  })

  test('that changed wells is set back, unless somebody changed them again', async () => {
    const db = await freshDb()
    await committed(db)
    const plan = benchPlan(0, 5)
    const change = {
      ...plan,
      updateExisting: true,
      entries: [],
      duties: [],
      wells: plan.wells.map((well) => ({ ...well, fields: { ...well.fields, area: 'Moved' } })),
    }
    const outcome = await commitBatch(db, OUTFIT, change, AT)
    expect(outcome.kind === 'done' && outcome.counts.wellsChanged).toBe(5)
    db.sqlite.prepare(`UPDATE "Well" SET "version" = "version" + 1 WHERE "label" = 'W000003'`).run()
    const undone = await undoBatch(
      db,
      OUTFIT,
      outcome.kind === 'done' ? (outcome.batchId ?? '') : '',
      AT,
      TODAY,
    )
    expect(undone).toMatchObject({ rowsRestored: 4, rowsKept: 1 })
    expect(wellList(db, OUTFIT, { area: 'Moved' }, null, 10).rows.map((row) => row.label)).toEqual([
      'W000003',
    ])
  })
})
