import { EDITION } from '@/lib/domain/logbook/appraise'
import type { Db } from './db'
import { reckonSettings } from './reckon-settings'
import { recount } from './standing-rows'
import { refreshWell } from './standings'
import { prepared } from './statements'
import { transaction } from './transaction'

/** Wells in one transaction: long enough to be quick, short enough that a visit saved meanwhile hardly waits. */
const CHUNK = 200

/**
 * Reckons standings anew from register and logbook, in small transactions, and answers how many.
 * 'stale' takes those of an earlier edition or of other settings and those missing; 'all' takes every one.
 */
export async function rebuild(
  db: Db,
  which: 'all' | 'stale',
  onProgress: (done: number) => void = () => undefined,
): Promise<number> {
  const condition =
    which === 'all'
      ? ''
      : `AND NOT EXISTS (SELECT 1 FROM "Standing" s WHERE s."wellId" = w."id" AND s."edition" = ${EDITION} AND s."settings" = ${reckonSettings(db.sqlite).version})`
  const next = prepared<{ id: string }>(
    db.sqlite,
    `SELECT w."id" FROM "Well" w WHERE w."id" > ? ${condition} ORDER BY w."id" LIMIT ${CHUNK}`,
  )
  let after = ''
  let done = 0
  for (;;) {
    const ids = next.all(after).map((row) => row.id)
    const last = ids.at(-1)
    if (last === undefined) break
    await transaction(db, () => {
      for (const id of ids) refreshWell(db.sqlite, id)
    })
    after = last
    done += ids.length
    onProgress(done)
  }
  if (which === 'all') await transaction(db, () => recount(db.sqlite))
  return done
}
