import type Database from 'better-sqlite3'
import { z } from 'zod'
import type { Equipment } from '@/lib/domain/logbook/equipment'
import type { WellRegister } from '@/lib/domain/logbook/register'
import type { CartridgeFacts, CurvePoint, PumpFacts } from '@/lib/domain/pump'
import { equipmentOf } from './equipment'
import type { CartridgeModel, PumpModel } from './generated/client'
import { newId } from './ids'
import { type DutyRow, registerOf, type WellRow } from './rows'
import { prepared } from './statements'
import { keyOf, type WellFields } from './well-fields'

export type PumpModelRow = PumpModel
export type CartridgeModelRow = CartridgeModel

/** The tables of models, by what they are of. */
export const MODEL_TABLES = { pump: 'PumpModel', cartridge: 'CartridgeModel' } as const
export type ModelKind = keyof typeof MODEL_TABLES

const sheetSchema = z.array(z.object({ flowM3PerS: z.number(), headM: z.number() }))

/** The points of a stored sheet. Throws on text that is none: it was checked on the way in. */
export const sheetOf = (json: string): CurvePoint[] => sheetSchema.parse(JSON.parse(json))

export function pumpFactsOf(row: PumpModelRow): PumpFacts {
  const { name, brushNewM, brushMinimumM, brushCount, npshRequiredM, referenceVolts, brushPart } = row
  return {
    name,
    type: row.type === 'centrifugal' || row.type === 'displacement' ? row.type : null,
    power: row.power === 'sun' || row.power === 'mains' ? row.power : null,
    brushNewM,
    brushMinimumM,
    brushCount,
    npshRequiredM,
    referenceVolts,
    sheet: sheetOf(row.sheet),
    brushPart,
  }
}

export function cartridgeFactsOf(row: CartridgeModelRow): CartridgeFacts {
  const { name, terminalDropPa, referenceFlowM3PerS, oRing } = row
  return { name, terminalDropPa, referenceFlowM3PerS, oRing }
}

/** The row of a model; undefined where there is none of that id. */
export function pumpModelRow(sqlite: Database.Database, id: string): PumpModelRow | undefined {
  return prepared<PumpModelRow>(sqlite, 'SELECT * FROM "PumpModel" WHERE "id" = ?').get(id)
}

export function cartridgeModelRow(sqlite: Database.Database, id: string): CartridgeModelRow | undefined {
  return prepared<CartridgeModelRow>(sqlite, 'SELECT * FROM "CartridgeModel" WHERE "id" = ?').get(id)
}

/** What the reckoning needs of a well: its row, its duties, and the models that it names. */
export function registerWithModels(
  sqlite: Database.Database,
  well: WellRow,
  duties: readonly DutyRow[],
): WellRegister {
  return registerOf(well, duties, equipmentWithModels(sqlite, well))
}

/** Pump, cartridge and pipes of a well, with the models that it names. */
export function equipmentWithModels(sqlite: Database.Database, well: WellRow): Equipment {
  const pump = well.pumpModelId === null ? undefined : pumpModelRow(sqlite, well.pumpModelId)
  const cartridge =
    well.cartridgeModelId === null ? undefined : cartridgeModelRow(sqlite, well.cartridgeModelId)
  return {
    ...equipmentOf(well),
    pump: pump ? pumpFactsOf(pump) : null,
    cartridge: cartridge ? cartridgeFactsOf(cartridge) : null,
  }
}

/** Names of the models that a well names; null where it names none. */
export type NamedModels = { pump: string | null; cartridge: string | null }

export function modelNamesOf(sqlite: Database.Database, well: WellRow): NamedModels {
  const { pumpModelId, cartridgeModelId } = well
  return {
    pump: pumpModelId === null ? null : (pumpModelRow(sqlite, pumpModelId)?.name ?? null),
    cartridge: cartridgeModelId === null ? null : (cartridgeModelRow(sqlite, cartridgeModelId)?.name ?? null),
  }
}

/** The ids of the models that a well names; a new name makes a model of which nothing else is known. */
export function modelIdsFor(
  sqlite: Database.Database,
  { pumpModel, cartridgeModel }: Pick<WellFields, 'pumpModel' | 'cartridgeModel'>,
): { pumpModelId: string | null; cartridgeModelId: string | null } {
  return {
    pumpModelId: modelIdFor(sqlite, 'pump', pumpModel),
    cartridgeModelId: modelIdFor(sqlite, 'cartridge', cartridgeModel),
  }
}

function modelIdFor(sqlite: Database.Database, kind: ModelKind, name: string | null): string | null {
  if (!name?.trim()) return null
  const table = MODEL_TABLES[kind]
  const nameKey = keyOf(name)
  const known = prepared<{ id: string }>(sqlite, `SELECT "id" FROM "${table}" WHERE "nameKey" = ?`).get(
    nameKey,
  )
  if (known) return known.id
  const id = newId()
  prepared(sqlite, `INSERT INTO "${table}" ("id","name","nameKey") VALUES (?,?,?)`).run(
    id,
    name.trim(),
    nameKey,
  )
  return id
}
