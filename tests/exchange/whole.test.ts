import { createHash } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { strFromU8, unzipSync } from 'fflate'
import { afterAll, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import { wholeExport } from '@/lib/exchange/whole'
import { attach } from '@/lib/records/attachments'
import type { Db } from '@/lib/records/db'
import { FileStore } from '@/lib/records/file-store'
import { newId } from '@/lib/records/ids'
import { record } from '@/lib/records/record'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { rowsOfTable, tablesTaken, WHOLE_TABLES } from '@/lib/records/whole-tables'
import { freshDb } from '../setup/fresh-db'
import { PDF } from '../setup/hostile-files'
import { installer, owner, technician } from '../setup/viewers'

const AT = '2026-11-20T12:00:00.000Z'
const folders: string[] = []
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true })
})

/** A well with a line of the outfit, one of its household under a typed name, and a document. */
async function outfit() {
  const db = await freshDb()
  const folder = mkdtempSync(join(tmpdir(), 'wellround-whole-'))
  folders.push(folder)
  const files = new FileStore(join(folder, 'files'))
  const well = await createWell(db, installer, { ...bareWell('A-1'), ownerName: 'Orla Finch' }, AT)
  if (well.kind !== 'stored') throw new Error(well.kind)
  const line = (text: string, byName: string) => ({
    id: newId(),
    wellId: well.id,
    visitId: newId(),
    occurredOn: '2026-11-19',
    occurredTime: null,
    byName,
    supersedes: null,
    withdraws: null,
    payload: {
      kind: 'sample' as const,
      sampledAt: '2026-11-19',
      lab: text,
      results: [{ analyte: 'E. coli', result: 'Absent' }],
    },
  })
  const first = line('Sorrel Lab', 'Joss')
  await record(db, technician, [first], AT, '2026-11-20')
  await attach(db, technician, first.id, { name: 'sheet.pdf', bytes: PDF }, AT, files)
  const ownerId = String(db.sqlite.prepare('SELECT "ownerId" FROM "Well"').pluck().get())
  await record(db, owner(ownerId), [line('Heron Lab', 'Typed Oldname')], AT, '2026-11-20')
  return { db, files, folder: join(folder, 'files') }
}

async function bytesOf(pieces: AsyncIterable<Uint8Array>): Promise<Record<string, Uint8Array>> {
  const all: Uint8Array[] = []
  for await (const piece of pieces) all.push(piece)
  return unzipSync(Buffer.concat(all))
}

type Manifest = {
  files: { path: string; bytes: number; sha256: string; rows?: number }[]
  tablesLeftOut: { name: string; why: string }[]
  troubles: { attachment: string; why: string }[]
}
const manifestOf = (found: Record<string, Uint8Array>) =>
  JSON.parse(strFromU8(found['manifest.json'] ?? new Uint8Array())) as Manifest
const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')
const count = (db: Db, table: string) => db.sqlite.prepare(`SELECT COUNT(*) FROM "${table}"`).pluck().get()

describe('what leaves is decided for every table', () => {
  const models = [...readFileSync('prisma/schema.prisma', 'utf8').matchAll(/^model (\w+) \{([^}]*)\}/gm)]

  test('of the schema, and of no other', () => {
    expect(models.length).toBeGreaterThan(30)
    expect(Object.keys(WHOLE_TABLES).sort()).toEqual(models.map(([, name]) => name).sort())
  })

  test('and a column that sounds like a secret stays here', () => {
    const taken = new Map(tablesTaken().map((table) => [table.name, table]))
    const secret = models.flatMap(([, name = '', body = '']) =>
      [...body.matchAll(/^ {2}(\w+)/gm)]
        .map(([, column = '']) => column)
        .filter((column) => /hash|secret|token|password|credential|publicKey/i.test(column))
        .map((column) => ({ name, column })),
    )
    expect(secret.length).toBeGreaterThan(8)
    const leaving = secret.filter(({ name, column }) => taken.has(name) && !taken.get(name)?.without[column])
    expect(leaving).toEqual([])
  })

  test('every column of every table taken comes out with what it holds, and none that is left out', async () => {
    const db = await freshDb()
    db.sqlite.pragma('foreign_keys = OFF')
    for (const { name, without } of tablesTaken()) {
      const columns = db.sqlite.pragma(`table_info("${name}")`) as { name: string; type: string }[]
      const values = columns.map((column) => (column.type === 'TEXT' ? `canary ${name} ${column.name}` : 1))
      const row = Object.fromEntries(columns.map((column, i) => [column.name, values[i]]))
      db.sqlite
        .prepare(
          `INSERT INTO "${name}" (${columns.map((c) => `"${c.name}"`).join()}) VALUES (${columns.map(() => '?').join()})`,
        )
        .run(...values)
      for (const column of Object.keys(without)) {
        expect(row[column], `${name}.${column} is a column`).toBeDefined()
        delete row[column]
      }
      expect([...rowsOfTable(db, installer, { name, without })].flat()).toContainEqual(row)
    }
  })
})

describe('the archive', () => {
  test('holds every row and every file, each with its size and SHA-256 in the list', async () => {
    const { db, files } = await outfit()
    const found = await bytesOf(wholeExport(db, installer, AT, files))
    const { files: listed, troubles, tablesLeftOut } = manifestOf(found)
    expect(troubles).toEqual([])
    expect(Object.keys(found).sort()).toEqual([...listed.map(({ path }) => path), 'manifest.json'].sort())
    for (const { path, bytes, sha256: said } of listed) {
      expect(found[path]?.length, path).toBe(bytes)
      expect(sha256(found[path] ?? new Uint8Array()), path).toBe(said)
    }
    for (const { name } of tablesTaken()) {
      const path = `tables/${name}.jsonl`
      const rows = strFromU8(found[path] ?? new Uint8Array())
        .split('\n')
        .slice(0, -1)
      expect(rows, path).toHaveLength(Number(count(db, name)))
      expect(listed.find((file) => file.path === path)?.rows, path).toBe(rows.length)
    }
    expect(count(db, 'Entry')).toBe(2)
    const document = listed.find(({ path }) => path.startsWith('files/'))
    expect(found[document?.path ?? '']).toEqual(new Uint8Array(PDF))
    expect(strFromU8(found['plain/samples.csv'] ?? new Uint8Array())).toContain('Sorrel Lab')
    expect(tablesLeftOut.map(({ name }) => name)).toContain('Account')
  })

  test('names the author of a household’s line as pages do, and not by what was typed once', async () => {
    const { db, files } = await outfit()
    // A line of before names were kept apart from lines.
    db.sqlite
      .prepare(
        `INSERT INTO "Entry" ("id","wellId","kind","occurredOn","payload","visitId","byName","source","recordedAt")
         SELECT ?,"wellId","kind",'2020-01-01',"payload","visitId",'Typed Oldname',"source","recordedAt" FROM "Entry"
         WHERE "source" = 'owner'`,
      )
      .run(newId())
    expect(count(db, 'Entry')).toBe(3)
    const found = await bytesOf(wholeExport(db, installer, AT, files))
    const texts = Object.entries(found).map(([path, bytes]) => [path, strFromU8(bytes)] as const)
    expect(texts.filter(([, text]) => text.includes('Typed Oldname')).map(([path]) => path)).toEqual([])
    const named = texts.filter(([, text]) => text.includes('a former owner')).map(([path]) => path)
    expect(named).toEqual(expect.arrayContaining(['tables/Entry.jsonl', expect.stringMatching(/^plain/)]))
  })

  test('is of one instant: what is written while it goes out is not in it', async () => {
    const { db, files } = await outfit()
    const pieces = wholeExport(db, installer, AT, files)
    const first = await pieces.next()
    await createWell(db, installer, { ...bareWell('B-2'), ownerName: 'Latecomer' }, AT)
    async function* all() {
      if (first.value) yield first.value
      yield* pieces
    }
    const found = await bytesOf(all())
    const late = Object.values(found).filter((bytes) => /Latecomer|B-2/.test(strFromU8(bytes)))
    expect(late).toEqual([])
    expect(count(db, 'Well')).toBe(2)
  })

  test('says which file is gone', async () => {
    const { db, files, folder } = await outfit()
    rmSync(folder, { recursive: true })
    const { troubles, files: listed } = manifestOf(await bytesOf(wholeExport(db, installer, AT, files)))
    expect(troubles).toHaveLength(1)
    expect(troubles[0]?.why).toContain('gone')
    expect(listed.filter(({ path }) => path.startsWith('files/'))).toEqual([])
  })

  test('says which file is not what was stored', async () => {
    const { db, files } = await outfit()
    db.sqlite.prepare('UPDATE "Attachment" SET "sha256" = ?').run('0'.repeat(64))
    const { troubles } = manifestOf(await bytesOf(wholeExport(db, installer, AT, files)))
    expect(troubles[0]?.why).toContain('not what was stored')
  })

  test('is for installers alone', async () => {
    const { db, files } = await outfit()
    for (const viewer of [technician, owner('x')])
      await expect(wholeExport(db, viewer, AT, files).next()).rejects.toThrow(NotAllowed)
  })
})
