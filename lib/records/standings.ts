import type Database from 'better-sqlite3'
import { appraise, type Standing } from '@/lib/domain/logbook/appraise'
import type { Entry } from '@/lib/domain/logbook/entries'
import { consequenceRank } from '@/lib/domain/upkeep/rank'
import { entriesOfWell } from './entries'
import { putFitted } from './fitted-items'
import { contentId } from './ids'
import { registerWithModels } from './model-rows'
import { putMatters } from './put-matters'
import { reckonSettings } from './reckon-settings'
import type { DutyRow, WellRow } from './rows'
import { putStanding, standingRow } from './standing-rows'
import { insert, prepared, update } from './statements'

/** Stands for "no date known" in the index of due dates, after every real day. */
export const NO_DAY = '9999-12-31'

type DueRow = {
  id: string
  wellId: string
  dutyKey: string
  dutyName: string
  rank: number
  dueOn: string
  basis: string | null
  fromOn: string | null
  toOn: string | null
  reason: string
  lastDoneOn: string | null
  ownerId: string | null
  area: string | null
}

const DUE_COLUMNS = [
  'id',
  'wellId',
  'dutyKey',
  'dutyName',
  'rank',
  'dueOn',
  'basis',
  'fromOn',
  'toOn',
  'reason',
  'lastDoneOn',
  'ownerId',
  'area',
] as const satisfies readonly (keyof DueRow)[]

const INSERT_DUE = insert('DueItem', DUE_COLUMNS)
const UPDATE_DUE = update('DueItem', DUE_COLUMNS)

/**
 * Reckons one well anew from its register row, duties and logbook, and stores the result.
 * Call within the transaction that changed any of them. Answers null when there is no such well.
 */
export function refreshWell(sqlite: Database.Database, wellId: string): Standing | null {
  const well = prepared<WellRow>(sqlite, 'SELECT * FROM "Well" WHERE "id" = ?').get(wellId)
  if (!well) return null
  const duties = prepared<DutyRow>(sqlite, 'SELECT * FROM "Duty" WHERE "wellId" = ?').all(wellId)
  return storeStanding(sqlite, well, duties, entriesOfWell(sqlite, wellId), 'known')
}

/**
 * The same for callers that hold the rows already. `previous` is 'none' where the well is new
 * and has no standing and no due items yet, which spares an import the look for them.
 */
export function storeStanding(
  sqlite: Database.Database,
  well: WellRow,
  duties: readonly DutyRow[],
  entries: readonly Entry[],
  previous: 'known' | 'none',
): Standing {
  const { settings, version } = reckonSettings(sqlite)
  const standing = appraise(registerWithModels(sqlite, well, duties), entries, settings)
  putStanding(sqlite, standingRow(well, standing, version), previous)
  putFitted(sqlite, well.id, well.struck ? [] : standing.fitted, previous)
  const rows = [
    ...standing.duties.map((duty) => dueRow(well, duty)),
    ...[...standing.waterItems, ...(standing.supplyItem ? [standing.supplyItem] : [])].map((item) =>
      dueRow(well, { ...item, id: contentId('due', well.id, item.key) }),
    ),
  ]
  const before =
    previous === 'none'
      ? new Map<string, DueRow>()
      : new Map(
          prepared<DueRow>(sqlite, 'SELECT * FROM "DueItem" WHERE "wellId" = ?')
            .all(well.id)
            .map((row) => [row.id, row] as const),
        )
  for (const row of rows) {
    const old = before.get(row.id)
    before.delete(row.id)
    if (old && DUE_COLUMNS.every((column) => old[column] === row[column])) continue
    const values = DUE_COLUMNS.map((column) => row[column])
    if (old) prepared(sqlite, UPDATE_DUE).run(...values.slice(1), row.id)
    else prepared(sqlite, INSERT_DUE).run(...values)
  }
  for (const id of before.keys()) prepared(sqlite, 'DELETE FROM "DueItem" WHERE "id" = ?').run(id)
  putMatters(sqlite, well, standing.matters, previous)
  return standing
}

function dueRow(well: WellRow, duty: Standing['waterItems'][number] & { id: string }): DueRow {
  return {
    id: duty.id,
    wellId: well.id,
    dutyKey: duty.key,
    dutyName: duty.name,
    rank: consequenceRank(duty.consequence),
    dueOn: duty.due ?? NO_DAY,
    basis: duty.basis,
    fromOn: duty.from,
    toOn: duty.to,
    reason: duty.reason,
    lastDoneOn: duty.lastDoneOn,
    ownerId: well.ownerId,
    area: well.area,
  }
}

/** A stored standing, or null where there is none yet. */
export function standingOf(sqlite: Database.Database, wellId: string): Standing | null {
  const text = prepared<{ payload: string }>(
    sqlite,
    'SELECT "payload" FROM "Standing" WHERE "wellId" = ?',
  ).get(wellId)
  // Written by storeStanding of this edition only: start-up rebuilds every older one.
  return text ? (JSON.parse(text.payload) as Standing) : null
}
