import type Database from 'better-sqlite3'
import { EDITION, type Standing } from '@/lib/domain/logbook/appraise'
import { waterPlace } from '@/lib/domain/logbook/water-summary'
import { bandOf } from '@/lib/domain/yield/decline/fleet'
import type { WellRow } from './rows'
import { insert, prepared, update } from './statements'

/** A standing as it is stored: the whole of it, and beside it what the lists of a fleet are read by. */
export type StandingRow = {
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
  ownerId: string | null
  waterGroup: string | null
  waterOn: string
  chain: string | null
  chainOn: string | null
  band: number | null
}

const COLUMNS = [
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
  'ownerId',
  'waterGroup',
  'waterOn',
  'chain',
  'chainOn',
  'band',
] as const satisfies readonly (keyof StandingRow)[]

const INSERT = insert('Standing', COLUMNS)
const UPDATE = update('Standing', COLUMNS)

/** The row of a well's standing as reckoned under that version of the settings. */
export function standingRow(well: WellRow, standing: Standing, settings: number): StandingRow {
  const { lastVisitOn, water } = standing
  const { suspicion, flag, cause, declineOdds } = standing.yield
  const [chain] = water.chains
  const listed = !well.struck && well.retiredOn === null
  const { piece, on } = waterPlace(water)
  return {
    wellId: well.id,
    edition: EDITION,
    settings,
    lastVisitOn,
    payload: JSON.stringify(standing),
    listed: listed ? 1 : 0,
    suspicion,
    losing: flag ? 1 : 0,
    cause,
    odds: declineOdds,
    area: well.area,
    ownerId: well.ownerId,
    waterGroup: listed ? piece : null,
    waterOn: on,
    chain: chain?.key ?? null,
    chainOn: chain?.openedOn ?? null,
    band: listed ? (flag ? bandOf(declineOdds) : 0) : null,
  }
}

/**
 * Stores a standing over the one before and keeps the tally of the fleet. Call within a transaction; `previous` as in
 * storeStanding.
 */
export function putStanding(sqlite: Database.Database, row: StandingRow, previous: 'known' | 'none'): void {
  const before =
    previous === 'none'
      ? undefined
      : prepared<{ band: number | null }>(sqlite, 'SELECT "band" FROM "Standing" WHERE "wellId" = ?').get(
          row.wellId,
        )
  const values = COLUMNS.map((column) => row[column])
  if (before) prepared(sqlite, UPDATE).run(...values.slice(1), row.wellId)
  else prepared(sqlite, INSERT).run(...values)
  const from = before?.band ?? null
  if (from === row.band) return
  count(sqlite, from, -1)
  count(sqlite, row.band, 1)
}

function count(sqlite: Database.Database, band: number | null, by: 1 | -1): void {
  if (band === null) return
  prepared(
    sqlite,
    'INSERT INTO "FleetTally" ("band","n") VALUES (?,?) ON CONFLICT ("band") DO UPDATE SET "n" = "FleetTally"."n" + excluded."n"',
  ).run(band, by)
}

/** Counts every standing anew, as a rebuild of all of them does. Call within a transaction. */
export function recount(sqlite: Database.Database): void {
  prepared(sqlite, 'DELETE FROM "FleetTally"').run()
  prepared(
    sqlite,
    'INSERT INTO "FleetTally" ("band","n") SELECT "band", COUNT(*) FROM "Standing" WHERE "band" IS NOT NULL GROUP BY "band"',
  ).run()
}
