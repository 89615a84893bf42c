import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { OUTFIT } from '@/lib/access/viewer'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { addDays } from '@/lib/domain/quantity/day'
import { type BatchPlan, commitBatch } from '@/lib/records/batches'
import { type Db, openDb } from '@/lib/records/db'
import type { DutyFields } from '@/lib/records/duty-fields'
import { migrate } from '@/lib/records/migrate'
import { bareWell } from '@/lib/records/well-fields'

export const TODAY = '2026-11-20'
export const AT = '2026-11-20T12:00:00.000Z'
const VISITS = 5
const LINES_A_VISIT = 4
/** Wells stored in one import while a fleet is made. */
const SLICE = 2000

/** A database file of its own with that many invented wells, three duties and twenty entries each. */
export async function benchFleet(wells: number): Promise<Db> {
  const file = join(mkdtempSync(join(tmpdir(), 'wellround-bench-')), 'bench.db')
  await migrate(file)
  const db = await openDb(file)
  for (let from = 0; from < wells; from += SLICE) {
    await commitBatch(db, OUTFIT, benchPlan(from, Math.min(SLICE, wells - from)), AT)
  }
  db.sqlite.exec('ANALYZE')
  return db
}

/** Wells numbered from `from`, as one plan. */
export function benchPlan(from: number, count: number): BatchPlan {
  const plan: BatchPlan = {
    what: 'mixed',
    fileName: `bench ${from}`,
    fileSha256: String(from),
    updateExisting: false,
    wells: [],
    duties: [],
    entries: [],
  }
  for (let n = from; n < from + count; n += 1) {
    const label = `W${String(n).padStart(6, '0')}`
    plan.wells.push({
      row: n,
      fields: {
        ...bareWell(label),
        name: `Place ${n % 977}`,
        area: `Area ${n % 40}`,
        ownerName: `Owner ${n % 20_000}`,
        installedOn: '2018-05-01',
        latitude: 44 + (n % 997) / 2000,
        longitude: -121 - (n % 1009) / 2000,
      },
    })
    for (const fields of DUTIES) plan.duties.push({ row: n, wellLabel: label, fields })
    for (let visit = 0; visit < VISITS; visit += 1) plan.entries.push(...visitEntries(label, n, visit))
  }
  return plan
}

const DUTIES: DutyFields[] = (
  [
    ['change-sediment-cartridge', 'Change sediment cartridge', 'supply', 6],
    ['check-motor-brushes', 'Check motor brushes', 'wear', 12],
    ['bacteria-sample', 'Bacteria sample', 'health', 12],
  ] as const
).map(([key, name, consequence, everyMonths]) => ({
  key,
  name,
  consequence,
  everyMonths,
  everyRunS: key === 'check-motor-brushes' ? 1000 * 3600 : null,
  everyM3: null,
  condition: null,
  conditionLimitSi: null,
  lastDoneOn: null,
  typed: {},
}))

/** Four lines of one visit, the visits about five months apart and the last ones spread over the year. */
function visitEntries(label: string, n: number, visit: number): BatchPlan['entries'] {
  const on = addDays(TODAY, -((VISITS - 1 - visit) * 150 + (n % 340)))
  const hours = visit * 300 + (n % 50)
  const facts: Fact[] = [
    { kind: 'service-done', duties: DUTIES.map((d) => d.key), names: DUTIES.map((d) => d.name), parts: [] },
    { kind: 'level-reading', level: { si: 2 + (n % 10) / 10, typed: '6.6 ft' }, state: 'rest' },
    { kind: 'flow-reading', flow: { si: 0.0004, typed: '6.3 gpm' } },
    {
      kind: 'meter-reading',
      meter: 'hours',
      reading: { si: hours * 3600, typed: `${hours} h` },
      explained: null,
    },
  ]
  return facts.slice(0, LINES_A_VISIT).map((payload, line) => ({
    wellLabel: label,
    row: n,
    contentKey: ['bench', String(visit), String(line)],
    draft: {
      id: '',
      visitId: `${label} ${visit}`,
      occurredOn: on,
      occurredTime: null,
      byName: 'Bench',
      supersedes: null,
      withdraws: null,
      payload,
    },
  }))
}
