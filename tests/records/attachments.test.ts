import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, utimesSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, describe, expect, test } from 'vitest'
import { attach, attachmentsOf, openAttachment, sweepAttachments } from '@/lib/records/attachments'
import type { Db } from '@/lib/records/db'
import { DISK, type Disk, FileStore } from '@/lib/records/file-store'
import { newId } from '@/lib/records/ids'
import { record } from '@/lib/records/record'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { harmlessAfter, PDF, photo, refusedFiles, vastPng } from '../setup/hostile-files'
import { installer, owner, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const LATER = Date.now() + 60 * 60 * 1000
const folders: string[] = []
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true })
})

async function setting(disk: Disk = DISK) {
  const db = await freshDb()
  const folder = mkdtempSync(join(tmpdir(), 'wellround-files-'))
  folders.push(folder)
  const files = new FileStore(join(folder, 'files'), disk)
  const well = await createWell(db, installer, { ...bareWell('A-1'), ownerName: 'Orla Finch' }, AT)
  if (well.kind !== 'stored') throw new Error(well.kind)
  const entryId = newId()
  const draft = {
    id: entryId,
    wellId: well.id,
    visitId: newId(),
    occurredOn: TODAY,
    occurredTime: null,
    byName: 'Joss',
    supersedes: null,
    withdraws: null,
    payload: { kind: 'sample', sampledAt: TODAY, results: [{ analyte: 'E. coli', result: 'Absent' }] },
  }
  await record(db, technician, [draft], AT, TODAY)
  const ownerId = String(db.sqlite.prepare('SELECT "ownerId" FROM "Well"').pluck().get())
  const add = (name: string, bytes: Uint8Array, viewer = technician) =>
    attach(db, viewer, entryId, { name, bytes }, AT, files)
  return { db, files, folder: join(folder, 'files'), wellId: well.id, entryId, draft, ownerId, add }
}

const records = (db: Db) => db.sqlite.prepare('SELECT "stored" FROM "Attachment"').pluck().all().map(String)
const lying = (folder: string) => (existsSync(folder) ? readdirSync(folder) : [])

describe('a file that is attached', () => {
  test('as a photo is drawn anew: smaller than a wall, upright, without place, device or what hung behind it', async () => {
    const { db, files, add } = await setting()
    const sideways = await sharp({ create: { width: 4000, height: 20, channels: 3, background: '#fff' } })
      .withMetadata({ orientation: 6 })
      .jpeg()
      .toBuffer()
    const outcome = await add('IMG_2041.HEIC.jpeg', sideways)
    if (outcome.kind !== 'stored') throw new Error(outcome.kind)
    expect(outcome.row).toMatchObject({
      name: 'IMG_2041.HEIC.jpg',
      type: 'image/jpeg',
      byName: 'Joss',
      at: AT,
    })
    const found = await openAttachment(db, technician, outcome.row.id, files)
    const { width, height, exif, orientation } = await sharp(found?.bytes).metadata()
    expect({ width, height, exif, orientation }).toEqual({
      width: 15,
      height: 3000,
      exif: undefined,
      orientation: undefined,
    })
  })

  test('as a PDF is kept byte for byte, once however often it is sent', async () => {
    const { db, files, folder, entryId, add } = await setting()
    const outcome = await add('sheet.pdf', PDF)
    if (outcome.kind !== 'stored') throw new Error(outcome.kind)
    expect((await openAttachment(db, installer, outcome.row.id, files))?.bytes.equals(PDF)).toBe(true)
    expect((await add('again.pdf', PDF)).kind).toBe('already')
    expect(attachmentsOf(db, installer, entryId)).toHaveLength(1)
    expect(lying(folder)).toEqual(records(db))
    const change = db.sqlite
      .prepare(`SELECT "after" FROM "Change" WHERE "action" = 'file attached'`)
      .pluck()
      .all()
    expect(change).toHaveLength(1)
  })

  test('lies under a name of chance that nobody typed', async () => {
    const { folder, add } = await setting()
    await add('../../passwords.pdf', PDF)
    expect(lying(folder)).toEqual([expect.stringMatching(/^[0-9a-f]{32}$/)])
    const store = new FileStore(folder)
    expect(() => store.read('../wellround.db')).toThrow('not the name of a stored file')
  })
})

describe('hostile files', () => {
  test('in the format HEIC are refused with the word for what to set on the phone', async () => {
    const { add } = await setting()
    // The head of such a file: its length, then "ftyp" and the brand.
    for (const brand of ['heic', 'mif1']) {
      const bytes = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from(`ftyp${brand}`), Buffer.alloc(64)])
      const outcome = await add('IMG_2041.HEIC', bytes)
      expect(outcome).toMatchObject({ kind: 'refused', message: expect.stringMatching(/HEIC.*to JPEG/) })
    }
    const film = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypisom'), Buffer.alloc(64)])
    expect(await add('film.mp4', film)).toMatchObject({
      kind: 'refused',
      message: expect.not.stringContaining('HEIC'),
    })
  })

  test('are refused with a sentence, and leave neither file nor record', async () => {
    const { db, folder, add } = await setting()
    const refused = await refusedFiles()
    expect(refused.length).toBeGreaterThanOrEqual(12)
    for (const [what, name, bytes] of refused) {
      const outcome = await add(name, bytes)
      expect(outcome, what).toMatchObject({ kind: 'refused', message: expect.stringMatching(/\. .+\.$/) })
    }
    expect(records(db)).toEqual([])
    expect(lying(folder)).toEqual([])
  })

  test('that pretend nothing are made harmless', async () => {
    const { db, files, add } = await setting()
    for (const [what, name, bytes, gone] of await harmlessAfter()) {
      const outcome = await add(name, bytes)
      // The same picture without what was hidden in it is the same picture.
      expect(['stored', 'already'], what).toContain(outcome.kind)
      if (outcome.kind !== 'stored' && outcome.kind !== 'already') continue
      const found = await openAttachment(db, technician, outcome.row.id, files)
      expect(bytes.includes(gone) || name.includes(gone), what).toBe(true)
      expect(found?.bytes.includes(gone), what).toBe(false)
      expect(outcome.row.name, what).not.toMatch(/[/\\\p{C}]|\.\./u)
    }
  })

  test('a picture that unpacks to a thousand times its size costs no memory to speak of', async () => {
    const { add } = await setting()
    const bomb = vastPng(30_000)
    expect(bomb.length).toBeLessThan(2000)
    const before = process.memoryUsage().rss
    expect((await add('bomb.png', bomb)).kind).toBe('refused')
    expect(process.memoryUsage().rss - before).toBeLessThan(64 * 1024 * 1024)
  })
})

describe('who may', () => {
  test('the household of the well and the outfit; for others there is no such line and no such file', async () => {
    const { db, files, entryId, ownerId, add } = await setting()
    const stored = await add('sheet.pdf', PDF, owner(ownerId))
    if (stored.kind !== 'stored') throw new Error(stored.kind)
    for (const viewer of [installer, technician, owner(ownerId)]) {
      expect((await openAttachment(db, viewer, stored.row.id, files))?.row.id).toBe(stored.row.id)
      expect(attachmentsOf(db, viewer, entryId)).toHaveLength(1)
    }
    for (const viewer of [owner('somebody-else'), owner(null)]) {
      expect(await openAttachment(db, viewer, stored.row.id, files)).toBeNull()
      expect(attachmentsOf(db, viewer, entryId)).toEqual([])
      expect((await add('mine.jpg', await photo(), viewer)).kind).toBe('no-such-entry')
    }
    expect(await openAttachment(db, installer, newId(), files)).toBeNull()
    expect((await attach(db, installer, newId(), { name: 'a.pdf', bytes: PDF }, AT, files)).kind).toBe(
      'no-such-entry',
    )
  })

  test('a line that is withdrawn keeps its file, and a well taken out of the register hides it', async () => {
    const { db, files, folder, wellId, entryId, draft, add } = await setting()
    const stored = await add('sheet.pdf', PDF)
    if (stored.kind !== 'stored') throw new Error(stored.kind)
    await record(
      db,
      technician,
      [
        {
          ...draft,
          id: newId(),
          withdraws: entryId,
          payload: { kind: 'withdrawal', reason: 'another well' },
        },
      ],
      AT,
      TODAY,
    )
    expect(attachmentsOf(db, installer, entryId)).toHaveLength(1)
    db.sqlite.prepare('UPDATE "Well" SET "struck" = 1 WHERE "id" = ?').run(wellId)
    expect(await openAttachment(db, installer, stored.row.id, files)).toBeNull()
    expect(await sweepAttachments(db, LATER, files)).toBe(0)
    expect(lying(folder)).toEqual(records(db))
  })
})

/** A disk on which the n-th step fails; from then on it works, or stays broken. */
function failing(step: number, forGood: boolean): { disk: Disk; steps: () => number } {
  let count = 0
  const guarded =
    <A extends unknown[], R>(work: (...args: A) => Promise<R>) =>
    async (...args: A): Promise<R> => {
      count += 1
      if (count === step || (forGood && count > step)) throw new Error(`disk fails at step ${step}`)
      return work(...args)
    }
  const disk: Disk = {
    makeFolder: guarded(DISK.makeFolder),
    writeWhole: guarded(DISK.writeWhole),
    rename: guarded(DISK.rename),
    settleFolder: guarded(DISK.settleFolder),
    read: DISK.read,
    remove: guarded(DISK.remove),
    list: DISK.list,
    writtenAt: DISK.writtenAt,
  }
  return { disk, steps: () => count }
}

describe('when writing fails', () => {
  test.each([false, true])(
    'at any step (broken for good: %s), no record lacks its file, and nothing is left after the sweep',
    async (forGood) => {
      let step = 1
      for (; ; step += 1) {
        const { disk } = failing(step, forGood)
        const { db, folder, add } = await setting(disk)
        const outcome = await add('sheet.pdf', PDF).catch((error: unknown) => error)
        for (const stored of records(db)) expect(lying(folder)).toContain(stored)
        const sound = new FileStore(folder)
        await sweepAttachments(db, LATER, sound)
        expect(lying(folder)).toEqual(records(db))
        if (!(outcome instanceof Error)) break
        expect(outcome.message).toBe(`disk fails at step ${step}`)
        expect(records(db)).toEqual([])
      }
      expect(step).toBe(5)
    },
  )

  test('in the database, the file goes again; where it cannot go, the sweep takes it', async () => {
    for (const breakAt of [Number.POSITIVE_INFINITY, 5]) {
      const { disk } = failing(breakAt, true)
      const { db, folder, add } = await setting(disk)
      db.sqlite.exec(
        `CREATE TRIGGER "full" BEFORE INSERT ON "Change" WHEN NEW."action" = 'file attached' BEGIN SELECT RAISE(ABORT, 'disk full'); END`,
      )
      await expect(add('sheet.pdf', PDF)).rejects.toThrow('disk full')
      expect(records(db)).toEqual([])
      expect(lying(folder)).toHaveLength(breakAt === 5 ? 1 : 0)
      expect(await sweepAttachments(db, LATER, new FileStore(folder))).toBe(breakAt === 5 ? 1 : 0)
      expect(lying(folder)).toEqual([])
    }
  })

  test('the sweep leaves alone what may still be on its way to a record', async () => {
    const { db, folder, add } = await setting()
    await add('sheet.pdf', PDF)
    const sound = new FileStore(folder)
    const young = await sound.put(PDF)
    expect(await sweepAttachments(db, Date.now(), sound)).toBe(0)
    utimesSync(join(folder, young), new Date(0), new Date(0))
    expect(await sweepAttachments(db, Date.now(), sound)).toBe(1)
    expect(lying(folder)).toEqual(records(db))
  })

  test('a file that is gone or was changed is told as damage, never as absent', async () => {
    const { db, files, folder, add } = await setting()
    const stored = await add('sheet.pdf', PDF)
    if (stored.kind !== 'stored') throw new Error(stored.kind)
    const path = join(folder, stored.row.stored)
    const kept = readFileSync(path)
    rmSync(path)
    await expect(openAttachment(db, installer, stored.row.id, files)).rejects.toThrow('ENOENT')
    await DISK.writeWhole(path, Buffer.concat([kept, Buffer.from(' ')]))
    await expect(openAttachment(db, installer, stored.row.id, files)).rejects.toThrow('not the one')
  })
})
