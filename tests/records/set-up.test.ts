import { beforeAll, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import { undoBatch } from '@/lib/records/batch-undo'
import type { Db } from '@/lib/records/db'
import { addDuty } from '@/lib/records/duties'
import type { DutyFields } from '@/lib/records/duty-fields'
import { models } from '@/lib/records/models'
import { previewSetUp, setUpWells } from '@/lib/records/set-up'
import { bareWell } from '@/lib/records/well-fields'
import { createWell, wellPage } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, technician } from '../setup/viewers'

const AT = '2026-11-20T12:00:00.000Z'
const DUTY: DutyFields = {
  key: 'change-cartridge',
  name: 'Change cartridge',
  consequence: 'supply',
  everyMonths: 6,
  everyRunS: null,
  everyM3: null,
  condition: null,
  conditionLimitSi: null,
  lastDoneOn: null,
  typed: {},
}

let db: Db
let wells: string[]
let heron: string
beforeAll(async () => {
  db = await freshDb()
  wells = []
  for (const [label, pumpModel] of [
    ['A1', 'Heron 3'],
    ['A2', 'Old 1'],
    ['A3', null],
  ] as const) {
    const made = await createWell(db, installer, { ...bareWell(label), pumpModel }, AT)
    if (made.kind !== 'stored') throw new Error(made.kind)
    wells.push(made.id)
  }
  await addDuty(db, installer, wells[0] ?? '', { ...DUTY, everyMonths: 3 }, AT)
  heron = models(db, installer).pumps.find(({ name }) => name === 'Heron 3')?.id ?? ''
})

const pumpOf = (i: number) => wellPage(db, installer, wells[i] ?? '')?.models.pump
const monthsOf = (i: number) =>
  wellPage(db, installer, wells[i] ?? '')?.duties.map(({ everyMonths }) => everyMonths)

describe('wells set up alike', () => {
  const choice = () => ({ pumpModelId: heron, cartridgeModelId: null, duties: [DUTY] })

  test('are shown first with what would change on each', () => {
    expect(previewSetUp(db, installer, wells, choice())).toMatchObject([
      { label: 'A1', pump: { now: 'Heron 3', changes: false }, given: [], kept: ['Change cartridge'] },
      { label: 'A2', pump: { now: 'Old 1', changes: true }, given: ['Change cartridge'] },
      { label: 'A3', pump: { now: null, changes: true }, given: ['Change cartridge'] },
    ])
    expect(pumpOf(1)).toBe('Old 1')
  })

  test('take the models and the duties they lack in one step, which is taken back whole', async () => {
    const outcome = await setUpWells(db, installer, wells, choice(), AT)
    if (outcome.kind !== 'done') throw new Error(outcome.kind)
    expect(outcome).toMatchObject({ wells: 2, duties: 2 })
    expect([0, 1, 2].map(pumpOf)).toEqual(['Heron 3', 'Heron 3', 'Heron 3'])
    expect([0, 1, 2].map(monthsOf)).toEqual([[3], [6], [6]])
    expect(await setUpWells(db, installer, wells, choice(), AT)).toEqual({ kind: 'nothing-to-change' })
    const undone = await undoBatch(db, installer, outcome.batchId, AT, '2026-11-20')
    expect(undone).toMatchObject({ kind: 'undone', rowsRestored: 2, rowsKept: 0 })
    expect([0, 1, 2].map(pumpOf)).toEqual(['Heron 3', 'Old 1', null])
    expect([0, 1, 2].map(monthsOf)).toEqual([[3], [], []])
  })

  test('are refused a model that is not there, and to a technician', async () => {
    const nowhere = { ...choice(), pumpModelId: 'nowhere' }
    expect(await setUpWells(db, installer, wells, nowhere, AT)).toEqual({ kind: 'no-such-model' })
    expect(() => setUpWells(db, technician, wells, choice(), AT)).toThrow(NotAllowed)
    expect(() => previewSetUp(db, technician, wells, choice())).toThrow(NotAllowed)
  })
})
