import type Database from 'better-sqlite3'
import { appraise, EDITION, type Standing } from '@/lib/domain/logbook/appraise'
import type { Entry } from '@/lib/domain/logbook/entries'
import { consequenceRank } from '@/lib/domain/upkeep/rank'
import { entriesOfWell } from './entries'
import { contentId } from './ids'
import { reckonSettings } from './reckon-settings'
import { type DutyRow, registerOf, type WellRow } from './rows'
import { prepared } from './statements'

/** Stands for "no date known" in the index of due dates, after every real day. */
export const NO_DAY = '9999-12-31'

type StandingRow = {
  wellId: string
  edition: number
  settings: number
  lastVisitOn: string | null
  payload: string
  listed: 0 | 1
  suspicion: number
  losing: 0 | 1
  cause: string
  odds: number
  area: string | null
  water: string
  sampledOn: string | null
  chain: string | null
  chainOn: string | null
}

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

const UPSERT_DUE = upsert('DueItem', DUE_COLUMNS)

const STANDING_COLUMNS = [
  'wellId',
  'edition',
  'settings',
  'lastVisitOn',
  'payload',
  'listed',
  'suspicion',
  'losing',
  'cause',
  'odds',
  'area',
  'water',
  'sampledOn',
  'chain',
  'chainOn',
] as const satisfies readonly (keyof StandingRow)[]

const UPSERT_STANDING = upsert('Standing', STANDING_COLUMNS)

function upsert(table: string, columns: readonly string[]): string {
  return `INSERT INTO "${table}" (${columns.map((c) => `"${c}"`).join(',')})
  VALUES (${columns.map(() => '?').join(',')})
  ON CONFLICT ("${columns[0]}") DO UPDATE SET ${columns
    .slice(1)
    .map((c) => `"${c}" = excluded."${c}"`)
    .join(', ')}`
}

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
 * and has no due items yet, which spares an import the look for them.
 */
export function storeStanding(
  sqlite: Database.Database,
  well: WellRow,
  duties: readonly DutyRow[],
  entries: readonly Entry[],
  previous: 'known' | 'none',
): Standing {
  const { settings, version } = reckonSettings(sqlite)
  const standing = appraise(registerOf(well, duties), entries, settings)
  const standingRow = standingRowOf(well, standing, version)
  prepared(sqlite, UPSERT_STANDING).run(...STANDING_COLUMNS.map((column) => standingRow[column]))
  const rows = [
    ...standing.duties.map((duty) => dueRow(well, duty)),
    ...standing.waterItems.map((item) => dueRow(well, { ...item, id: contentId('due', well.id, item.key) })),
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
    prepared(sqlite, UPSERT_DUE).run(...DUE_COLUMNS.map((column) => row[column]))
  }
  for (const id of before.keys()) prepared(sqlite, 'DELETE FROM "DueItem" WHERE "id" = ?').run(id)
  return standing
}

function standingRowOf(well: WellRow, standing: Standing, settings: number): StandingRow {
  const [chain] = standing.water.chains
  return {
    wellId: well.id,
    edition: EDITION,
    settings,
    lastVisitOn: standing.lastVisitOn,
    payload: JSON.stringify(standing),
    listed: well.struck || well.retiredOn !== null ? 0 : 1,
    suspicion: standing.yield.suspicion,
    losing: standing.yield.flag ? 1 : 0,
    cause: standing.yield.cause,
    odds: standing.yield.declineOdds,
    area: well.area,
    water: standing.water.verdict,
    sampledOn: standing.water.asOf,
    chain: chain?.key ?? null,
    chainOn: chain?.openedOn ?? null,
  }
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
