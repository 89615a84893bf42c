import { spawnSync } from 'node:child_process'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { createFirstInstaller } from '@/lib/records/accounts'
import { type Db, openDb } from '@/lib/records/db'
import { migrate } from '@/lib/records/migrate'
import { signIn } from '@/lib/records/sessions'

const AT = '2026-03-27T09:00:00.000Z'
// The command starts a Node of its own each time, and each password costs a hash on purpose.
vi.setConfig({ testTimeout: 120_000 })

let folder: string
let db: Db

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'password-'))
  await migrate(join(folder, 'wellround.db'))
  db = await openDb(join(folder, 'wellround.db'))
})

afterEach(async () => {
  await db.close()
  await rm(folder, { recursive: true })
})

test('who holds the data folder can give the last installer a new password, and let them in again', async () => {
  const email = 'ada@forgot.example'
  const forgotten = 'gravel sock and twine'
  await createFirstInstaller(db, { name: 'Ada', email, password: forgotten }, AT)
  await db.prisma.user.updateMany({ data: { disabled: true } })

  const { status, stdout } = command('Ada@Forgot.example')
  expect(status).toBe(0)
  const password = /^ {2}(\S+)$/m.exec(stdout)?.[1] ?? ''
  expect(password).toMatch(/^([a-z]+-){6}[a-z]+$/)
  expect(await signIn(db, email, forgotten, new Headers())).toEqual({ kind: 'no-match' })
  expect(await signIn(db, email, password, new Headers())).toMatchObject({ kind: 'signed-in' })
  const actions = (await db.prisma.change.findMany({ orderBy: { id: 'asc' } })).map((change) => change.action)
  expect(actions).toEqual(['user.create', 'user.reset-password', 'user.enable'])
})

test('an address without an account is named, and nothing changes', async () => {
  const { status, stderr } = command('nobody@forgot.example')
  expect(status).toBe(1)
  expect(stderr).toContain('There is no account with the email address nobody@forgot.example.')
  expect(await db.prisma.change.count()).toBe(0)
})

/** The command as npm runs it, on the data folder of a test. */
function command(email: string) {
  return spawnSync(process.execPath, ['--import', 'tsx', 'lib/cli/password.ts', email], {
    encoding: 'utf8',
    env: { ...process.env, WELLROUND_DATA: folder },
  })
}
