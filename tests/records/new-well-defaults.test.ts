import { beforeEach, expect, test } from 'vitest'
import { readDefaults, readReminders } from '@/lib/forms/defaults-form'
import { createUser } from '@/lib/records/accounts'
import type { Db } from '@/lib/records/db'
import { DEFAULTS_KEY, defaultDuties, newWellDefaults } from '@/lib/records/new-well-defaults'
import { putSetting } from '@/lib/records/settings'
import { bareWell } from '@/lib/records/well-fields'
import { createWell, wellPage } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer } from '../setup/viewers'

const AT = '2026-11-20T12:00:00.000Z'
let db: Db
beforeEach(async () => {
  db = await freshDb()
})

const form = (fields: Record<string, string>) => {
  const sent = new FormData()
  for (const [name, value] of Object.entries({ units: 'us', ...fields })) sent.set(name, value)
  return sent
}

test('a new well is given nothing until the outfit chose, and then its duties with their line in the change record', async () => {
  const bare = await createWell(db, installer, bareWell('W1'), AT)
  expect(bare.kind === 'stored' && wellPage(db, installer, bare.id)?.duties).toEqual([])
  const read = readDefaults(
    form({ 'give-bacteria-sample': '1', 'give-recovery-test': '1', 'months-recovery-test': '6' }),
  )
  if (!read.ok) throw new Error(JSON.stringify(read.state.errors))
  await putSetting(db, installer, DEFAULTS_KEY, read.value, AT)
  const made = await createWell(db, installer, bareWell('W2'), AT)
  const page = made.kind === 'stored' ? wellPage(db, installer, made.id) : null
  expect(page?.duties.map((duty) => [duty.name, duty.everyMonths])).toEqual([
    ['Bacteria sample', 12],
    ['Recovery test', 6],
  ])
  expect(page?.changes.map((change) => change.action).sort()).toEqual([
    'duty given',
    'duty given',
    'well added',
  ])
  expect(page?.standing?.duties.map((duty) => duty.name).sort()).toEqual(['Bacteria sample', 'Recovery test'])
})

test('a new account has the units of the outfit', async () => {
  await putSetting(db, installer, DEFAULTS_KEY, { ...newWellDefaults(db), units: 'metric' }, AT)
  const person = { name: 'Joss', email: 'joss@units.example', password: 'gravel sock and twine' }
  await createUser(db, installer, { ...person, role: 'technician', ownerId: null }, AT)
  expect((await db.prisma.user.findFirstOrThrow()).units).toBe('metric')
})

test('what cannot be meant is asked about, and comes back as typed', () => {
  const wrong = readDefaults(
    form({ 'give-recovery-test': '1', 'months-recovery-test': '0', closedFrom: '15 Nov' }),
  )
  expect(wrong.ok).toBe(false)
  if (wrong.ok) return
  expect(Object.keys(wrong.state.errors).sort()).toEqual(['closedTo', 'months-recovery-test'])
  expect(wrong.state.typed).toMatchObject({
    'give-recovery-test': '1',
    closedFrom: '15 Nov',
    'months-recovery-test': '0',
  })
})

test('a duty that the library has no more is passed over', async () => {
  await putSetting(
    db,
    installer,
    DEFAULTS_KEY,
    { ...newWellDefaults(db), duties: [{ key: 'gone', everyMonths: 1 }] },
    AT,
  )
  expect(defaultDuties(db)).toEqual([])
})

test.each([
  ['14, 0', '6', { leadDays: [14, 0], hour: 6, officeDigest: false }],
  ['0 30;7', '23', { leadDays: [30, 7, 0], hour: 23, officeDigest: false }],
])('reminders %s at %s are read', (leadDays, hour, value) => {
  expect(readReminders(form({ leadDays, hour }))).toMatchObject({ ok: true, value })
})

test.each([
  ['', '6', ['leadDays']],
  ['a week', '6', ['leadDays']],
  ['7, 7', '6', ['leadDays']],
  ['400', '24', ['leadDays', 'hour']],
])('reminders %s at %s are asked about', (leadDays, hour, fields) => {
  const read = readReminders(form({ leadDays, hour }))
  expect(read.ok ? [] : Object.keys(read.state.errors)).toEqual(fields)
})
