import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { beforeEach, describe, expect, test } from 'vitest'
import { unsentFile } from '@/app/_offline/export-file'
import { readBack } from '@/app/_offline/import-file'
import { closeMarks, dropMarks, dropMarksOf, keepMarks, marksOf } from '@/app/_offline/marks'
import { listOf, saveVisit } from '@/app/_offline/queue'
import { sendAll } from '@/app/_offline/send'
import { closeStore } from '@/app/_offline/store'
import { saidOf, titleOf } from '@/app/_offline/words-of-records'
import { lineId } from '@/lib/forms/visit/lines'
import { newId } from '@/lib/records/ids'
import { AT, aWell } from '../setup/batch'
import { freshDb } from '../setup/fresh-db'
import { recoveryTyped, sheetTyped, waitingAt } from '../setup/phone-forms'
import { aPhoto, lines, NOW, visit, world } from '../setup/phone-world'

beforeEach(async () => {
  await closeStore()
  await closeMarks()
  globalThis.indexedDB = new IDBFactory()
})

const recovery = { kind: 'test', test: 'recovery' } as const
const sheet = { kind: 'sheet' } as const
const kinds = (db: Awaited<ReturnType<typeof freshDb>>) =>
  db.sqlite.prepare('SELECT "kind" FROM "Entry" ORDER BY "id"').pluck().all()

describe('a well test that waits on the phone', () => {
  test('goes up with visits and sheets, however often its answer is lost, and is stored once', async () => {
    const db = await freshDb()
    const { way, world: w } = world(db)
    const wellId = await aWell(db)
    await saveVisit({ ...waitingAt(wellId), ...recovery, typed: recoveryTyped({ flow: '9' }) })
    await saveVisit({ ...waitingAt(wellId), ...sheet, typed: sheetTyped({ note: 'A remark' }) })
    await saveVisit(await visit(db, { note: 'a visit' }))
    way.is = 'answer lost'
    for (let i = 0; i < 3; i += 1) await sendAll('joss', true, w)
    expect((await listOf('joss')).visits.map(({ state }) => state)).toEqual(['saved', 'saved', 'saved'])
    way.is = 'open'
    expect(await sendAll('joss', true, w)).toMatchObject({ sent: 3, left: 0 })
    expect(kinds(db).sort()).toEqual(['flow-reading', 'note', 'note', 'recovery-test', 'sample'])
  })

  test('comes home with the server’s question, holds up nothing, and is stored with its answer', async () => {
    const db = await freshDb()
    const { world: w } = world(db)
    const wellId = await aWell(db, 'A-1', 2)
    const odd = { ...waitingAt(wellId), ...recovery, marks: '{"of":"the clock"}' }
    await saveVisit({ ...odd, typed: recoveryTyped({ static: '20' }) })
    await saveVisit(await visit(db, { note: 'not held up' }))
    expect(await sendAll('joss', true, w)).toMatchObject({ sent: 1, left: 1 })
    const refused = (await listOf('joss')).visits.find(({ id }) => id === odd.id)
    expect(refused).toMatchObject({
      state: 'refused',
      marks: odd.marks,
      why: [
        { field: 'static', wrong: expect.stringContaining('deeper than the well') },
        { field: 'readings', wrong: expect.stringContaining('look like feet') },
      ],
      questions: { static: { choices: [{ value: 'sure' }] }, readings: { choices: [{ value: 'sure' }] } },
    })
    const answers = { 'answer:static': 'sure', 'answer:readings': 'sure' }
    await saveVisit({ ...odd, typed: recoveryTyped({ static: '20', ...answers }), savedAt: 'later' })
    expect(await sendAll('joss', true, w)).toMatchObject({ left: 0 })
    expect(kinds(db)).toContain('recovery-test')
    // What the server has, the phone lets go, the clock among it.
    const sent = (await listOf('joss')).visits.find(({ id }) => id === odd.id)
    expect(sent).toMatchObject({ state: 'sent', typed: {}, test: 'recovery' })
    expect(sent).not.toHaveProperty('marks')
  })

  test('is listed with every reading, in the unit that it was typed in', () => {
    const typed = recoveryTyped({ level2: '2.1 m', level3: '', flow: '9 gpm' })
    const said = saidOf({ kind: 'test', units: 'us', typed })
    const text = (what: string) => said.find((line) => line.what === what)?.text
    expect(titleOf({ ...waitingAt('w'), ...recovery })).toBe('Recovery test at A-1')
    expect(text('Reading 1')).toBe('10 s, 8.95 ft')
    expect(text('Reading 2')).toBe('60 s, 2.1 m')
    expect(text('Reading 3')).toBe('180 s, no level yet')
    expect(text('Level at rest')).toBe('6 ft')
    expect(text('Flow')).toBe('9 gpm')
    expect(said.filter(({ what }) => what.startsWith('Reading'))).toHaveLength(7)
    const steps = { flow1: '4', elapsed1: '60', level1: '7.1' }
    expect(saidOf({ kind: 'test', units: 'metric', typed: steps })[0]?.text).toBe('4 L/min, 60 min, 7.1 m')
  })
})

describe('a lab sheet that waits on the phone', () => {
  test('takes its photo to the sample, once', async () => {
    const db = await freshDb()
    const { way, world: w } = world(db)
    const one = { ...waitingAt(await aWell(db)), ...sheet }
    await saveVisit({ ...one, typed: sheetTyped({ note: 'Remark' }) }, [await aPhoto()])
    way.is = 'no signal'
    expect(await sendAll('joss', true, w)).toMatchObject({ left: 2, reached: false })
    way.is = 'open'
    expect(await sendAll('joss', true, w)).toMatchObject({ sent: 2, left: 0 })
    const hangs = db.sqlite.prepare('SELECT "entryId" FROM "Attachment"').pluck().all()
    expect(hangs).toEqual([lineId(one.id, 'sample')])
    expect(kinds(db)).toEqual(['sample', 'note'])
  })

  test('is refused with its question, and keeps every cell', async () => {
    const db = await freshDb()
    const { world: w } = world(db)
    const typed = sheetTyped({ 'r3:analyte': 'Unobtainium', 'r3:result': '3', 'r3:unit': 'mg/L' })
    await saveVisit({ ...waitingAt(await aWell(db)), ...sheet, typed })
    await sendAll('joss', true, w)
    const [kept] = (await listOf('joss')).visits
    expect(kept).toMatchObject({ state: 'refused', typed })
    expect(kept?.why.map(({ wrong }) => wrong).join()).toContain('not a name known here')
    expect(lines(db)).toBe(0)
  })

  test('is listed row by row, without the rows that nobody filled in', () => {
    const typed = sheetTyped({ 'r2:reportingLimit': '0.05', 'r2:qualifier': 'J' })
    const said = saidOf({ kind: 'sheet', units: 'us', typed })
    expect(said).toContainEqual({
      field: 'r2',
      what: 'Nitrate',
      text: '4.2 mg/L as N, reporting limit 0.05, qualifier J',
    })
    expect(said.map(({ what }) => what)).not.toContain('Lead')
    expect(said.find(({ field }) => field === 'sampleLab')?.text).toBe('Sorrel')
    expect(said.find(({ field }) => field === 'receivedTemp')?.text).toBe('41 °F')
    expect(titleOf({ ...waitingAt('w'), ...sheet })).toBe('Lab sheet for A-1')
  })
})

test('tests and sheets go into the file of what is not sent, and come back from it as they were', async () => {
  const db = await freshDb()
  const { world: w } = world(db)
  const wellId = await aWell(db)
  const one = { ...waitingAt(wellId), ...recovery, marks: '{"startedAtMs":7}', typed: recoveryTyped() }
  await saveVisit(one)
  await saveVisit({ ...waitingAt(wellId), ...sheet, typed: sheetTyped() }, [await aPhoto()])
  const { text } = await unsentFile('joss', new Date(NOW))
  await closeStore()
  globalThis.indexedDB = new IDBFactory()
  expect(await readBack('joss', text)).toEqual({ ok: true, back: 2, photos: 1, known: 0, spoilt: 0 })
  const back = (await listOf('joss')).visits
  expect(back.find(({ id }) => id === one.id)).toMatchObject({ ...one, version: 2, state: 'saved' })
  expect(await sendAll('joss', true, w)).toMatchObject({ sent: 3, left: 0 })
  expect(kinds(db).sort()).toEqual(['recovery-test', 'sample'])
})

test('a file of the form before tests and sheets is read back as ever', async () => {
  const db = await freshDb()
  const { world: w } = world(db)
  await saveVisit(await visit(db, { note: 'of an older page' }))
  const file = JSON.parse((await unsentFile('joss', new Date(NOW))).text)
  const text = JSON.stringify({ ...file, version: 1 })
  await closeStore()
  globalThis.indexedDB = new IDBFactory()
  expect(await readBack('joss', text)).toMatchObject({ ok: true, back: 1, spoilt: 0 })
  expect(await sendAll('joss', true, w)).toMatchObject({ sent: 1, left: 0 })
})

describe('the marks of a running test', () => {
  test('are there after the page has ended, until they are dropped', async () => {
    await keepMarks('test-recovery-w-joss', 'first')
    await keepMarks('test-recovery-w-joss', 'second')
    await closeMarks()
    expect(await marksOf('test-recovery-w-joss')).toBe('second')
    await dropMarks('test-recovery-w-joss')
    expect(await marksOf('test-recovery-w-joss')).toBeNull()
  })

  test('of one person go with them, those of another stay', async () => {
    const other = `test-step-w-${newId()}`
    await keepMarks('test-recovery-w-joss', AT)
    await keepMarks(other, AT)
    await dropMarksOf('joss')
    expect(await marksOf('test-recovery-w-joss')).toBeNull()
    expect(await marksOf(other)).toBe(AT)
  })
})
