import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { putSetting } from '@/lib/records/settings'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer } from '../setup/viewers'

const FOLDER = join('lib', 'records')
const WRITES = /INSERT INTO|UPDATE "|DELETE FROM|prisma\.\w+\.(create|update|upsert|delete)/
const TELLS = /writeChange\(|changeOfUser\(|changeOfRound\(/

/** Files that write and leave the line of the change record to somebody else, or need none; each with its reason. */
const APART: Readonly<Record<string, string>> = {
  'claim-mail.ts': 'which mail went out is a record of its own, of the program and not of a person',
  'entries.ts': 'a step of record and of imports, which write the line for the visit or the file',
  'fitted-items.ts': 'reckoned from the logbook',
  'mails-let-go.ts': 'a step of sales and of leaving a household, which write the line',
  'model-rows.ts': 'a step of the writes of wells and models, which write the line',
  'put-matters.ts': 'reckoned from the logbook',
  'register-rows.ts': 'a step of the writes of wells and duties, which write the line',
  'round-stops.ts': 'a step of the writes of rounds, which write the line',
  'sessions.ts': 'who is signed in now; accounts and passwords are told by accounts and resets',
  'standing-rows.ts': 'reckoned from register and logbook',
  'standings.ts': 'reckoned from register and logbook',
  'statements.ts': 'keeps statements ready, and runs none',
}

test('every file that changes something writes its line of the change record, or stands here with its reason', () => {
  const silent = readdirSync(FOLDER)
    .filter((name) => name.endsWith('.ts'))
    .filter((name) => {
      const source = readFileSync(join(FOLDER, name), 'utf8')
      return WRITES.test(source) && !TELLS.test(source)
    })
  expect(silent.sort()).toEqual(Object.keys(APART).sort())
})

test('every way to change something says who, when in UTC, what, and what it was before and after', async () => {
  const db = await freshDb()
  const at = '2026-11-20T12:00:00.000Z'
  await createWell(db, installer, { ...bareWell('W1'), ownerName: 'Smith' }, at)
  await putSetting(db, installer, 'outfit', { name: 'Before', contact: '' }, at)
  await putSetting(db, installer, 'outfit', { name: 'After', contact: '' }, at)
  const lines = await db.prisma.change.findMany({ orderBy: { id: 'asc' } })
  expect(lines).toHaveLength(3)
  for (const line of lines) {
    expect(line.byName).toBe('Maren')
    expect(line.at).toMatch(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}\.\d{3}Z$/)
    expect(line.action).not.toBe('')
    expect(line.targetId).not.toBe('')
  }
  expect(lines[2]).toMatchObject({
    before: '{"name":"Before","contact":""}',
    after: '{"name":"After","contact":""}',
  })
})
