import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { OUTFIT } from '@/lib/access/viewer'
import { openDb } from '@/lib/records/db'
import { migrate } from '@/lib/records/migrate'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'

export type KillFigures = {
  kills: number
  acknowledged: number
  lost: number
  halfVisits: number
  unsound: number
}

const LINES_A_VISIT = 4

/** Kills a real writing process, `kills` times at moments spread over `withinMs`, and looks each time at what is left. */
export async function killWriters(kills: number, withinMs: number): Promise<KillFigures> {
  const folder = mkdtempSync(join(tmpdir(), 'wellround-kill-'))
  const file = join(folder, 'killed.db')
  await migrate(file)
  const db = await openDb(file)
  const well = await createWell(db, OUTFIT, bareWell('K-1'), '2026-05-04T12:00:00.000Z')
  await db.close()
  if (well.kind !== 'stored') throw new Error(well.kind)
  const figures: KillFigures = { kills, acknowledged: 0, lost: 0, halfVisits: 0, unsound: 0 }
  try {
    for (let i = 0; i < kills; i += 1) {
      const said = await killedAfter(file, well.id, (i * 37) % withinMs)
      look(file, said, figures)
    }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
  return figures
}

/** Lets a writer acknowledge a visit, waits, kills it with SIGKILL; answers the visits it had acknowledged. */
function killedAfter(file: string, wellId: string, delayMs: number): Promise<string[]> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--import', 'tsx', 'tests/reliability/writer.ts', file, wellId], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    let text = ''
    let killing = false
    child.stdout.on('data', (data) => {
      text += data
      if (killing) return
      killing = true
      setTimeout(() => child.kill('SIGKILL'), delayMs)
    })
    child.once('error', reject)
    child.once('exit', (code) => {
      if (!killing) reject(new Error(`the writer ended by itself with ${code}`))
      // A visit id cut short by the kill was not fully told: it is not counted as acknowledged.
      else resolve(text.split('\n').slice(0, -1))
    })
  })
}

function look(file: string, acknowledged: readonly string[], figures: KillFigures): void {
  const db = new Database(file)
  const sound = db.pragma('integrity_check', { simple: true }) === 'ok'
  const broken = db.pragma('foreign_key_check')
  if (!sound || !Array.isArray(broken) || broken.length > 0) figures.unsound += 1
  const lines = db.prepare<[string], number>('SELECT COUNT(*) FROM "Entry" WHERE "visitId" = ?').pluck()
  for (const visitId of acknowledged) if (lines.get(visitId) !== LINES_A_VISIT) figures.lost += 1
  figures.acknowledged += acknowledged.length
  figures.halfVisits += db
    .prepare(`SELECT "visitId" FROM "Entry" GROUP BY "visitId" HAVING COUNT(*) <> ${LINES_A_VISIT}`)
    .all().length
  db.close()
}
