import { expect, test } from 'vitest'
import { OUTFIT } from '@/lib/access/viewer'
import { batchList, undoBatch } from '@/lib/records/batch-undo'
import { broughtBy } from '@/lib/records/brought'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { models } from '@/lib/records/models'
import { shelf, shelfItem, stockBook, stockItemId, stockModels } from '@/lib/records/stock-items'
import { moveStock } from '@/lib/records/stock-moves'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { loadDemo } from '@/seed'
import { freshDb } from '../setup/fresh-db'
import { installer } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = `${TODAY}T12:00:00.000Z`
const LATER = `${TODAY}T13:00:00.000Z`
const SIZE = '20 in, 5 micron'

async function demo(): Promise<{ db: Db; batchId: string }> {
  const db = await freshDb()
  await loadDemo(db, AT, TODAY)
  const batch = batchList(db, OUTFIT, 1)[0]
  if (!batch) throw new Error('no batch')
  return { db, batchId: batch.id }
}
const wells = (db: Db) => db.sqlite.prepare('SELECT COUNT(*) FROM "Well" WHERE "struck" = 0').pluck().get()

test('the demo taken back leaves no well, no model and no shelf', async () => {
  const { db, batchId } = await demo()
  expect(broughtBy(db, OUTFIT, { id: batchId, at: AT }).filter(({ keptFor }) => keptFor !== null)).toEqual([])
  const outcome = await undoBatch(db, OUTFIT, batchId, LATER, TODAY)
  expect(outcome).toMatchObject({ kind: 'undone', wellsKept: 0, wellsTakenOut: 64, stayed: [] })
  expect(wells(db)).toBe(0)
  expect(models(db, OUTFIT)).toEqual({ pumps: [], cartridges: [] })
  expect(shelf(db, OUTFIT)).toEqual([])
  expect(stockModels(db, OUTFIT)).toEqual([])
  expect(shelfItem(db, OUTFIT, stockItemId('cartridge', SIZE))).toBeNull()

  // A part of the same name that the outfit really has begins a book of its own.
  const line = { id: newId(), part: 'cartridge' as const, model: SIZE, on: TODAY, kind: 'received' as const }
  await moveStock(db, installer, { ...line, count: 2, reason: null }, `${TODAY}T14:00:00.000Z`, TODAY)
  const [item, ...rest] = shelf(db, OUTFIT)
  expect(rest).toEqual([])
  expect(item).toMatchObject({ shelf: 2, countedOn: null, reorderAt: null })
  expect(item && stockBook(db, OUTFIT, item, 10)).toHaveLength(1)
}, 60_000)

test('what a well of the outfit or a later line uses stays, and is named before and after', async () => {
  const { db, batchId } = await demo()
  const own = await createWell(db, installer, { ...bareWell('Own 1'), cartridgeModel: SIZE }, LATER)
  expect(own.kind).toBe('stored')
  const line = {
    id: newId(),
    part: 'lamp' as const,
    model: '40 W, 33 in',
    on: TODAY,
    kind: 'counted' as const,
  }
  await moveStock(db, installer, { ...line, count: 1, reason: null }, LATER, TODAY)
  const kept = broughtBy(db, OUTFIT, { id: batchId, at: AT }).filter(({ keptFor }) => keptFor !== null)
  expect(kept.map(({ name, keptFor }) => `${name}: ${keptFor}`)).toEqual([
    `${SIZE}: well Own 1 names it`,
    'lamp 40 W, 33 in: Maren wrote about it since',
  ])
  const outcome = await undoBatch(db, OUTFIT, batchId, LATER, TODAY)
  expect(outcome).toMatchObject({ kind: 'undone', stayed: [SIZE, 'lamp 40 W, 33 in'] })
  expect(models(db, OUTFIT).cartridges.map(({ name }) => name)).toEqual([SIZE])
  expect(models(db, OUTFIT).pumps).toEqual([])
  expect(shelf(db, OUTFIT).map(({ part, shelf: there }) => `${part} ${there}`)).toEqual(['lamp 1'])
}, 60_000)
