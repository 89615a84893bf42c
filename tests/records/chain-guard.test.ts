import { expect, test } from 'vitest'
import type { Viewer } from '@/lib/access/viewer'
import { newId } from '@/lib/records/ids'
import { record } from '@/lib/records/record'
import { bareWell } from '@/lib/records/well-fields'
import { openChains, wellWater } from '@/lib/records/well-water'
import { createWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const sheet = (day: string, coliform: string, lab = 'Sorrel Lab') => ({
  kind: 'sample' as const,
  sampledAt: `${day}T08:00`,
  receivedAt: `${day}T12:00`,
  lab,
  results: [
    { analyte: 'Total coliform', result: coliform },
    { analyte: 'Nitrate as N', result: '1.2', unit: 'mg/L' },
  ],
})

async function positiveWell() {
  const db = await freshDb()
  const well = await createWell(db, installer, bareWell('A-1'), AT)
  if (well.kind !== 'stored') throw new Error(well.kind)
  const line = (payload: object, more: object = {}) => ({
    id: newId(),
    wellId: well.id,
    visitId: newId(),
    occurredOn: '2026-11-02',
    occurredTime: null,
    byName: 'Joss',
    supersedes: null,
    withdraws: null,
    payload,
    ...more,
  })
  const put = (viewer: Viewer, drafts: object[]) => record(db, viewer, drafts, AT, TODAY)
  const positive = line(sheet('2026-11-02', 'Present'))
  await put(technician, [positive])
  const told = () => wellWater(db, technician, well.id)?.takenBack
  return {
    line,
    put,
    told,
    id: positive.id,
    open: () => openChains(db, installer, well.id).map(({ key }) => key),
  }
}

const correction = (replacement: object) => ({
  kind: 'correction',
  reason: 'as the laboratory says',
  occurredOn: '2026-11-02',
  occurredTime: null,
  replacement,
})

test('a technician takes no positive back, by withdrawal or correction; an installer does', async () => {
  const { line, put, told, id, open } = await positiveWell()
  expect(open()).toEqual(['bacteria'])
  expect(told()).toEqual([])
  const withdrawal = line({ kind: 'withdrawal', reason: 'another well' }, { withdraws: id })
  const away = line(correction(sheet('2026-11-02', 'Absent')), { supersedes: id })
  const refusal = { kind: 'refused', problems: [{ message: expect.stringContaining('Only an installer') }] }
  expect(await put(technician, [withdrawal])).toMatchObject(refusal)
  expect(await put(technician, [away])).toMatchObject(refusal)
  expect(open()).toEqual(['bacteria'])
  expect(await put(installer, [withdrawal])).toMatchObject({ kind: 'stored' })
  expect(open()).toEqual([])
  // It is told where the water of the well is looked at, with its reason, to everybody of the outfit.
  expect(told()).toMatchObject([
    { sampleId: id, names: ['Bacteria'], how: 'withdrawn', reason: 'another well', by: 'Joss' },
  ])
})

test('a technician corrects what leaves a positive positive, and takes other lines back', async () => {
  const { line, put, id, open } = await positiveWell()
  const sameFinding = line(correction(sheet('2026-11-02', 'Present', 'Millbrook Lab')), { supersedes: id })
  expect(await put(technician, [sameFinding])).toMatchObject({ kind: 'stored' })
  const note = line({ kind: 'note', text: 'gate is open' })
  await put(technician, [note])
  const gone = line({ kind: 'withdrawal', reason: 'another gate' }, { withdraws: note.id })
  expect(await put(technician, [gone])).toMatchObject({ kind: 'stored' })
  expect(open()).toEqual(['bacteria'])
})

test('a technician does not end a chain by taking back the disinfection that keeps clear samples from counting', async () => {
  const { line, put, open } = await positiveWell()
  const clear = (day: string) => line(sheet(day, 'Absent'), { occurredOn: day })
  const chlorine = line({ kind: 'water-step', step: 'disinfected' }, { occurredOn: '2026-11-06' })
  await put(technician, [chlorine, clear('2026-11-04'), clear('2026-11-08'), clear('2026-11-11')])
  const back = line({ kind: 'withdrawal', reason: 'never done' }, { withdraws: chlorine.id })
  expect(open()).toEqual(['bacteria'])
  expect(await put(technician, [back])).toMatchObject({ kind: 'refused' })
  expect(await put(installer, [back])).toMatchObject({ kind: 'stored' })
  expect(open()).toEqual([])
})
