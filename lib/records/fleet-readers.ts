import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { type CurrentFact, currentFacts } from '@/lib/domain/logbook/entries'
import type { Db } from './db'
import type { DutyFields } from './duty-fields'
import { type DutyRow, dutyOf, entryOf, type WellRow } from './rows'
import { entriesShownTo } from './shown-entries'
import { prepared } from './statements'
import { bareWell, WELL_NUMBERS, WELL_TEXTS, type WellFields } from './well-fields'

export type FleetWell = { id: string; fields: WellFields; duties: DutyFields[] }

type OwnedRow = WellRow &
  Pick<WellFields, 'ownerName' | 'ownerPhone' | 'ownerEmail' | 'pumpModel' | 'cartridgeModel'>

/** Wells read at a time: a reader that holds the database open for a whole fleet would keep writers out. */
const PAGE = 200

const SELECT = `SELECT w.*, o."name" AS "ownerName", o."phone" AS "ownerPhone", o."email" AS "ownerEmail",
  p."name" AS "pumpModel", c."name" AS "cartridgeModel"
  FROM "Well" w LEFT JOIN "Owner" o ON o."id" = w."ownerId" LEFT JOIN "PumpModel" p ON p."id" = w."pumpModelId"
  LEFT JOIN "CartridgeModel" c ON c."id" = w."cartridgeModelId" WHERE w."struck" = 0`

/** Every well with its duties in force, by label, page by page. Throws NotAllowed unless the viewer may export. */
export function* allWells(db: Db, viewer: Viewer): Generator<FleetWell> {
  demandFleet(viewer, 'export.run')
  let after = ''
  for (;;) {
    const rows = prepared<OwnedRow>(
      db.sqlite,
      `${SELECT} AND w."labelKey" > ? ORDER BY w."labelKey" LIMIT ${PAGE}`,
    ).all(after)
    for (const row of rows) yield fleetWell(db, row)
    const last = rows.at(-1)
    if (!last) return
    after = last.labelKey
  }
}

/**
 * Every well with what holds of its logbook, corrections and withdrawals applied, and with names as pages of the outfit show
 * them. Throws as allWells.
 */
export function* allLogbooks(db: Db, viewer: Viewer): Generator<{ label: string; facts: CurrentFact[] }> {
  for (const { id, fields } of allWells(db, viewer)) {
    const shown = entriesShownTo(db, viewer, { id, heldSince: null })
    yield { label: fields.label, facts: currentFacts(shown.map(entryOf)) }
  }
}

/** The well of that label key with its duties; null when there is none. Throws NotAllowed unless the viewer may import. */
export function fleetWellOf(db: Db, viewer: Viewer, labelKey: string): FleetWell | null {
  demandFleet(viewer, 'import.run')
  const row = prepared<OwnedRow>(db.sqlite, `${SELECT} AND w."labelKey" = ?`).get(labelKey)
  return row ? fleetWell(db, row) : null
}

function fleetWell(db: Db, row: OwnedRow): FleetWell {
  const duties = prepared<DutyRow>(
    db.sqlite,
    'SELECT * FROM "Duty" WHERE "wellId" = ? AND "retired" = 0 ORDER BY "key"',
  ).all(row.id)
  return { id: row.id, fields: wellFieldsOf(row), duties: duties.map(dutyFieldsOf) }
}

function wellFieldsOf(row: OwnedRow): WellFields {
  const fields = bareWell(row.label)
  for (const column of WELL_NUMBERS) fields[column] = row[column]
  for (const column of WELL_TEXTS) fields[column] = row[column]
  const { installedOn, retiredOn, supply, ownerName, ownerPhone, ownerEmail, pumpModel, cartridgeModel } = row
  return {
    ...fields,
    installedOn,
    retiredOn,
    supply,
    ownerName,
    ownerPhone,
    ownerEmail,
    pumpModel,
    cartridgeModel,
    typed: textsOf(row.typed),
    extra: textsOf(row.extra),
  }
}

/** A duty's row as a form or a file would state it. */
export function dutyFieldsOf(row: DutyRow): DutyFields {
  const { id: _, condition, ...duty } = dutyOf(row)
  return {
    ...duty,
    condition: condition?.kind ?? null,
    conditionLimitSi: condition?.limitSi ?? null,
    typed: textsOf(row.typed),
  }
}

/** Written by this folder as an object of texts. */
const textsOf = (json: string) => JSON.parse(json) as Record<string, string>
