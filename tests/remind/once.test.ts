import { type ChildProcess, spawn } from 'node:child_process'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { addDays } from '@/lib/domain/quantity/day'
import { type Db, openDb } from '@/lib/records/db'
import { mailingList, sendAgain, troubled } from '@/lib/records/mailings'
import { sendReminders } from '@/lib/remind/send'
import { freshDb } from '../setup/fresh-db'
import { type MailServer, mailServer } from '../setup/mail-server'
import { installer } from '../setup/viewers'
import { person, wellDue } from './outfit'

const FROM = 'office@fernhollow.example'
const FIRST_DAY = '2026-11-02'
const STARTS = 100
/** Where a process is killed: at the first word of a mail, when all of it came and no answer was given, and after the answer. */
const KILLS = ['mail', 'whole', 'answered'] as const
type Kill = (typeof KILLS)[number]

let db: Db
let post: MailServer
let child: ChildProcess | null = null
let killAt: Kill | null = null

function killNow(point: Kill): void {
  if (killAt !== point) return
  killAt = null
  child?.kill('SIGKILL')
}

beforeAll(async () => {
  db = await freshDb()
  post = await mailServer(
    {
      onMailFrom(_address, _session, done) {
        killNow('mail')
        done()
      },
    },
    async () => {
      killNow('whole')
      // The answer goes out after this turn of the loop; the kill follows it.
      setImmediate(() => setTimeout(() => killNow('answered'), 0))
    },
  )
  // Twelve households; due dates spread over the days of the test and past its end.
  for (let i = 0; i < 12; i += 1) {
    const { ownerId } = await wellDue(db, `W-${i}`, `Household ${i}`, addDays(FIRST_DAY, i * 5))
    await person(db, 'owner', ownerId)
  }
  await person(db, 'installer')
  process.env.WELLROUND_URL = 'https://wells.example'
})
afterAll(async () => {
  delete process.env.WELLROUND_URL
  await post.stop()
})

/** A start in a process of its own, killed at a point of the talk with the mail server, if it gets there. */
async function killedStart(at: string, point: Kill): Promise<boolean> {
  killAt = point
  const env = { ...process.env, WELLROUND_SMTP: post.url, WELLROUND_MAIL_FROM: FROM }
  const started = spawn(process.execPath, ['--import', 'tsx', 'tests/remind/sender.ts', db.file, at], {
    env,
    stdio: ['ignore', 'ignore', 'inherit'],
  })
  child = started
  const signal = await new Promise((done) => started.once('exit', (_code, by) => done(by)))
  child = null
  killAt = null
  return signal === 'SIGKILL'
}

/** A start in this process, over a connection of its own. */
async function start(at: string): Promise<void> {
  const own = await openDb(db.file)
  const settings = { kind: 'smtp', url: post.url, from: FROM } as const
  await sendReminders(own, { now: () => at, today: at.slice(0, 10), claim: true }, settings)
  await own.close()
}

test(`each reminder goes out once over ${STARTS} starts, with processes killed between the steps`, async () => {
  let killed = 0
  for (let i = 0; i < STARTS; i += 1) {
    const day = addDays(FIRST_DAY, Math.floor(i / 2))
    const point = i % 8 === 0 ? KILLS[(i / 8) % KILLS.length] : undefined
    if (point) killed += (await killedStart(`${day}T07:00:00.000Z`, point)) ? 1 : 0
    else await start(`${day}T07:00:00.000Z`)
  }
  await start('2026-12-31T07:00:00.000Z')
  expect(killed).toBeGreaterThanOrEqual(6)

  const mails = mailingList(db, installer, null, 1000).rows
  const ids = post.received.map(({ messageId }) => messageId)
  // Nothing was delivered twice, whatever happened in between.
  expect(new Set(ids).size).toBe(ids.length)
  // Every reminder of every turn and lead is in one mail.
  const told = db.sqlite
    .prepare(
      'SELECT COUNT(*) FROM "Reminder" WHERE "lead" = ? AND "userId" IN (SELECT "id" FROM "User" WHERE "role" = \'owner\')',
    )
    .pluck()
  // The first household falls due on the first day: it is told once, by the shorter lead.
  expect([told.get(14), told.get(0)]).toEqual([11, 12])
  const lost = db.sqlite.prepare('SELECT COUNT(*) FROM "Reminder" WHERE "mailingId" IS NULL').pluck().get()
  expect(lost).toBe(0)
  // A mail was delivered, or it stands before the office as one of which nobody knows: none is lost in silence.
  const open = troubled(db, installer)
  expect(mails.every(({ state }) => state === 'sent' || state === 'unsure')).toBe(true)
  expect(open.every(({ state }) => state === 'unsure')).toBe(true)
  expect(ids.length).toBe(mails.length)
  expect(mails.filter(({ state }) => state === 'sent').length + open.length).toBe(mails.length)

  // Sent again by a person's hand, an unsure mail carries the Message-ID it had: a reader's program sees a repeat.
  const [unsure] = open
  if (!unsure) throw new Error('no kill fell between handing over and noting it')
  await sendAgain(db, installer, unsure.id, '2026-12-31T08:00:00.000Z')
  await start('2026-12-31T08:00:00.000Z')
  const after = post.received.map(({ messageId }) => messageId)
  expect(after.length).toBe(ids.length + 1)
  expect(ids).toContain(after.at(-1))
})

test('of two that send at once one does, and the other leaves it alone', async () => {
  const { ownerId } = await wellDue(db, 'W-two', 'Household two', '2027-01-02')
  await person(db, 'owner', ownerId)
  const before = post.received.length
  const settings = { kind: 'smtp', url: post.url, from: FROM } as const
  const clock = { now: () => '2027-01-02T07:00:00.000Z', today: '2027-01-02', claim: true }
  const other = await openDb(db.file)
  const outcomes = await Promise.all([
    sendReminders(db, clock, settings),
    sendReminders(other, clock, settings),
  ])
  await other.close()
  expect(outcomes.filter((outcome) => outcome === null)).toHaveLength(1)
  // The household and the installer, once each.
  expect(post.received.length).toBe(before + 2)
})
