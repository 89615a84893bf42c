import { createRequire } from 'node:module'
import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import { addDays } from '@/lib/domain/quantity/day'
import { calendarOf } from '@/lib/exchange/calendar'
import type { Db } from '@/lib/records/db'
import { type FeedEvent, feedEvents } from '@/lib/records/feed-events'
import { feedViewer } from '@/lib/records/feed-viewer'
import { newId } from '@/lib/records/ids'
import { makeFeed, removeFeed } from '@/lib/records/mail-choice'
import { record } from '@/lib/records/record'
import { AT, person, wellDue } from '../remind/outfit'
import { freshDb } from '../setup/fresh-db'
import { installer, owner } from '../setup/viewers'

type Property = { getFirstValue(): unknown }
type Component = {
  getAllSubcomponents(name: string): Component[]
  getFirstPropertyValue(name: string): unknown
  getFirstProperty(name: string): (Property & { getParameter(name: string): unknown; type: string }) | null
}
/** A reader of RFC 5545 that is not ours. */
const ICAL = createRequire(import.meta.url)('ical.js') as {
  parse(text: string): unknown
  Component: new (parsed: unknown) => Component
}
const eventsOf = (text: string) => new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent')

/** The rules of RFC 5545 that a lenient reader forgives: section 3.1 (lines), 3.6.1 and 3.8 (what an event must have). */
function faults(text: string): string[] {
  const found: string[] = []
  if (!text.endsWith('\r\n') && !text.endsWith('END:VCALENDAR')) found.push('the end')
  const lines = text.split('\r\n')
  if (lines.some((line) => /[\r\n]/.test(line))) found.push('a line end that is not CRLF')
  if (lines.some((line) => Buffer.byteLength(line, 'utf8') > 75)) found.push('a line of more than 75 octets')
  const whole = text.replace(/\r\n[ \t]/g, '')
  for (const event of whole.split(/^BEGIN:VEVENT\r?$/m).slice(1)) {
    const has = (pattern: RegExp) => pattern.test(event)
    if (!has(/^UID:\S+$/m)) found.push('an event without UID')
    if (!has(/^DTSTAMP:\d{8}T\d{6}Z\r?$/m)) found.push('an event without DTSTAMP in UTC')
    if (!has(/^DTSTART;VALUE=DATE:\d{8}\r?$/m)) found.push('a start that is no bare date')
    if (!has(/^SEQUENCE:\d+\r?$/m)) found.push('an event without SEQUENCE')
    const summary = /^SUMMARY:(.*)$/m.exec(event)?.[1] ?? ''
    if (/(?<!\\)(?:\\\\)*[;,]/.test(summary.replace(/\\\\/g, ''))) found.push(`unescaped text: ${summary}`)
  }
  return found
}

describe('a calendar file', () => {
  const text = fc.string({
    minLength: 1,
    maxLength: 90,
    unit: fc.constantFrom(...'aé水🜄,;:\\" \n\t'.split(''), 'BEGIN:VEVENT'),
  })
  const event: fc.Arbitrary<FeedEvent> = fc.record({
    uid: fc.uuid(),
    on: fc.integer({ min: -400, max: 4000 }).map((n) => addDays('2026-02-27', n)),
    title: text,
    note: fc.oneof(fc.constant(''), text),
    sequence: fc.nat(1_000_000),
    changedAt: fc
      .date({ min: new Date('2020-01-01'), max: new Date('2030-01-01'), noInvalidDate: true })
      .map((at) => at.toISOString()),
  })

  test('keeps the rules of lines and is read back the same by another reader, 200 times', () => {
    fc.assert(
      fc.property(fc.uniqueArray(event, { maxLength: 12, selector: ({ uid }) => uid }), (events) => {
        const file = calendarOf('Wells', events)
        expect(faults(file)).toEqual([])
        const read = eventsOf(file).map((one) => ({
          uid: one.getFirstPropertyValue('uid'),
          on: String(one.getFirstPropertyValue('dtstart')),
          title: one.getFirstPropertyValue('summary'),
          sequence: one.getFirstPropertyValue('sequence'),
        }))
        expect(read).toEqual(
          events.map(({ uid, on, title, sequence }) => ({
            uid,
            on,
            title: title.replace(/\r?\n/g, '\n'),
            sequence,
          })),
        )
      }),
      { numRuns: 200 },
    )
  })

  test('the rules are no empty ones: each fault is found', () => {
    const good = calendarOf('Wells', [
      { uid: 'u', on: '2026-11-20', title: 'a', note: '', sequence: 1, changedAt: AT },
    ])
    expect(faults(good)).toEqual([])
    for (const [from, to] of [
      ['\r\nSEQUENCE:1', ''],
      ['DTSTART;VALUE=DATE:20261120', 'DTSTART:20261120T000000Z'],
      ['SUMMARY:a', 'SUMMARY:a, b'],
      ['SUMMARY:a', `SUMMARY:${'a'.repeat(80)}`],
      ['SUMMARY:a\r\n', 'SUMMARY:a\n'],
      ['UID:', 'ID:'],
      ['DTSTAMP:', 'STAMP:'],
    ] as const) {
      expect(good).toContain(from)
      expect(faults(good.replace(from, to)), to).not.toEqual([])
    }
  })
})

describe('the calendar of a person', () => {
  const TODAY = '2026-11-10'
  let db: Db
  let alder: Awaited<ReturnType<typeof wellDue>>
  let birch: Awaited<ReturnType<typeof wellDue>>
  beforeAll(async () => {
    db = await freshDb()
    alder = await wellDue(db, 'Alder', 'Finch', '2026-11-15')
    birch = await wellDue(db, 'Birch', 'Okonjo', '2026-12-15')
    await db.prisma.well.update({
      where: { id: alder.wellId },
      data: { access: 'CANARY-STREET 7', notes: 'CANARY-NOTE', latitude: 47.123456 },
    })
  })
  const titles = (events: readonly FeedEvent[]) => events.map(({ title }) => title).join('; ')

  test('shows an owner their own wells, the office all, and somebody without a household nothing', () => {
    expect(titles(feedEvents(db, owner(alder.ownerId), TODAY, AT))).toMatch(/^Alder spring: Bacteria sample/)
    expect(titles(feedEvents(db, owner(alder.ownerId), TODAY, AT))).not.toMatch(/Birch/)
    expect(titles(feedEvents(db, owner(alder.ownerId, birch.ownerId), TODAY, AT))).toMatch(
      /Alder[\s\S]*Birch/,
    )
    expect(titles(feedEvents(db, installer, TODAY, AT))).toMatch(/Alder[\s\S]*Birch/)
    expect(feedEvents(db, owner(null), TODAY, AT)).toEqual([])
  })

  test('says nothing of where a well lies or what a test found; a date that moves keeps its UID and raises SEQUENCE', async () => {
    const [before] = feedEvents(db, owner(alder.ownerId), TODAY, AT)
    const sheet = {
      id: newId(),
      wellId: alder.wellId,
      visitId: newId(),
      occurredOn: '2026-11-09',
      occurredTime: null,
      byName: 'CANARY-NAME',
      supersedes: null,
      withdraws: null,
      payload: {
        kind: 'sample',
        sampledAt: '2026-11-08T09:00',
        results: [{ analyte: 'Lead', result: '4242', unit: 'ug/L' }],
      },
    }
    expect((await record(db, installer, [sheet], '2026-11-10T08:00:00.000Z', TODAY)).kind).toBe('stored')
    const events = feedEvents(db, owner(alder.ownerId), TODAY, AT)
    const after = events.find(({ uid }) => uid === before?.uid)
    expect(after?.sequence).toBeGreaterThan(before?.sequence ?? Number.POSITIVE_INFINITY)
    const file = calendarOf('Wells', events)
    expect(file).not.toMatch(/CANARY|4242|47\.12|Finch/i)
    expect(file).toContain('There is a warning for this well')
  })

  test('its address is kept as a hash, dead at once when it is renewed or taken back, and for whoever is shut out', async () => {
    const userId = await person(db, 'owner', alder.ownerId)
    const viewer = { ...owner(alder.ownerId), userId }
    const first = await makeFeed(db, viewer, AT)
    // 192 bits in base64url.
    expect(first).toMatch(/^[\w-]{32}$/)
    expect(JSON.stringify(await db.prisma.mailChoice.findMany())).not.toContain(first)
    expect(await feedViewer(db, first)).toMatchObject({ kind: 'found', viewer: { userId, role: 'owner' } })
    const second = await makeFeed(db, viewer, AT)
    expect((await feedViewer(db, first)).kind).toBe('absent')
    expect((await feedViewer(db, second)).kind).toBe('found')
    await db.prisma.user.update({ where: { id: userId }, data: { disabled: true } })
    expect((await feedViewer(db, second)).kind).toBe('absent')
    await db.prisma.user.update({ where: { id: userId }, data: { disabled: false } })
    await db.prisma.membership.updateMany({ where: { userId }, data: { until: '2026-11-10' } })
    const left = await feedViewer(db, second)
    expect(left.kind === 'found' && feedEvents(db, left.viewer, TODAY, AT)).toEqual([])
    await removeFeed(db, viewer, AT)
    expect((await feedViewer(db, second)).kind).toBe('absent')
  })

  test('a thousand guesses find nothing and are slowed; a known address is not slowed by them, and has a limit of its own', async () => {
    const userId = await person(db, 'owner', alder.ownerId)
    const token = await makeFeed(db, { ...owner(alder.ownerId), userId }, AT)
    const kinds = new Set<string>()
    for (let i = 0; i < 1000; i += 1) {
      const guess = i % 2 === 0 ? newId() : `${token.slice(0, -2)}${String(i).padStart(2, '0').slice(-2)}`
      if (guess !== token) kinds.add((await feedViewer(db, guess)).kind)
    }
    expect([...kinds].sort()).toEqual(['absent', 'wait'])
    expect((await feedViewer(db, token)).kind).toBe('found')
    let asked = 1
    while ((await feedViewer(db, token)).kind === 'found') asked += 1
    expect(asked).toBe(60)
  })
})
