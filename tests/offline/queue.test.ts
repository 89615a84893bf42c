import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { beforeEach, describe, expect, test, vi } from 'vitest'
import { FILE_VERSION, unsentFile } from '@/app/_offline/export-file'
import { readBack } from '@/app/_offline/import-file'
import { countUnsent, forget, listOf, saveVisit, sendAgain, wipe } from '@/app/_offline/queue'
import { sendAll } from '@/app/_offline/send'
import { closeStore, openStore, storageRefusal } from '@/app/_offline/store'
import { AGE_MAX_MS, forgetPerson, person, setPerson, take, takenData, takenList } from '@/app/_offline/taken'
import { BATCH_VERSION } from '@/lib/exchange/batch/shape'
import { phoneWellSchema } from '@/lib/exchange/phone/shape'
import { phoneWell } from '@/lib/exchange/phone/well'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { entriesOf, makeFleet, pageOf, db as rounds, roundWith } from '../records/rounds-fleet'
import { AT, aWell, joss, TODAY } from '../setup/batch'
import { freshDb } from '../setup/fresh-db'
import { photo } from '../setup/hostile-files'
import { aPhoto, lines, NOW, visit, world } from '../setup/phone-world'

beforeEach(async () => {
  await closeStore()
  globalThis.indexedDB = new IDBFactory()
})

describe('what a phone keeps', () => {
  test('is there after the page has ended, with its photo, and is sent when there is signal', async () => {
    const db = await freshDb()
    const { way, world: w } = world(db)
    const one = await visit(db, { note: 'lid is cracked', flow: '9' })
    await saveVisit(one, [await aPhoto()])
    await closeStore()
    way.is = 'no signal'
    expect(await sendAll('joss', true, w)).toEqual({ sent: 0, left: 2, reached: false })
    const [kept] = (await listOf('joss')).visits
    expect(kept).toMatchObject({ state: 'saved', typed: one.typed, why: [{ wrong: 'There was no signal' }] })
    way.is = 'open'
    expect(await sendAll('joss', true, w)).toEqual({ sent: 2, left: 0, reached: true })
    expect(lines(db)).toBe(2)
    expect(db.sqlite.prepare('SELECT COUNT(*) FROM "Attachment"').pluck().get()).toBe(1)
    // What the server has, the phone lets go: the list still says that it was sent.
    expect(await listOf('joss')).toMatchObject({
      visits: [{ state: 'sent', sentAt: AT, typed: {} }],
      photos: [],
    })
  })

  test('whose answer was lost is sent again, and stored once', async () => {
    const db = await freshDb()
    const { way, world: w } = world(db)
    await saveVisit(await visit(db, { note: 'once' }), [await aPhoto()])
    way.is = 'answer lost'
    for (let i = 0; i < 3; i += 1) await sendAll('joss', true, w)
    way.is = 'open'
    expect(await sendAll('joss', true, w)).toMatchObject({ left: 0 })
    expect(lines(db)).toBe(1)
  })

  test('waits longer each time it fails, unless a person asks', async () => {
    const db = await freshDb()
    const { way, now, world: w } = world(db)
    await saveVisit(await visit(db, { note: 'patient' }))
    way.is = 'no signal'
    const waits: number[] = []
    for (let i = 0; i < 10; i += 1) {
      await sendAll('joss', false, w)
      const [kept] = (await listOf('joss')).visits
      waits.push((kept?.notBefore ?? 0) - now.ms)
      const asked = way.asked
      await sendAll('joss', false, w)
      expect(way.asked).toBe(asked)
      now.ms = kept?.notBefore ?? 0
    }
    expect(waits.slice(0, 4)).toEqual([5_000, 10_000, 20_000, 40_000])
    expect(Math.max(...waits)).toBe(600_000)
    way.is = 'open'
    await sendAll('joss', true, w)
    expect(lines(db)).toBe(1)
  })

  test('and the server refuses stays with its reason, holds up nothing, and is sent when mended', async () => {
    const db = await freshDb()
    const { world: w } = world(db)
    const bad = await visit(db, { flow: 'a lot' })
    await saveVisit(bad, [await aPhoto()])
    for (let i = 0; i < 30; i += 1) await saveVisit(await visit(db, { note: `good ${i}` }))
    expect(await sendAll('joss', true, w)).toMatchObject({ sent: 30, left: 2, reached: true })
    const refused = (await listOf('joss')).visits.find(({ id }) => id === bad.id)
    expect(refused).toMatchObject({ state: 'refused', typed: bad.typed, why: [{ field: 'flow' }] })
    await saveVisit({ ...bad, typed: { ...bad.typed, flow: '9' }, savedAt: '2026-11-20T12:30:00.000Z' })
    expect(await sendAll('joss', true, w)).toMatchObject({ left: 0 })
    expect(lines(db)).toBe(31)
  })

  test('brings the server’s question home, and takes its answer', async () => {
    const db = await freshDb()
    const { world: w } = world(db)
    const first = await visit(db, { hourMeter: '1350', date: '2026-10-01' })
    await saveVisit(first)
    const odd = { ...(await visit(db, { hourMeter: '135' })), wellId: first.wellId }
    await saveVisit({ ...odd, savedAt: '2026-11-20T12:30:00.000Z' })
    await sendAll('joss', true, w)
    const asked = (await listOf('joss')).visits.find(({ id }) => id === odd.id)
    expect(asked?.questions.hourMeter?.choices.map(({ value }) => value)).toContain('replaced')
    expect(lines(db)).toBe(1)
    await saveVisit({ ...odd, typed: { ...odd.typed, 'answer:hourMeter': 'replaced' }, savedAt: 'later' })
    await sendAll('joss', true, w)
    expect(lines(db)).toBe(2)
  })

  test.each(['signed out', 'fault'] as const)(
    'stays whole when the server answers that it is %s',
    async (is) => {
      const db = await freshDb()
      const { way, world: w } = world(db)
      const one = await visit(db, { note: 'safe' })
      await saveVisit(one)
      way.is = is
      expect(await sendAll('joss', true, w)).toMatchObject({ left: 1, reached: false })
      expect((await listOf('joss')).visits).toMatchObject([{ state: 'saved', typed: one.typed }])
    },
  )

  test('written anew while it was on its way is not taken for sent', async () => {
    const db = await freshDb()
    const { world: w } = world(db)
    const one = await visit(db, { note: 'first words' })
    await saveVisit(one)
    const slow: typeof fetch = async (...args) => {
      await saveVisit({ ...one, typed: { ...one.typed, note: 'second words' }, savedAt: 'anew' })
      return w.fetch(...args)
    }
    const noticed = await sendAll('joss', true, { ...w, fetch: slow })
    expect(noticed?.left).toBe(1)
    expect((await listOf('joss')).visits).toMatchObject([{ typed: { note: 'second words' } }])
  })

  test('is deleted by a person alone, and can be put back in line', async () => {
    const db = await freshDb()
    const { way, world: w } = world(db)
    const one = await visit(db, { note: 'x' })
    await saveVisit(one, [await aPhoto()])
    way.is = 'no signal'
    await sendAll('joss', true, w)
    await sendAgain(one.id)
    expect((await listOf('joss')).visits).toMatchObject([{ state: 'saved', tries: 0, notBefore: 0 }])
    await forget(one.id)
    expect(await listOf('joss')).toEqual({ visits: [], photos: [] })
  })

  test('goes into one file with its photos', async () => {
    const db = await freshDb()
    await saveVisit(await visit(db, { note: 'in the file' }), [await aPhoto()])
    const { name, text } = await unsentFile('joss', new Date(NOW))
    const file = JSON.parse(text)
    expect(name).toBe('wellround-unsent-2026-11-20.json')
    expect(file.records[0].typed.note).toBe('in the file')
    expect(Buffer.from(file.photos[0].base64, 'base64')).toEqual(await photo())
  })

  test('is taken back whole where the store has no room: neither the visit nor a photo of it is there', async () => {
    const db = await freshDb()
    const one = await visit(db, { note: 'too much' })
    const full = new DOMException('no room', 'QuotaExceededError')
    const real = IDBObjectStore.prototype.put
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (
      this: IDBObjectStore,
      value,
    ) {
      if (this.name === 'photos') throw full
      return real.call(this, value)
    })
    await expect(saveVisit(one, [await aPhoto()])).rejects.toBe(full)
    put.mockRestore()
    expect(await listOf('joss')).toEqual({ visits: [], photos: [] })
    expect(storageRefusal(full)).toContain('no room left')
    expect(storageRefusal(new DOMException('', 'InvalidStateError'))).toContain('private window')
  })
})

describe('of two people on one phone', () => {
  test('neither sees or sends what the other wrote', async () => {
    const db = await freshDb()
    const { way, world: w } = world(db)
    await setPerson({ id: 'joss', name: 'Joss' })
    await saveVisit(await visit(db, { note: 'of Joss' }))
    await take({ key: 'well:w', user: 'joss', label: 'W', takenAt: AT, data: {} })
    await setPerson({ id: 'maren', name: 'Maren' })
    expect(await listOf('maren')).toEqual({ visits: [], photos: [] })
    expect(await countUnsent('maren')).toEqual({ own: 0, others: 1 })
    expect(await takenList('maren', NOW)).toEqual([])
    await sendAll('maren', true, w)
    expect(way.asked).toBe(0)
    expect(await countUnsent('joss')).toEqual({ own: 1, others: 0 })
  })

  test('whoever signs out leaves nothing of theirs, and touches nothing of the other', async () => {
    const db = await freshDb()
    await setPerson({ id: 'joss', name: 'Joss' })
    await saveVisit(await visit(db, { note: 'of Joss' }), [await aPhoto()])
    await saveVisit(await visit(db, { note: 'of Maren' }, { user: 'maren' }))
    await wipe('joss')
    expect(await listOf('joss')).toEqual({ visits: [], photos: [] })
    expect(await person()).toBeNull()
    expect((await listOf('maren')).visits).toHaveLength(1)
    await forgetPerson()
    expect((await listOf('maren')).visits).toHaveLength(1)
  })
})

describe('what was taken along', () => {
  test('is what the server names and nothing else, and reads back the same', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const well = phoneWell(db, joss, wellId)
    expect(Object.keys(well ?? {}).sort()).toEqual(Object.keys(phoneWellSchema.shape).sort())
    const pictures = [{ id: 'mark', blob: new Blob(['a photo']) }]
    const key = `well:${wellId}`
    await take({ key, user: 'joss', label: 'A-1', takenAt: AT, data: well, pictures })
    const found = await takenData(key, 'joss', phoneWellSchema, NOW)
    expect(found).toMatchObject({ data: well, takenAt: AT, pictures: [{ id: 'mark' }] })
    expect(await found?.pictures[0]?.blob.text()).toBe('a photo')
    expect(await takenList('joss', NOW)).toEqual([{ key, user: 'joss', label: 'A-1', takenAt: AT }])
    // Photos lie in the same record: what ends the one ends the other.
    await forgetPerson()
    expect(await takenData(key, 'joss', phoneWellSchema, NOW)).toBeNull()
  })

  test('is shown for seven days, to its person, in its form; then it is gone', async () => {
    const data = { id: 'w' }
    await take({ key: 'well:w', user: 'joss', label: 'W', takenAt: AT, data })
    const schema = phoneWellSchema.pick({ id: true })
    expect(await takenData('well:w', 'joss', schema, NOW + AGE_MAX_MS)).not.toBeNull()
    expect(await takenData('well:w', 'joss', schema, NOW + AGE_MAX_MS + 1)).toBeNull()
    expect(await takenData('well:w', 'joss', schema, NOW - 24 * 60 * 60 * 1000)).toBeNull()
    expect(await takenData('well:w', 'maren', schema, NOW)).toBeNull()
    expect(await takenData('well:w', 'joss', phoneWellSchema, NOW)).toBeNull()
    expect(await takenList('joss', NOW)).toHaveLength(1)
    expect(await takenList('joss', NOW + AGE_MAX_MS + 1)).toEqual([])
    expect(await (await openStore()).count('taken')).toBe(0)
  })

  test('of a well that the viewer may not see is nothing', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    expect(phoneWell(db, { ...joss, role: 'owner', ownerIds: ['somebody'] }, wellId)).toBeNull()
  })
})

describe('a file of what was not sent', () => {
  const taken = async (db: Db) => {
    await saveVisit(await visit(db, { note: 'in the file' }), [await aPhoto()])
    return (await unsentFile('joss', new Date(NOW))).text
  }
  const otherPhone = async () => {
    await closeStore()
    globalThis.indexedDB = new IDBFactory()
  }

  test('is read back on another phone of the same person, and arrives once from both', async () => {
    const db = await freshDb()
    const { world: w } = world(db)
    const text = await taken(db)
    expect(await sendAll('joss', true, w)).toMatchObject({ sent: 2, left: 0 })
    await otherPhone()
    expect(await readBack('joss', text)).toEqual({ ok: true, back: 1, photos: 1, known: 0, spoilt: 0 })
    const list = await listOf('joss')
    expect(list.visits).toMatchObject([{ state: 'saved', typed: { note: 'in the file' }, sentAt: null }])
    expect(new Uint8Array(list.photos[0]?.bytes ?? new ArrayBuffer(0))).toEqual(new Uint8Array(await photo()))
    expect(await sendAll('joss', true, w)).toMatchObject({ sent: 2, left: 0 })
    expect(lines(db)).toBe(1)
    expect(db.sqlite.prepare('SELECT COUNT(*) FROM "Attachment"').pluck().get()).toBe(1)
  })

  test('leaves what lies here already as it is', async () => {
    const db = await freshDb()
    const text = await taken(db)
    const [one] = (await listOf('joss')).visits
    if (!one) throw new Error('nothing was saved')
    await saveVisit({ ...one, typed: { ...one.typed, note: 'mended since' }, savedAt: 'later' })
    expect(await readBack('joss', text)).toEqual({ ok: true, back: 0, photos: 0, known: 1, spoilt: 0 })
    expect((await listOf('joss')).visits).toMatchObject([{ typed: { note: 'mended since' } }])
  })

  test('is read back for nobody but its writer, and not where it is no such file', async () => {
    const db = await freshDb()
    const text = await taken(db)
    await otherPhone()
    expect(await readBack('maren', text)).toMatchObject({
      ok: false,
      says: expect.stringContaining('somebody else'),
    })
    // The name on the cover does not make its records another person's.
    const signed = JSON.stringify({ ...JSON.parse(text), user: 'maren' })
    expect(await readBack('maren', signed)).toEqual({ ok: true, back: 0, photos: 0, known: 0, spoilt: 2 })
    for (const none of ['', 'null', text.slice(0, 200), '{"form":"other"}'])
      expect(await readBack('joss', none)).toMatchObject({
        ok: false,
        says: expect.stringContaining('no file'),
      })
    const newer = JSON.stringify({ ...JSON.parse(text), version: FILE_VERSION + 1 })
    expect(await readBack('joss', newer)).toMatchObject({ ok: false, says: expect.stringContaining('newer') })
    expect(await (await openStore()).count('items')).toBe(0)
  })

  test('with one damaged photo and one damaged record gives the rest, and says so', async () => {
    const db = await freshDb()
    await saveVisit(await visit(db, { note: 'second' }))
    const file = JSON.parse(await taken(db))
    file.photos[0].base64 = Buffer.from('something else').toString('base64')
    const at = file.records.findIndex((one: { typed: { note: string } }) => one.typed.note === 'second')
    file.records[at].typed = 7
    await otherPhone()
    expect(await readBack('joss', JSON.stringify(file))).toEqual({
      ok: true,
      back: 1,
      photos: 0,
      known: 0,
      spoilt: 2,
    })
  })
})

describe('a record of a newer form', () => {
  test('is refused by the server in words, and stays on the phone', async () => {
    const db = await freshDb()
    const { world: w } = world(db)
    const one = await visit(db, { note: 'from a newer page' })
    await saveVisit(one)
    const [lying] = (await listOf('joss')).visits
    if (!lying) throw new Error('nothing was saved')
    await (await openStore()).put('items', { ...lying, version: BATCH_VERSION + 1 })
    await saveVisit(await visit(db, { note: 'of today' }))
    expect(await sendAll('joss', true, w)).toMatchObject({ sent: 1, left: 1, reached: true })
    const kept = (await listOf('joss')).visits.find(({ id }) => id === one.id)
    expect(kept).toMatchObject({
      state: 'refused',
      typed: one.typed,
      why: [{ wrong: expect.stringContaining(`form ${BATCH_VERSION + 1}`) }],
    })
    expect(lines(db)).toBe(1)
  })
})

describe('a stop that was closed on the phone', () => {
  test.each([
    ['not-found', 'probed around the birch', 'search'],
    ['no-access', 'bridge closed', 'call-owner'],
  ])('as %s is closed by what is sent, with its next steps, once', async (outcome, said, step) => {
    await makeFleet()
    const { world: w } = world(rounds)
    const roundId = await roundWith(['R1'])
    const [stop] = pageOf(roundId).stops
    if (!stop) throw new Error('the round has no stop')
    const id = newId()
    const closing = { stopId: stop.id, stopOutcome: outcome, stopSaid: said, stopMadeAt: AT }
    const typed = { visitId: id, date: TODAY, ...closing, [`step:${step}`]: 'yes', stopOther: 'bring a saw' }
    const own = { id, user: 'joss', wellId: stop.wellId, label: 'R1', units: 'us' as const, savedAt: AT }
    await saveVisit({ ...own, typed: { ...typed, stopSaid: '' }, stopId: stop.id })
    await sendAll('joss', true, w)
    const [refused] = (await listOf('joss')).visits
    expect(refused).toMatchObject({ state: 'refused', why: [{ field: 'stopSaid' }] })
    expect(refused?.typed.stopOther).toBe('bring a saw')
    await saveVisit({ ...own, typed, stopId: stop.id })
    expect(await sendAll('joss', true, w)).toMatchObject({ left: 0 })
    await saveVisit({ ...own, typed, stopId: stop.id })
    expect(await sendAll('joss', true, w)).toMatchObject({ left: 0 })
    const [closed] = pageOf(roundId).stops
    expect(closed).toMatchObject({ outcome, said, visitId: id })
    expect(closed?.nextSteps.map(({ kind }) => kind)).toEqual(expect.arrayContaining([step, 'other']))
    expect(entriesOf('R1')).toBe(2)
  })
})
