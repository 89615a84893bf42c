import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { reckon } from '@/lib/domain/logbook/appraise'
import { RECKON_SETTINGS } from '@/lib/domain/logbook/settings'
import { simulateYear } from '@/lib/domain/pump/supply'
import { openDb } from '@/lib/records/db'
import { entriesOfWell } from '@/lib/records/entries'
import { migrate } from '@/lib/records/migrate'
import { registerWithModels } from '@/lib/records/model-rows'
import type { DutyRow, WellRow } from '@/lib/records/rows'
import { loadDemo } from '@/seed'
import { cabin } from '../domain/pump/supply/plans'
import { AT, TODAY } from './fleet-db'
import { type Figure, medianProcessorMs } from './stats'

/** A well of the demo whose owner said what drives the pump and what is asked of it. */
const TOLD = 'Quince Row'

/** What a year by the hour costs, by itself, with every number a fifth smaller and larger, and in the reckoning of a well. */
export async function benchSupply(): Promise<Figure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'wellround-bench-'))
  const file = join(folder, 'supply.db')
  await migrate(file)
  const db = await openDb(file)
  try {
    await loadDemo(db, AT, TODAY)
    const well = db.sqlite.prepare('SELECT * FROM "Well" WHERE "name" = ?').get(TOLD) as WellRow
    const duties = db.sqlite.prepare('SELECT * FROM "Duty" WHERE "wellId" = ?').all(well.id) as DutyRow[]
    const register = registerWithModels(db.sqlite, well, duties)
    const entries = entriesOfWell(db.sqlite, well.id)
    const untold = { ...register, supplySide: null }
    return [
      {
        name: 'a year of supply by the hour, processor time',
        value: await medianProcessorMs(() => simulateYear(cabin)),
        unit: 'ms',
      },
      {
        name: `  a well of ${entries.length} entries reckoned, with supply`,
        value: await medianProcessorMs(() => reckon(register, entries, RECKON_SETTINGS)),
        unit: 'ms',
      },
      {
        name: '  the same without what drives its pump',
        value: await medianProcessorMs(() => reckon(untold, entries, RECKON_SETTINGS)),
        unit: 'ms',
      },
    ]
  } finally {
    await db.close()
    rmSync(folder, { recursive: true, force: true })
  }
}
