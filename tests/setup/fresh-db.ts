import { copyFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll } from 'vitest'
import { type Db, openDb } from '@/lib/records/db'

let folder: string | null = null
const open: Db[] = []
let count = 0

/** A fresh, migrated database file of its own, closed and removed when the test file ends. */
export async function freshDb(): Promise<Db> {
  folder ??= mkdtempSync(join(tmpdir(), 'wellround-test-'))
  const template = process.env.WELLROUND_TEST_TEMPLATE
  if (!template) throw new Error('the run has no migrated database: see tests/setup/migrated.ts')
  count += 1
  const file = join(folder, `fresh-${count}.db`)
  copyFileSync(template, file)
  const db = await openDb(file)
  open.push(db)
  return db
}

afterAll(async () => {
  for (const db of open.splice(0)) await db.close()
  if (folder) rmSync(folder, { recursive: true, force: true })
  folder = null
})
