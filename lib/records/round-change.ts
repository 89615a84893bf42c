import type Database from 'better-sqlite3'
import type { Viewer } from '@/lib/access/viewer'
import { writeChange } from './changes'
import type { Db } from './db'
import { ROUND_SELECT, type RoundHead, roundHeadOf, type StoredRound } from './round-rows'
import { prepared } from './statements'
import { transaction } from './transaction'

export type RoundWrite =
  | { kind: 'stored' }
  /** Somebody else changed the round since the page was opened; nothing was stored. */
  | { kind: 'changed-since' }
  | { kind: 'no-such-round' }
  | { kind: 'refused'; message: string }

type Changed = { before?: unknown; after?: unknown }

/**
 * One change of a round that nobody else has changed since `version` (null where the change asks that of something
 * smaller); a text is a refusal that has written nothing.
 */
export function changeOfRound(
  db: Db,
  viewer: Viewer,
  roundId: string,
  version: number | null,
  action: string,
  at: string,
  work: (sqlite: Database.Database, round: RoundHead) => Changed | string,
): Promise<RoundWrite> {
  return transaction(db, () => {
    const { sqlite } = db
    const round = openRound(sqlite, roundId)
    if (!round) return { kind: 'no-such-round' } as const
    if (version !== null && round.version !== version) return { kind: 'changed-since' } as const
    if (round.status === 'closed') {
      return { kind: 'refused', message: 'This round is closed.' } as const
    }
    const changed = work(sqlite, round)
    if (typeof changed === 'string') return { kind: 'refused', message: changed } as const
    prepared(sqlite, 'UPDATE "Round" SET "version" = "version" + 1 WHERE "id" = ?').run(roundId)
    writeChange(sqlite, viewer, at, { action, targetKind: 'round', targetId: roundId, ...changed })
    return { kind: 'stored' } as const
  })
}

/** The round of that id as it stands; null where there is none, or its import was taken back. */
export function openRound(sqlite: Database.Database, roundId: string): RoundHead | null {
  const row = prepared<StoredRound>(sqlite, `${ROUND_SELECT} AND r."id" = ?`).get(roundId)
  return row ? roundHeadOf(row) : null
}
