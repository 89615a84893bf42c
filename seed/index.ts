import { OUTFIT } from '@/lib/access/viewer'
import type { Day } from '@/lib/domain/quantity/day'
import { commitBatch } from '@/lib/records/batches'
import { noteBrought } from '@/lib/records/brought'
import type { Db } from '@/lib/records/db'
import { correctOldForge } from './corrections'
import { storeDemoModels } from './equipment'
import { demoFleet } from './fleet'
import { driveDemoRounds } from './rounds'
import { fillDemoShelf } from './shelf'

/**
 * Loads the invented Fernhollow fleet, its years ending at `today`, as one import that can be
 * taken back whole. The same day gives the same fleet. Answers how many wells and entries.
 */
export async function loadDemo(db: Db, at: string, today: Day): Promise<{ wells: number; entries: number }> {
  await storeDemoModels(db, at)
  const outcome = await commitBatch(db, OUTFIT, demoFleet(today), at)
  if (outcome.kind === 'refused') {
    throw new Error(`the demo fleet was refused: ${outcome.problems[0]?.message ?? 'no reason given'}`)
  }
  const { batchId } = outcome
  if (batchId === null) throw new Error('the demo fleet is in the register already')
  await fillDemoShelf(db, at, today)
  await noteBrought(db, batchId)
  const corrected = await correctOldForge(db, batchId, at, today)
  const driven = await driveDemoRounds(db, batchId, at, today)
  return { wells: outcome.counts.wellsAdded, entries: outcome.counts.entriesAdded + corrected + driven }
}
