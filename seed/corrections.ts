import { OUTFIT } from '@/lib/access/viewer'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { readDrafts, recordInside } from '@/lib/records/record'
import { transaction } from '@/lib/records/transaction'
import { wellList } from '@/lib/records/well-list'
import { wellPage } from '@/lib/records/wells'
import { typed } from './quantities'

/**
 * A corrected and a withdrawn line at the Old Forge, as the office would make them. They belong to the import of the fleet:
 * as anybody else's they would keep the well when that is taken back. Answers how many lines.
 */
export async function correctOldForge(db: Db, batchId: string, at: string, today: Day): Promise<number> {
  const well = wellList(db, OUTFIT, { search: 'old forge' }, null, 1).rows[0]
  const page = well && wellPage(db, OUTFIT, well.id)
  const wrong = page?.entries.filter((entry) => entry.kind === 'flow-reading').at(-2)
  const twice = page?.entries
    .filter((entry) => entry.kind === 'note' || entry.kind === 'electrical-reading')
    .at(-1)
  if (!page || !wrong || !twice) throw new Error('the demo fleet has no Old Forge with a flow reading')
  const line = {
    wellId: page.well.id,
    visitId: newId(),
    occurredOn: addDays(today, -1),
    occurredTime: null,
    byName: 'Maren',
  }
  const viewer = { ...OUTFIT, name: 'Maren (demo)' }
  const read = readDrafts(
    viewer,
    [
      {
        ...line,
        id: newId(),
        supersedes: wrong.id,
        withdraws: null,
        payload: {
          kind: 'correction',
          reason: 'Bucket was the five-gallon one, not the three.',
          occurredOn: wrong.occurredOn,
          occurredTime: wrong.occurredTime,
          replacement: { kind: 'flow-reading', flow: typed(6.2, 'gal/min', 1), pumped: typed(45, 'min', 0) },
        },
      },
      {
        ...line,
        id: newId(),
        supersedes: null,
        withdraws: twice.id,
        payload: { kind: 'withdrawal', reason: 'Read at the pump of the next well.' },
      },
    ],
    today,
  )
  if (read.kind === 'refused') throw new Error(`the demo correction was refused: ${JSON.stringify(read)}`)
  const outcome = await transaction(db, () =>
    recordInside(db.sqlite, viewer, read.drafts, at, 'demo', batchId),
  )
  if (outcome.kind !== 'stored')
    throw new Error(`the demo correction was refused: ${JSON.stringify(outcome)}`)
  return outcome.stored.length
}
