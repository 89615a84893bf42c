import { expect, test } from 'vitest'
import { newId } from '@/lib/records/ids'
import { rebuild } from '@/lib/records/rebuild'
import { putReckonChoices, reckonSettings } from '@/lib/records/reckon-settings'
import { record } from '@/lib/records/record'
import { samplePage } from '@/lib/records/sample-page'
import { standingOf } from '@/lib/records/standings'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'

async function setting() {
  const db = await freshDb()
  const well = await createWell(db, installer, { ...bareWell('A-1'), ownerName: 'Orla Finch' }, AT)
  if (well.kind !== 'stored') throw new Error(well.kind)
  const id = newId()
  const results = [
    { analyte: 'Total coliform', result: 'Absent' },
    { analyte: 'E. coli', result: 'Absent' },
    { analyte: 'Nitrate', result: '1.2', unit: 'mg/L as N' },
    { analyte: 'Arsenic', result: '7', unit: 'µg/L' },
  ]
  const line = (payload: object, more: object = {}) => ({
    id: newId(),
    wellId: well.id,
    visitId: newId(),
    occurredOn: TODAY,
    occurredTime: null,
    byName: 'Joss',
    supersedes: null,
    withdraws: null,
    payload,
    ...more,
  })
  const put = async (draft: object, by = technician) => {
    const outcome = await record(db, by, [draft], AT, TODAY)
    expect(outcome.kind).toBe('stored')
  }
  const sheet = { kind: 'sample', sampledAt: TODAY, receivedAt: TODAY, results }
  await put(line(sheet, { id }))
  const note = line({ kind: 'note', text: 'no sheet' })
  await put(note)
  return { db, wellId: well.id, id, noteId: note.id, sheet, line, put }
}

test('shows a sheet with its verdict, after a correction what it says now, after a withdrawal no verdict', async () => {
  const { db, wellId, id, sheet, line, put } = await setting()
  expect(samplePage(db, technician, wellId, id)?.verdict?.verdict).toBe('meets')
  const replacement = {
    ...sheet,
    results: sheet.results.map((row) => (row.analyte === 'Nitrate' ? { ...row, result: '12' } : row)),
  }
  await put(
    line(
      { kind: 'correction', reason: 'misread', occurredOn: TODAY, occurredTime: null, replacement },
      { supersedes: id },
    ),
  )
  const corrected = samplePage(db, technician, wellId, id)
  expect(corrected?.verdict?.verdict).toBe('exceeds')
  expect(corrected?.line.history.map(({ kind }) => kind)).toEqual(['written', 'corrected'])
  await put(line({ kind: 'withdrawal', reason: 'another well' }, { withdraws: id }), installer)
  const withdrawn = samplePage(db, technician, wellId, id)
  expect(withdrawn?.line.stands).toBe(false)
  expect(withdrawn?.verdict).toBeNull()
})

test('is not there for another household, under another well, or for a line that is no sheet', async () => {
  const { db, wellId, id, noteId } = await setting()
  const other = await createWell(db, installer, bareWell('A-2'), AT)
  expect(samplePage(db, owner('somebody-else'), wellId, id)).toBeNull()
  expect(samplePage(db, installer, other.kind === 'stored' ? other.id : '', id)).toBeNull()
  expect(samplePage(db, installer, wellId, noteId)).toBeNull()
  expect(samplePage(db, installer, wellId, newId())).toBeNull()
})

test('is judged by a limit of the installer from the moment it is set; stored standings follow by rebuilding', async () => {
  const { db, wellId, id } = await setting()
  const county = {
    analyte: 'arsenic',
    kind: 'health' as const,
    max: 5,
    unit: 'µg/L',
    source: 'County well code (invented)',
    date: '2024',
  }
  await putReckonChoices(db, installer, { ...reckonSettings(db.sqlite).choices, local: [county] }, AT)
  const arsenic = samplePage(db, technician, wellId, id)?.verdict?.findings.find(
    (finding) => finding.analyte === 'arsenic' && finding.decides,
  )
  expect(arsenic).toMatchObject({
    verdict: 'exceeds',
    limit: { local: true, max: 5, unit: 'µg/L', source: 'County well code (invented)', date: '2024' },
  })
  expect(standingOf(db.sqlite, wellId)?.water.exceeds).toEqual([])
  expect(await rebuild(db, 'stale')).toBe(1)
  expect(standingOf(db.sqlite, wellId)?.water.exceeds).toEqual(['Arsenic'])
  await expect(putReckonChoices(db, technician, { local: [] }, AT)).rejects.toThrow('not allowed')
})
