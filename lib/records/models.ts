import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { CurvePoint } from '@/lib/domain/pump'
import { writeChange } from './changes'
import type { Db } from './db'
import { newId } from './ids'
import {
  type CartridgeModelRow,
  cartridgeModelRow,
  MODEL_TABLES,
  type ModelKind,
  type PumpModelRow,
  pumpModelRow,
} from './model-rows'
import { refreshWell } from './standings'
import { prepared } from './statements'
import { transaction } from './transaction'
import { keyOf } from './well-fields'

export type { CartridgeModelRow, PumpModelRow }

export type PumpModelFields = Pick<
  PumpModelRow,
  | 'name'
  | 'type'
  | 'power'
  | 'brushNewM'
  | 'brushMinimumM'
  | 'brushCount'
  | 'npshRequiredM'
  | 'referenceVolts'
  | 'brushPart'
  | 'warrantyMonths'
  | 'retired'
> & { sheet: readonly CurvePoint[]; typed: Record<string, string> }

export type CartridgeModelFields = Pick<
  CartridgeModelRow,
  'name' | 'terminalDropPa' | 'referenceFlowM3PerS' | 'oRing' | 'warrantyMonths' | 'retired'
> & { typed: Record<string, string> }

/** A model as a list shows it: with how many wells name it. */
export type Counted<Row> = Row & { wells: number }
export type Models = { pumps: Counted<PumpModelRow>[]; cartridges: Counted<CartridgeModelRow>[] }

/** Every model, by name, those in use before the retired ones. Throws NotAllowed unless the viewer sees the fleet. */
export function models({ sqlite }: Db, viewer: Viewer): Models {
  demandFleet(viewer, 'fleet.see')
  const all = <Row>(table: string, column: string) =>
    prepared<Counted<Row>>(
      sqlite,
      `SELECT m.*, (SELECT COUNT(*) FROM "Well" w WHERE w."${column}" = m."id" AND w."struck" = 0) AS "wells"
       FROM "${table}" m ORDER BY m."retired", m."nameKey"`,
    )
      .all()
      .map((row) => row)
  return {
    pumps: all<PumpModelRow>('PumpModel', 'pumpModelId'),
    cartridges: all<CartridgeModelRow>('CartridgeModel', 'cartridgeModelId'),
  }
}

/** One model; null where there is none, or where the viewer may not change the register. */
export function pumpModel({ sqlite }: Db, viewer: Viewer, id: string): PumpModelRow | null {
  demandFleet(viewer, 'well.edit')
  return pumpModelRow(sqlite, id) ?? null
}

export function cartridgeModel({ sqlite }: Db, viewer: Viewer, id: string): CartridgeModelRow | null {
  demandFleet(viewer, 'well.edit')
  return cartridgeModelRow(sqlite, id) ?? null
}

export type ModelWrite =
  | { kind: 'stored'; id: string; stale: boolean }
  | { kind: 'name-taken'; message: string }
  | { kind: 'changed-since' }
  | { kind: 'no-such-model' }

/** Wells that are reckoned at once; those beyond are marked as stale, for `rebuild` to take. */
const AT_ONCE = 200

/**
 * Adds a pump model, or changes the one of that id and version; the wells that name it are reckoned anew.
 * Answer  `stale` where there were more wells than are reckoned in one step: call `rebuild` then.
 * Throws  NotAllowed unless the viewer may edit wells.
 */
export function savePumpModel(
  db: Db,
  viewer: Viewer,
  existing: { id: string; version: number } | null,
  fields: PumpModelFields,
  at: string,
): Promise<ModelWrite> {
  const { sheet, typed, retired, ...rest } = fields
  const columns = { ...rest, sheet: JSON.stringify(sheet), typed: JSON.stringify(typed) }
  return saveModel(db, viewer, 'pump', existing, { ...columns, retired: retired ? 1 : 0 }, at)
}

/** The same for a cartridge model. */
export function saveCartridgeModel(
  db: Db,
  viewer: Viewer,
  existing: { id: string; version: number } | null,
  fields: CartridgeModelFields,
  at: string,
): Promise<ModelWrite> {
  const { typed, retired, ...rest } = fields
  const columns = { ...rest, typed: JSON.stringify(typed), retired: retired ? 1 : 0 }
  return saveModel(db, viewer, 'cartridge', existing, columns, at)
}

type Columns = { name: string } & Record<string, string | number | null>

function saveModel(
  db: Db,
  viewer: Viewer,
  kind: ModelKind,
  existing: { id: string; version: number } | null,
  fields: Columns,
  at: string,
): Promise<ModelWrite> {
  demandFleet(viewer, 'well.edit')
  const table = MODEL_TABLES[kind]
  return transaction(db, (): ModelWrite => {
    const { sqlite } = db
    const id = existing?.id ?? newId()
    const before = prepared<Record<string, unknown>>(sqlite, `SELECT * FROM "${table}" WHERE "id" = ?`).get(
      id,
    )
    if (existing && !before) return { kind: 'no-such-model' }
    const columns: Columns = { ...fields, name: fields.name.trim(), nameKey: keyOf(fields.name) }
    const holder = prepared<{ id: string }>(sqlite, `SELECT "id" FROM "${table}" WHERE "nameKey" = ?`).get(
      columns.nameKey,
    )
    if (holder && holder.id !== id) {
      return { kind: 'name-taken', message: `There is a ${kind} model of this name: change that one.` }
    }
    if (!putModel(db, table, { id, version: existing?.version ?? null }, columns)) {
      return { kind: 'changed-since' }
    }
    const { nameKey: _, ...after } = columns
    writeChange(sqlite, viewer, at, {
      action: existing ? `${kind} model changed` : `${kind} model added`,
      targetKind: 'model',
      targetId: id,
      before,
      after,
    })
    return { kind: 'stored', id, stale: refreshWellsOf(db, kind, id) }
  })
}

/** False where somebody else changed the row since `version`; a version of null puts in a new row. */
function putModel(
  { sqlite }: Db,
  table: string,
  { id, version }: { id: string; version: number | null },
  columns: Columns,
): boolean {
  const names = Object.keys(columns)
  const values = Object.values(columns)
  if (version === null) {
    const marks = names.map(() => '?').join(',')
    const list = names.map((name) => `"${name}"`).join(',')
    prepared(sqlite, `INSERT INTO "${table}" ("id",${list}) VALUES (?,${marks})`).run(id, ...values)
    return true
  }
  const list = names.map((name) => `"${name}" = ?`).join(', ')
  const { changes } = prepared(
    sqlite,
    `UPDATE "${table}" SET ${list}, "version" = "version" + 1 WHERE "id" = ? AND "version" = ?`,
  ).run(...values, id, version)
  return changes === 1
}

/** Reckons the wells of a model anew; true where some were only marked as stale. */
function refreshWellsOf({ sqlite }: Db, kind: ModelKind, modelId: string): boolean {
  const column = kind === 'pump' ? 'pumpModelId' : 'cartridgeModelId'
  const wells = prepared<{ id: string }>(sqlite, `SELECT "id" FROM "Well" WHERE "${column}" = ?`).all(modelId)
  for (const { id } of wells.slice(0, AT_ONCE)) refreshWell(sqlite, id)
  for (const { id } of wells.slice(AT_ONCE)) {
    prepared(sqlite, 'UPDATE "Standing" SET "settings" = -1 WHERE "wellId" = ?').run(id)
  }
  return wells.length > AT_ONCE
}
