import type Database from 'better-sqlite3'
import type { DutyFields } from './duty-fields'
import { newId } from './ids'
import { letGoOfHouseholdMails } from './mails-let-go'
import type { DutyRow, WellRow } from './rows'
import { prepared } from './statements'
import { keyOf, searchWords, WELL_NUMBERS, WELL_TEXTS, type WellFields } from './well-fields'

/** Columns of a well's row that a form or file sets, in a fixed order. */
const WELL_COLUMNS = [
  'label',
  'labelKey',
  'ownerId',
  ...WELL_TEXTS,
  ...WELL_NUMBERS,
  'pumpModelId',
  'cartridgeModelId',
  'installedOn',
  'retiredOn',
  'supply',
  'typed',
  'extra',
] as const
type WellColumn = (typeof WELL_COLUMNS)[number]
export type WellValues = Pick<WellRow, WellColumn>

const INSERT_WELL = `INSERT INTO "Well" ("id","batchId","struck","version",${list(WELL_COLUMNS)})
  VALUES (?,?,0,1,${WELL_COLUMNS.map(() => '?').join(',')})`
const UPDATE_WELL = `UPDATE "Well" SET ${WELL_COLUMNS.map((c) => `"${c}" = ?`).join(', ')}, "version" = "version" + 1
  WHERE "id" = ? AND "version" = ?`

/** What a well names, by id. */
export type NamedIds = Pick<WellRow, 'ownerId' | 'pumpModelId' | 'cartridgeModelId'>

/** The row values of a well's fields; its owner and models have been found or made before. */
export function wellValues(fields: WellFields, named: NamedIds): WellValues {
  const { ownerName: _n, ownerPhone: _p, ownerEmail: _e, pumpModel: _m, cartridgeModel: _c, ...own } = fields
  const { typed, extra, ...rest } = own
  return {
    ...rest,
    ...named,
    label: fields.label.trim(),
    labelKey: keyOf(fields.label),
    typed: JSON.stringify(typed),
    extra: JSON.stringify(extra),
  }
}

/** Stores a new well and its search words; answers the row. Call within a transaction. */
export function insertWell(
  sqlite: Database.Database,
  values: WellValues,
  ownerName: string | null,
  batchId: string | null,
): WellRow {
  const id = newId()
  prepared(sqlite, INSERT_WELL).run(id, batchId, ...WELL_COLUMNS.map((column) => values[column]))
  insertWords(sqlite, id, values, ownerName)
  return { id, batchId, struck: false, version: 1, heldSince: null, ...values }
}

/** Stores new values over a well's row; false when somebody else has changed it since `version`. */
export function updateWellRow(
  sqlite: Database.Database,
  id: string,
  version: number,
  values: WellValues,
  ownerName: string | null,
): boolean {
  const result = prepared(sqlite, UPDATE_WELL).run(
    ...WELL_COLUMNS.map((column) => values[column]),
    id,
    version,
  )
  if (result.changes !== 1) return false
  searchWordsAnew(sqlite, { ...values, id }, ownerName)
  return true
}

/** The words by which a well is found, after its label, name, area or owner changed. Call within a transaction. */
export function searchWordsAnew(
  sqlite: Database.Database,
  well: Pick<WellRow, 'id' | 'label' | 'name' | 'area'>,
  ownerName: string | null,
): void {
  prepared(sqlite, 'DELETE FROM "WellWord" WHERE "wellId" = ?').run(well.id)
  insertWords(sqlite, well.id, well, ownerName)
}

/**
 * Notes that a well came to another household, whatever way its row was changed, and lets go of mails that still wait for
 * the one before. Call within the transaction that does it.
 * The first household of a well counts as there from the beginning.
 */
export function handOver(
  sqlite: Database.Database,
  before: Pick<WellRow, 'id' | 'ownerId'>,
  ownerId: string | null,
  at: string,
): void {
  if (before.ownerId === null || before.ownerId === ownerId) return
  prepared(sqlite, 'UPDATE "Well" SET "heldSince" = ? WHERE "id" = ?').run(at, before.id)
  letGoOfHouseholdMails(sqlite, before.ownerId, at)
}

function insertWords(
  sqlite: Database.Database,
  wellId: string,
  values: Pick<WellRow, 'label' | 'name' | 'area'>,
  ownerName: string | null,
): void {
  const insert = prepared(
    sqlite,
    'INSERT INTO "WellWord" ("word","wellId") VALUES (?,?) ON CONFLICT DO NOTHING',
  )
  for (const word of searchWords(values.label, values.name, values.area, ownerName)) insert.run(word, wellId)
}

/** The id of the owner of that name, made when there is none; contact details fill blanks, never overwrite. */
export function ownerIdFor(
  sqlite: Database.Database,
  owner: Pick<WellFields, 'ownerName' | 'ownerPhone' | 'ownerEmail'>,
): string | null {
  if (!owner.ownerName?.trim()) return null
  const nameKey = keyOf(owner.ownerName)
  const known = prepared<{ id: string; phone: string | null; email: string | null }>(
    sqlite,
    'SELECT "id","phone","email" FROM "Owner" WHERE "nameKey" = ?',
  ).get(nameKey)
  if (!known) {
    const id = newId()
    prepared(
      sqlite,
      'INSERT INTO "Owner" ("id","name","nameKey","phone","email","version") VALUES (?,?,?,?,?,1)',
    ).run(id, owner.ownerName.trim(), nameKey, owner.ownerPhone, owner.ownerEmail)
    return id
  }
  if ((known.phone === null && owner.ownerPhone) || (known.email === null && owner.ownerEmail)) {
    prepared(
      sqlite,
      'UPDATE "Owner" SET "phone" = COALESCE("phone", ?), "email" = COALESCE("email", ?), "version" = "version" + 1 WHERE "id" = ?',
    ).run(owner.ownerPhone, owner.ownerEmail, known.id)
  }
  return known.id
}

const DUTY_COLUMNS = [
  'key',
  'name',
  'consequence',
  'everyMonths',
  'everyRunS',
  'everyM3',
  'condition',
  'conditionLimitSi',
  'lastDoneOn',
  'typed',
] as const
export type DutyValues = Pick<DutyRow, (typeof DUTY_COLUMNS)[number]>

const INSERT_DUTY = `INSERT INTO "Duty" ("id","wellId","batchId","retired","version",${list(DUTY_COLUMNS)})
  VALUES (?,?,?,0,1,${DUTY_COLUMNS.map(() => '?').join(',')})`
const UPDATE_DUTY = `UPDATE "Duty" SET ${DUTY_COLUMNS.map((c) => `"${c}" = ?`).join(', ')}, "retired" = ?,
  "version" = "version" + 1 WHERE "id" = ? AND "version" = ?`

export function dutyValues(fields: DutyFields): DutyValues {
  return { ...fields, typed: JSON.stringify(fields.typed) }
}

/** Stores a new duty of a well; answers the row. Call within a transaction. */
export function insertDuty(
  sqlite: Database.Database,
  wellId: string,
  values: DutyValues,
  batchId: string | null,
): DutyRow {
  const id = newId()
  prepared(sqlite, INSERT_DUTY).run(id, wellId, batchId, ...DUTY_COLUMNS.map((column) => values[column]))
  return { id, wellId, batchId, retired: false, version: 1, ...values }
}

/** Stores new values over a duty's row; false when somebody else has changed it since `version`. */
export function updateDutyRow(
  sqlite: Database.Database,
  id: string,
  version: number,
  values: DutyValues,
  retired: boolean,
): boolean {
  return (
    prepared(sqlite, UPDATE_DUTY).run(...DUTY_COLUMNS.map((c) => values[c]), retired ? 1 : 0, id, version)
      .changes === 1
  )
}

function list(columns: readonly string[]): string {
  return columns.map((column) => `"${column}"`).join(',')
}
