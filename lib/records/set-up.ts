import type Database from 'better-sqlite3'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { BatchChange, BatchCounts } from './batch-wells'
import { writeChange } from './changes'
import type { Db } from './db'
import type { DutyFields } from './duty-fields'
import { newId } from './ids'
import { cartridgeModelRow, modelNamesOf, pumpModelRow } from './model-rows'
import { dutyValues, insertDuty } from './register-rows'
import type { DutyRow, WellRow } from './rows'
import { refreshWell } from './standings'
import { prepared } from './statements'
import { transaction } from './transaction'
import { visibleWell } from './wells'

/** What wells of one kind are given alike; a model of null leaves each well's own as it is. */
export type SetUpChoice = {
  pumpModelId: string | null
  cartridgeModelId: string | null
  duties: readonly DutyFields[]
}

/** What a set-up would do to one well: what it names now, and which duties it would be given. */
export type SetUpRow = {
  id: string
  label: string
  name: string | null
  pump: { now: string | null; changes: boolean }
  cartridge: { now: string | null; changes: boolean }
  /** Names of the duties it lacks, and of those that it keeps with their own limits or that were retired on it. */
  given: string[]
  kept: string[]
}

/** What a set-up would do, well by well, without doing it. Throws NotAllowed unless the viewer may edit wells. */
export function previewSetUp(
  db: Db,
  viewer: Viewer,
  wellIds: readonly string[],
  choice: SetUpChoice,
): SetUpRow[] {
  demandFleet(viewer, 'well.edit')
  return [...new Set(wellIds)].flatMap((id) => {
    const well = visibleWell(db, viewer, id)
    return well ? [rowOf(db.sqlite, well, choice)] : []
  })
}

function rowOf(sqlite: Database.Database, well: WellRow, choice: SetUpChoice): SetUpRow {
  const names = modelNamesOf(sqlite, well)
  const known = new Set(dutiesOf(sqlite, well.id).map(({ key }) => key))
  const lacking = choice.duties.filter(({ key }) => !known.has(key))
  const differs = (wanted: string | null, now: string | null) => wanted !== null && wanted !== now
  return {
    id: well.id,
    label: well.label,
    name: well.name,
    pump: { now: names.pump, changes: differs(choice.pumpModelId, well.pumpModelId) },
    cartridge: { now: names.cartridge, changes: differs(choice.cartridgeModelId, well.cartridgeModelId) },
    given: lacking.map(({ name }) => name),
    kept: choice.duties.filter(({ key }) => known.has(key)).map(({ name }) => name),
  }
}

const dutiesOf = (sqlite: Database.Database, wellId: string): DutyRow[] =>
  prepared<DutyRow>(sqlite, 'SELECT * FROM "Duty" WHERE "wellId" = ?').all(wellId)

export type SetUpOutcome =
  /** `batchId` names the step among the imports, where it can be taken back whole. */
  | { kind: 'done'; batchId: string; wells: number; duties: number }
  | { kind: 'nothing-to-change' }
  | { kind: 'no-such-model' }

/**
 * Gives many wells their models and duties in one transaction: all of it, or nothing. It stands among the imports as one
 * step that can be taken back. Throws NotAllowed unless the viewer may edit wells, give duties and take steps back.
 */
export function setUpWells(
  db: Db,
  viewer: Viewer,
  wellIds: readonly string[],
  choice: SetUpChoice,
  at: string,
): Promise<SetUpOutcome> {
  for (const action of ['well.edit', 'duty.edit', 'import.run'] as const) demandFleet(viewer, action)
  return transaction(db, (): SetUpOutcome => {
    const { sqlite } = db
    const { pumpModelId, cartridgeModelId } = choice
    const pump = pumpModelId === null ? null : pumpModelRow(sqlite, pumpModelId)
    const cartridge = cartridgeModelId === null ? null : cartridgeModelRow(sqlite, cartridgeModelId)
    if (pump === undefined || cartridge === undefined) return { kind: 'no-such-model' }
    const step = { batchId: newId(), viewer, at, changes: [] as BatchChange[], duties: 0 }
    const touched = new Set<string>()
    for (const id of new Set(wellIds)) {
      const well = visibleWell(db, viewer, id)
      if (well && setUpOne(sqlite, well, choice, step)) touched.add(id)
    }
    if (touched.size === 0) return { kind: 'nothing-to-change' }
    const models = [pump && `pump ${pump.name}`, cartridge && `cartridge ${cartridge.name}`].filter(Boolean)
    const what = [...models, ...(step.duties > 0 ? [`${step.duties} duties`] : [])].join(', ')
    putBatch(sqlite, step, `Set-up of ${touched.size} wells: ${what}`)
    for (const id of touched) refreshWell(sqlite, id)
    return { kind: 'done', batchId: step.batchId, wells: touched.size, duties: step.duties }
  })
}

type Step = { batchId: string; viewer: Viewer; at: string; changes: BatchChange[]; duties: number }

/** True where the well was changed or given a duty. */
function setUpOne(sqlite: Database.Database, well: WellRow, choice: SetUpChoice, step: Step): boolean {
  const before = { pumpModelId: well.pumpModelId, cartridgeModelId: well.cartridgeModelId }
  const after = {
    pumpModelId: choice.pumpModelId ?? well.pumpModelId,
    cartridgeModelId: choice.cartridgeModelId ?? well.cartridgeModelId,
  }
  const changed =
    before.pumpModelId !== after.pumpModelId || before.cartridgeModelId !== after.cartridgeModelId
  if (changed) {
    prepared(
      sqlite,
      'UPDATE "Well" SET "pumpModelId" = ?, "cartridgeModelId" = ?, "version" = "version" + 1 WHERE "id" = ?',
    ).run(after.pumpModelId, after.cartridgeModelId, well.id)
    const ownerName = ownerNameOf(sqlite, well)
    step.changes.push({
      target: 'well',
      id: well.id,
      version: well.version + 1,
      before: { ...before, ownerName },
    })
    writeChange(sqlite, step.viewer, step.at, {
      action: 'well set up',
      targetKind: 'well',
      targetId: well.id,
      wellId: well.id,
      before,
      after,
    })
  }
  const known = new Set(dutiesOf(sqlite, well.id).map(({ key }) => key))
  const lacking = choice.duties.filter(({ key }) => !known.has(key))
  for (const fields of lacking) {
    const { id } = insertDuty(sqlite, well.id, dutyValues(fields), step.batchId)
    const line = { action: 'duty added', targetKind: 'duty', targetId: id, wellId: well.id } as const
    writeChange(sqlite, step.viewer, step.at, { ...line, after: fields })
  }
  step.duties += lacking.length
  return changed || lacking.length > 0
}

const ownerNameOf = (sqlite: Database.Database, well: WellRow): string | null =>
  well.ownerId === null
    ? null
    : (prepared<{ name: string }>(sqlite, 'SELECT "name" FROM "Owner" WHERE "id" = ?').get(well.ownerId)
        ?.name ?? null)

function putBatch(sqlite: Database.Database, step: Step, fileName: string): void {
  const counts: BatchCounts = {
    wellsAdded: 0,
    wellsChanged: step.changes.length,
    wellsUnchanged: 0,
    dutiesAdded: step.duties,
    dutiesChanged: 0,
    dutiesUnchanged: 0,
    entriesAdded: 0,
    entriesUnchanged: 0,
  }
  prepared(
    sqlite,
    'INSERT INTO "Batch" ("id","what","fileName","fileSha256","at","byUserId","byName","counts") VALUES (?,?,?,?,?,?,?,?)',
  ).run(
    step.batchId,
    'set-up',
    fileName,
    '',
    step.at,
    step.viewer.userId,
    step.viewer.name,
    JSON.stringify({ ...counts, changes: step.changes }),
  )
  writeChange(sqlite, step.viewer, step.at, {
    action: 'wells set up alike',
    targetKind: 'batch',
    targetId: step.batchId,
    after: { fileName, ...counts },
  })
}
