import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { performance } from 'node:perf_hooks'
import { appraiseYield } from '@/lib/domain/yield/decline/appraise'
import { readFolder } from '@/lib/exchange/folder'
import { reckonLines } from '@/lib/exchange/reckon-lines'
import { rebuild } from '@/lib/records/rebuild'
import { type SimulatedWell, simulateFleet } from '../sim/fleet'
import { writeFolder } from '../sim/folder'
import { WORLD } from '../sim/settings'
import { benchFleet } from './fleet-db'
import { type Figure, processorMs } from './stats'

const WELLS = 10_000
const VISITS = 120
const BATCH = 500
const FOLDER_WELLS = 300
const REBUILT = 2000

/**
 * Ten thousand wells of 120 visits each, every one reckoned anew on one core; making them up is not counted.
 * Processor time is told too, for machines that do other work.
 */
export function benchRereckon(): Figure[] {
  let ms = 0
  let processorMs = 0
  let visits = 0
  for (let batch = 0; batch < WELLS / BATCH; batch++) {
    const fleet = simulateFleet({
      ...WORLD,
      wells: BATCH,
      seed: 9000 + batch,
      years: [20, 20],
      visitsPerYear: [(VISITS + 0.4) / 20, (VISITS + 0.4) / 20],
    })
    const before = process.cpuUsage()
    const start = performance.now()
    for (const { well, visits: list, events } of fleet) {
      appraiseYield(well, list, events, { falseAlarmShare: 0.05 })
    }
    ms += performance.now() - start
    const { user, system } = process.cpuUsage(before)
    processorMs += (user + system) / 1000
    visits += fleet.reduce((sum, { visits: list }) => sum + list.length, 0)
  }
  return [
    {
      name: `${WELLS} wells × ${Math.round(visits / WELLS)} visits re-reckoned`,
      value: ms / 1000,
      unit: 's',
    },
    { name: 'the same, processor time, a well', value: processorMs / WELLS, unit: 'ms' },
  ]
}

/** All standings of a fleet made anew out of the database, as after a change of reckoning: what one well costs. */
export async function benchRebuild(): Promise<Figure[]> {
  const db = await benchFleet(REBUILT)
  await rebuild(db, 'all')
  const ms = await processorMs(() => rebuild(db, 'all'))
  await db.close()
  return [
    { name: 'standings rebuilt, 20 entries each, processor time, a well', value: ms / REBUILT, unit: 'ms' },
  ]
}

/** Lines of the reckon command from plain files, once as they stand and once for every visit. */
export async function benchReckonLines(): Promise<Figure[]> {
  const fleet: SimulatedWell[] = simulateFleet({ ...WORLD, wells: FOLDER_WELLS, seed: 71 })
  const path = mkdtempSync(join(tmpdir(), 'wellround-bench-'))
  try {
    writeFolder(path, fleet)
    const { wells } = await readFolder(path)
    const each = (replay: boolean): number => {
      const start = performance.now()
      let lines = 0
      for (const line of reckonLines(wells, { asOf: null, replay })) lines += line.length > 0 ? 1 : 0
      return (performance.now() - start) / lines
    }
    each(false)
    return [
      { name: 'one line of npm run reckon, as it stands', value: each(false), unit: 'ms' },
      { name: 'one line of npm run reckon --replay', value: each(true), unit: 'ms' },
    ]
  } finally {
    rmSync(path, { recursive: true })
  }
}
