import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { migrate } from '@/lib/records/migrate'

let root: string
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'wellround-earlier-'))
})
afterEach(() => rmSync(root, { recursive: true, force: true }))

test('whoever belonged to a household still does after the step to several, with account and sessions', async () => {
  const names = readdirSync('prisma/migrations').filter((name) => name !== 'migration_lock.toml')
  const step = names.find((name) => name.endsWith('_people')) ?? ''
  expect(step).not.toBe('')
  // A program of before: the migrations that came earlier, and nothing else.
  mkdirSync(join(root, 'prisma/migrations'), { recursive: true })
  for (const name of ['migration_lock.toml', ...names.filter((each) => each < step)])
    cpSync(join('prisma/migrations', name), join(root, 'prisma/migrations', name), { recursive: true })
  cpSync('prisma/schema.prisma', join(root, 'prisma/schema.prisma'))
  cpSync('package.json', join(root, 'package.json'))
  symlinkSync(join(process.cwd(), 'node_modules'), join(root, 'node_modules'))
  const file = join(root, 'old.db')
  await migrate(file, root)

  const old = new Database(file)
  old.exec(`
    INSERT INTO "Owner" ("id","name","nameKey") VALUES ('smith','Smith','smith');
    INSERT INTO "User" ("id","name","email","createdAt","updatedAt","role","ownerId") VALUES
      ('ada','Ada','ada@old.example','2025-03-04T05:06:07.000+00:00','2025-03-04T05:06:07.000+00:00','owner','smith'),
      ('maren','Maren','maren@old.example',1741064767000,1741064767000,'installer',NULL);
    INSERT INTO "Session" ("id","expiresAt","token","updatedAt","userId") VALUES ('s','2030-01-01','t','2025-03-04','ada');
    INSERT INTO "Account" ("id","accountId","providerId","userId","updatedAt") VALUES ('a','ada','credential','ada','2025-03-04');
    INSERT INTO "Change" ("id","at","byName","action","targetKind","targetId") VALUES ('c','2025-03-04','Maren','user.create','user','ada');`)
  old.close()

  await migrate(file)
  const now = new Database(file)
  expect(now.prepare('SELECT * FROM "Membership"').all()).toEqual([
    { userId: 'ada', ownerId: 'smith', since: '2025-03-04', until: null },
  ])
  expect(now.prepare('SELECT "id" FROM "User" ORDER BY "id"').pluck().all()).toEqual(['ada', 'maren'])
  for (const table of ['Session', 'Account', 'Change'])
    expect(now.prepare(`SELECT COUNT(*) FROM "${table}"`).pluck().get(), table).toBe(1)
  expect(now.prepare('PRAGMA foreign_key_check').all()).toEqual([])
  now.close()
})
