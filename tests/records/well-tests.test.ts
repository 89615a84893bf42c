import { beforeAll, describe, expect, test } from 'vitest'
import type { Fact, Payload } from '@/lib/domain/logbook/kinds'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { record } from '@/lib/records/record'
import { bareWell } from '@/lib/records/well-fields'
import { testReport, testSetting, testsOfWell } from '@/lib/records/well-tests'
import { createWell, visibleWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const amount = (si: number, unit: string) => ({ si, typed: `${si} ${unit}` })

/** s = 1 m · exp(−t/T) above a level at rest of 2 m: a curve whose time constant is known beforehand. */
const recovery = (timeConstantS: number): Fact => ({
  kind: 'recovery-test',
  static: amount(2, 'm'),
  readings: [0, 120, 300, 600, 900, 1200, 1800].map((s) => ({
    elapsed: amount(s, 's'),
    level: amount(2 + Math.exp(-s / timeConstantS), 'm'),
  })),
})
const few: Fact = {
  kind: 'recovery-test',
  readings: [{ elapsed: amount(60, 's'), level: amount(2.5, 'm') }],
}
const flow: Fact = { kind: 'flow-reading', flow: amount(0.0005, 'm³/s'), pumped: amount(1800, 's') }

let db: Db
let wellId: string
let ownerId: string | null
const ids: Record<string, string> = {}

async function write(
  on: string,
  payloads: Payload[],
  supersedes: string | null = null,
  withdraws = supersedes,
) {
  const visitId = newId()
  const drafts = payloads.map((payload) => ({
    id: newId(),
    wellId,
    visitId,
    occurredOn: on,
    occurredTime: null,
    byName: 'Joss',
    supersedes: payload.kind === 'correction' ? supersedes : null,
    withdraws: payload.kind === 'withdrawal' ? withdraws : null,
    payload,
  }))
  expect(await record(db, installer, drafts, AT, TODAY)).toMatchObject({ kind: 'stored' })
  return drafts.map((draft) => draft.id)
}

beforeAll(async () => {
  db = await freshDb()
  const made = await createWell(
    db,
    installer,
    { ...bareWell('A-1'), name: 'Old forge', ownerName: 'Orla Finch', casingBoreM: 0.3, wellDepthM: 6 },
    AT,
  )
  if (made.kind !== 'stored') throw new Error(made.kind)
  wellId = made.id
  ownerId = visibleWell(db, installer, wellId)?.ownerId ?? null
  ;[ids.first = ''] = await write('2025-05-01', [recovery(600)])
  ;[ids.second = ''] = await write('2026-05-01', [flow, recovery(900)].reverse())
  ;[ids.taken = ''] = await write('2026-06-01', [recovery(300)])
  await write('2026-06-02', [{ kind: 'withdrawal', reason: 'the wrong well' }], ids.taken)
  ;[ids.few = ''] = await write('2026-07-01', [few])
  await write('2026-08-01', [{ kind: 'level-reading', level: amount(2.4, 'm'), state: 'rest' }])
})

describe('the tests of a well', () => {
  test('are listed newest first, those taken back among them, and nothing that is no test', () => {
    const page = testsOfWell(db, technician, wellId)
    expect(page?.tests.map(({ id, stands }) => [id, stands])).toEqual([
      [ids.few, true],
      [ids.taken, false],
      [ids.second, true],
      [ids.first, true],
    ])
  })

  test('are nothing to an owner of another well, nor where there is no such well', () => {
    expect(testsOfWell(db, owner('somebody'), wellId)).toBeNull()
    expect(testsOfWell(db, owner(ownerId), wellId)?.tests).toHaveLength(4)
    expect(testsOfWell(db, installer, newId())).toBeNull()
    expect(testSetting(db, owner('somebody'), wellId)).toBeNull()
    expect(testReport(db, owner('somebody'), wellId, ids.first ?? '')).toBeNull()
  })
})

test('a form knows the last recovery that stands and could be reckoned, and the sizes of the well', () => {
  const setting = testSetting(db, technician, wellId)
  expect(setting).toMatchObject({
    label: 'A-1',
    name: 'Old forge',
    well: { casingBoreM: 0.3, wellDepthM: 6 },
  })
  expect(setting?.lastRecovery?.on).toBe('2026-05-01')
  expect(setting?.lastRecovery?.timeConstantS).toBeCloseTo(900, 0)
})

describe('a report', () => {
  test('carries the flow of its own visit, and the low of the three years up to its day', () => {
    const report = testReport(db, installer, wellId, ids.second ?? '')
    expect(report?.pumped).toEqual({ flowM3PerS: 0.0005, pumpedS: 1800 })
    // The level of August came later, and the test of June was taken back.
    expect(report?.low).toMatchObject({ kind: 'low', levelM: 2, readings: 2, months: 1 })
    expect(testReport(db, installer, wellId, ids.few ?? '')).toMatchObject({ pumped: null })
  })

  test('is shown for what was taken back, and told that it was', () => {
    expect(testReport(db, installer, wellId, ids.taken ?? '')?.test.stands).toBe(false)
  })

  test('is none where the line is no test of that well', () => {
    expect(testReport(db, installer, wellId, newId())).toBeNull()
  })
})
