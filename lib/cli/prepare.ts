/** Makes the database ready for serving: newest schema, demo fleet where it is empty, standings of this edition. */
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { loadDemo } from '@/seed/index'
import { nameDemoOutfit } from '@/seed/outfit'
import { makeDemoSignIns } from '@/seed/sign-ins'
import { OUTFIT } from '../access/viewer'
import { now, today } from '../clock'
import { hasUsers } from '../records/accounts'
import { sweepAttachments } from '../records/attachments'
import type { Db } from '../records/db'
import { migrate } from '../records/migrate'
import { databaseFile, dataFolder, getDb } from '../records/open'
import { rebuild } from '../records/rebuild'
import { checkPlace, saysRoot, UnsafeSetup } from '../records/soundness'
import { hasWells } from '../records/well-list'

try {
  mkdirSync(dataFolder(), { recursive: true, mode: 0o700 })
  await prepare()
} catch (error) {
  if (!(error instanceof UnsafeSetup)) throw error
  console.error(`\n${error.message}`)
  process.exitCode = 1
}

async function prepare(): Promise<void> {
  const file = databaseFile()
  checkPlace(file)
  const root = saysRoot(process.getuid?.())
  if (root !== null) console.error(`· ${root}`)
  const applied = await migrate(file)
  if (applied.length > 0) console.error(`· Database brought up to date (${applied.join(', ')})`)
  const db = await getDb()
  try {
    const empty = !hasWells(db, OUTFIT) && !(await hasUsers(db))
    if (empty && process.env.WELLROUND_DEMO !== 'off') await loadFleet(db)
    const swept = await sweepAttachments(db, Date.parse(now()))
    if (swept > 0) console.error(`· ${swept} files of attachments that were cut short are removed`)
    const rebuilt = await rebuild(db, 'stale')
    if (rebuilt > 0) console.error(`· ${rebuilt} wells reckoned anew for this version`)
  } finally {
    await db.close()
  }
}

async function loadFleet(db: Db): Promise<void> {
  console.error('· The database is empty: loading the demo fleet …')
  const from = performance.now()
  const { wells, entries } = await loadDemo(db, now(), today())
  await nameDemoOutfit(db, now())
  const people = await makeDemoSignIns(db, now())
  // For the start command to show, and readable by whoever holds the data folder only.
  writeFileSync(join(dataFolder(), 'demo-sign-ins.json'), JSON.stringify(people, null, 2), { mode: 0o600 })
  const seconds = ((performance.now() - from) / 1000).toFixed(1)
  console.error(`  ${wells} wells and ${entries} entries in ${seconds} s`)
}
