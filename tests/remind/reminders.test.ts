import fc from 'fast-check'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { hourIn, todayIn } from '@/lib/clock'
import { writeOwnerLetter } from '@/lib/domain/logbook/digest'
import { addDays, daysBetween } from '@/lib/domain/quantity/day'
import { REMINDER_DEFAULTS } from '@/lib/domain/upkeep/reminder-settings'
import { reachedLead, reminderKey } from '@/lib/domain/upkeep/reminders'
import type { Db } from '@/lib/records/db'
import { feedEvents } from '@/lib/records/feed-events'
import { newId } from '@/lib/records/ids'
import { personOfQuietToken, quietByToken, switchMail } from '@/lib/records/mail-choice'
import { mailingList, sendAgain } from '@/lib/records/mailings'
import { endMembership } from '@/lib/records/memberships'
import { record } from '@/lib/records/record'
import { sellWell } from '@/lib/records/sale'
import { sendReminders } from '@/lib/remind/send'
import { grade } from '../domain/water/reading-grade'
import { freshDb } from '../setup/fresh-db'
import { type MailServer, mailServer } from '../setup/mail-server'
import { installer, owner } from '../setup/viewers'
import { AT, person, wellDue } from './outfit'

const FROM = 'office@fernhollow.example'
let db: Db
let post: MailServer
beforeAll(() => {
  process.env.WELLROUND_URL = 'https://wells.example'
})
afterAll(() => {
  delete process.env.WELLROUND_URL
})
beforeEach(async () => {
  db = await freshDb()
  post = await mailServer()
})
afterEach(() => post.stop())

const send = (today: string, url = post.url, at = `${today}T07:00:00.000Z`) =>
  sendReminders(db, { now: () => at, today, claim: true }, { kind: 'smtp', url, from: FROM })
const addressees = () => post.received.map(({ to }) => (Array.isArray(to) ? '' : (to?.text ?? '')))
const mailOf = (userId: string) =>
  post.received.find(({ to }) => !Array.isArray(to) && to?.text.includes(userId))

describe('the day on which a reminder goes out', () => {
  test('is the due day less the lead, and nothing is told twice: against plain counting of days', () => {
    const day = fc.integer({ min: 0, max: 9000 }).map((n) => addDays('2020-02-27', n))
    const leads = fc.uniqueArray(fc.integer({ min: 0, max: 60 }), { minLength: 1, maxLength: 4 })
    fc.assert(
      fc.property(day, leads, (dueOn, leadDays) => {
        const due = Date.parse(`${dueOn}T00:00:00Z`) / 86_400_000
        const longest = Math.max(...leadDays)
        for (let early = longest + 2; early >= -3; early -= 1) {
          const today = new Date((due - early) * 86_400_000).toISOString().slice(0, 10)
          const expected = leadDays.filter((lead) => early <= lead).sort((a, b) => a - b)[0] ?? null
          expect(reachedLead(dueOn, today, leadDays)).toBe(expected)
        }
      }),
    )
  })

  // Both changes of the clock in New York (2026-03-08, 2026-11-01), the end of February, the end of a year; and east of 180°.
  test.each([
    ['UTC', '2026-03-01'],
    ['UTC', '2028-02-29'],
    ['America/New_York', '2026-03-08'],
    ['America/New_York', '2026-11-01'],
    ['America/New_York', '2026-03-31'],
    ['Pacific/Tongatapu', '2027-01-01'],
    ['Pacific/Tongatapu', '2026-02-28'],
  ])('begins at midnight in %s, on %s', (zone, sendOn) => {
    const dueOn = addDays(sendOn, 14)
    const noon = Date.parse(`${sendOn}T12:00:00Z`)
    const told = []
    for (let ms = noon - 2 * 86_400_000; ms < noon + 2 * 86_400_000; ms += 30 * 60_000) {
      const today = todayIn(zone, ms)
      if (reachedLead(dueOn, today, [14]) === 14) told.push({ ms, today, hour: hourIn(zone, ms) })
    }
    expect(told[0]).toMatchObject({ today: sendOn, hour: 0 })
    // 23:30 of the day before is not yet that day.
    expect(todayIn(zone, (told[0]?.ms ?? 0) - 30 * 60_000)).toBe(addDays(sendOn, -1))
    expect(daysBetween(sendOn, dueOn)).toBe(14)
  })

  test('a date that moves within a turn is the same reminder; the next turn is another', () => {
    const turn = { itemId: 'd', lastDoneOn: '2026-01-05', dueOn: '2026-12-01', ofDuty: true }
    expect(reminderKey('u', { ...turn, dueOn: '2026-12-09' }, 14)).toBe(reminderKey('u', turn, 14))
    expect(reminderKey('u', { ...turn, lastDoneOn: '2026-12-03' }, 14)).not.toBe(reminderKey('u', turn, 14))
    expect(reminderKey('u', turn, 0)).not.toBe(reminderKey('u', turn, 14))
    expect(reminderKey('v', turn, 14)).not.toBe(reminderKey('u', turn, 14))
    // A test after a second flood, of a well that was never tested, is another thing.
    const flood = { ...turn, lastDoneOn: null, ofDuty: false }
    expect(reminderKey('u', { ...flood, dueOn: '2027-05-01' }, 0)).not.toBe(reminderKey('u', flood, 0))
  })

  test('a server that stood still for three weeks tells once, and not once for each lead it missed', async () => {
    const { ownerId } = await wellDue(db, 'A', 'Finch', '2026-12-01')
    await person(db, 'owner', ownerId)
    await send('2026-11-10')
    await send('2026-12-04')
    await send('2026-12-05')
    expect(post.received).toHaveLength(1)
    expect(post.received[0]?.text).toMatch(/was due on Dec 1, 2026/)
  })
})

describe('who gets a mail', () => {
  test('a household its own wells and nobody else’s; the office all', async () => {
    const a = await wellDue(db, 'Alder', 'Finch', '2026-11-15')
    const b = await wellDue(db, 'Birch', 'Okonjo', '2026-11-15')
    const [first, both, office] = [
      await person(db, 'owner', a.ownerId),
      await person(db, 'owner', a.ownerId, b.ownerId),
      await person(db, 'installer'),
    ]
    await person(db, 'owner')
    await person(db, 'technician')
    await send('2026-11-10')
    expect(post.received).toHaveLength(3)
    const own = mailOf(first)?.text ?? ''
    expect(own).toContain('Alder spring')
    expect(own).not.toMatch(/Birch|Okonjo/)
    expect(mailOf(both)?.text).toMatch(/Alder spring[\s\S]*Birch spring/)
    expect(mailOf(office)?.text).toMatch(/Alder spring, Finch[\s\S]*Birch spring, Okonjo/)
  })

  test('nothing of retired wells and duties, of wells taken out, to people shut out or without the setting', async () => {
    const wells = []
    for (const [i, name] of ['Retired', 'Struck', 'Plain'].entries())
      wells.push(await wellDue(db, name, `H${i}`, '2026-11-15'))
    for (const { ownerId } of wells) await person(db, 'owner', ownerId)
    const out = await person(db, 'owner', wells[2]?.ownerId ?? '')
    await person(db, 'installer')
    await db.prisma.well.update({ where: { id: wells[0]?.wellId ?? '' }, data: { retiredOn: '2026-11-01' } })
    await db.prisma.well.update({ where: { id: wells[1]?.wellId ?? '' }, data: { struck: true } })
    await db.prisma.user.update({ where: { id: out }, data: { disabled: true } })
    await db.prisma.setting.create({
      data: { key: 'reminders', value: JSON.stringify({ ...REMINDER_DEFAULTS, officeDigest: false }) },
    })
    await send('2026-11-10')
    expect(post.received).toHaveLength(1)
    expect(post.received[0]?.text).toContain('Plain spring')
  })

  test('a person who is shut out between deciding and another try gets nothing any more', async () => {
    const { ownerId } = await wellDue(db, 'A', 'Finch', '2026-11-15')
    const id = await person(db, 'owner', ownerId)
    await send('2026-11-10', 'smtp://127.0.0.1:9')
    await db.prisma.user.update({ where: { id }, data: { disabled: true } })
    await send('2026-11-10', post.url, '2026-11-10T09:00:00.000Z')
    expect(post.received).toEqual([])
    expect(mailingList(db, installer, null, 9).rows).toMatchObject([{ state: 'dropped' }])
  })
})

describe('a mail that cannot be sent', () => {
  test('is tried again later and later, five times, then waits for a person, and is sent once', async () => {
    const { ownerId } = await wellDue(db, 'A', 'Finch', '2026-11-15')
    await person(db, 'owner', ownerId)
    const gone = 'smtp://127.0.0.1:9'
    const states = []
    for (let hour = 0; hour < 48; hour += 1) {
      const at = new Date(Date.parse('2026-11-10T07:00:00Z') + hour * 3_600_000).toISOString()
      await send('2026-11-10', gone, at)
      states.push(mailingList(db, installer, null, 9).rows[0]?.tries)
    }
    expect(states.at(-1)).toBe(5)
    const [row] = mailingList(db, installer, null, 9).rows
    expect(row).toMatchObject({ state: 'failed', againAt: null })
    expect(row?.reason).toMatch(/ECONNREFUSED|connect/i)
    await sendAgain(db, installer, row?.id ?? '', '2026-11-13T07:00:00.000Z')
    await send('2026-11-13', post.url)
    await send('2026-11-14', post.url)
    expect(post.received).toHaveLength(1)
  })
})

describe('switching them off', () => {
  test('the link of a mail works without signing in, for its reader alone, and the header for one press is there', async () => {
    const { ownerId } = await wellDue(db, 'A', 'Finch', '2026-11-15')
    const [one, two] = [await person(db, 'owner', ownerId), await person(db, 'owner', ownerId)]
    await send('2026-11-10')
    const text = mailOf(one)?.text ?? ''
    const [, token = ''] = /https:\/\/wells\.example\/quiet\/([\w-]{43})/.exec(text) ?? []
    const raw = post.raw.find((mail) => mail.includes(one)) ?? ''
    expect(raw).toContain(`<https://wells.example/api/quiet/${token}>`)
    expect(raw).toMatch(/List-Unsubscribe-Post: List-Unsubscribe=One-Click/)
    // The database holds the hash alone: neither the choices nor the stored words of the mail give the token away.
    const stored = JSON.stringify([await db.prisma.mailChoice.findMany(), await db.prisma.mailing.findMany()])
    expect(stored).not.toContain(token)
    expect(personOfQuietToken(db, token)?.userId).toBe(one)
    expect(await quietByToken(db, `${token.slice(0, -1)}x`, AT)).toBe(false)
    expect(await quietByToken(db, token, AT)).toBe(true)
    expect(await quietByToken(db, token, AT)).toBe(true)
    await send('2026-11-15')
    expect(addressees().filter((to) => to.includes(one))).toHaveLength(1)
    expect(addressees().filter((to) => to.includes(two))).toHaveLength(2)
  })

  test('switched on again, what was told is not told again', async () => {
    const { ownerId } = await wellDue(db, 'A', 'Finch', '2026-11-15')
    const userId = await person(db, 'owner', ownerId)
    await send('2026-11-10')
    const viewer = { ...owner(ownerId), userId }
    await switchMail(db, viewer, true, AT)
    await send('2026-11-15')
    await switchMail(db, viewer, false, AT)
    await send('2026-11-16')
    expect(post.received).toHaveLength(2)
  })
})

describe('a well that changed hands', () => {
  const sale = { ownerName: 'Newcomer', ownerPhone: null, ownerEmail: null, wellName: null, on: '2026-11-10' }

  test.each([true, false])(
    'is in no mail and no calendar of the former household, granted to read (%s) or not',
    async (mayRead) => {
      const { wellId, ownerId } = await wellDue(db, 'Alder', 'Finch', '2026-11-15')
      await wellDue(db, 'Birch', 'Finch', '2026-11-18')
      const userId = await person(db, 'owner', ownerId)
      const former = { ...owner(ownerId), userId }
      // Their mail waits for a server that does not answer.
      await send('2026-11-10', 'smtp://127.0.0.1:1')
      expect(
        mailingList(db, installer, null, 9).rows.map(({ state, text }) => [state, /Alder/.test(text)]),
      ).toEqual([['failed', true]])
      expect(feedEvents(db, former, '2026-11-10', AT).some(({ title }) => /Alder/.test(title))).toBe(true)
      expect(await sellWell(db, installer, wellId, { ...sale, mayRead }, '2026-11-10T12:00:00.000Z')).toBe(
        'done',
      )
      for (const day of ['2026-11-11', '2026-11-15', '2026-11-18']) await send(day)
      const texts = post.received.map(({ subject, text }) => `${subject}\n${text}`)
      expect(texts).toHaveLength(2)
      expect(texts.filter((text) => /Alder/.test(text))).toEqual([])
      expect(texts.every((text) => /Birch spring/.test(text))).toBe(true)
      expect(feedEvents(db, former, '2026-11-11', AT).map(({ title }) => title)).toEqual([
        'Birch spring: Bacteria sample',
      ])
    },
  )

  test('is in no mail that waits for a person who left the household', async () => {
    const { ownerId } = await wellDue(db, 'Alder', 'Finch', '2026-11-15')
    const userId = await person(db, 'owner', ownerId)
    await send('2026-11-10', 'smtp://127.0.0.1:1')
    expect(await endMembership(db, installer, userId, ownerId, AT)).toBe('done')
    await send('2026-11-11')
    expect(post.received).toEqual([])
  })
})

describe('what it says', () => {
  const line = (wellId: string, payload: object) => ({
    id: newId(),
    wellId,
    visitId: newId(),
    occurredOn: '2026-11-09',
    occurredTime: null,
    byName: 'x',
    supersedes: null,
    withdraws: null,
    payload,
  })

  test('a warning comes before what is due, in the subject too, and a long list is cut', () => {
    const lines = Array.from({ length: 9 }, (_, i) => ({
      well: 'Alder',
      what: `Duty ${i}`,
      dueOn: '2026-11-01',
    }))
    const frame = {
      today: '2026-11-10',
      show: (day: string) => day,
      outfit: { name: 'Fernhollow', contact: '555-0100' },
      site: 'https://wells.example/own',
      quiet: 'https://wells.example/quiet',
    }
    const letter = writeOwnerLetter('Ann', { lines, warned: ['Alder'], asked: [], promised: [] }, frame)
    expect(letter.subject).toBe('A warning about your water')
    expect(letter.text.indexOf('warning')).toBeLessThan(letter.text.indexOf('Duty 0'))
    expect(letter.text).toMatch(/- Duty 5, .*\nAnd 3 more\./)
    expect(letter.text).not.toMatch(/Duty 6/)
    expect(letter.text).toMatch(/Fernhollow\n555-0100/)
  })

  test('plain words for grade 8, no result of a test, the warning, the question and the promised visit, once each', async () => {
    const { wellId, ownerId } = await wellDue(db, 'Alder', 'Finch', '2026-11-15')
    const userId = await person(db, 'owner', ownerId)
    const office = await person(db, 'installer')
    const viewer = { ...owner(ownerId), userId }
    const sheet = line(wellId, {
      kind: 'sample',
      sampledAt: '2026-11-08T09:00',
      receivedAt: '2026-11-08T12:00',
      results: [{ analyte: 'E. coli', result: '37', unit: 'MPN/100 mL' }],
    })
    const asked = line(wellId, { kind: 'visit-request', about: 'pump', urgent: true, text: 'It hums' })
    expect((await record(db, viewer, [sheet, asked], AT, '2026-11-10')).kind).toBe('stored')
    await send('2026-11-10')
    const query = line(wellId, { kind: 'confirmation', of: sheet.id, verdict: 'queried', text: 'Which tap?' })
    const plan = line(wellId, { kind: 'visit-answer', of: asked.id, state: 'planned', on: '2026-11-13' })
    expect((await record(db, installer, [query, plan], AT, '2026-11-10')).kind).toBe('stored')
    await send('2026-11-11')
    await send('2026-11-12')
    const texts = post.received
      .filter(({ to }) => !Array.isArray(to) && to?.text.includes(userId))
      .map(({ text }) => text ?? '')
    expect(texts).toHaveLength(2)
    expect(texts[0]).toMatch(/there is a warning about the water/)
    expect(texts[1]).toMatch(/has a question about what you sent in/)
    expect(texts[1]).toMatch(/plans to come on Nov 13, 2026/)
    for (const text of texts) {
      expect(text).not.toMatch(/37|coli\b.*\d|MPN|safe/i)
      // The measure counts up to one grade low; addresses are no words.
      expect(grade(text.replace(/https:\S+/g, ''))).toBeLessThanOrEqual(8 - 1)
    }
    const toOffice = mailOf(office)
    expect(toOffice?.subject).toMatch(/^Urgent: .*a visit asked for/)
    expect(toOffice?.text).toMatch(/URGENT, Alder spring: Asked for a visit, urgent: the pump or its power/)
    expect(toOffice?.text).toMatch(/not yet looked at: 1/)
  })
})
