import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readLimited } from '@/lib/exchange/batch/limits'
import { takePhoto } from '@/lib/exchange/batch/photo'
import { takeBatch } from '@/lib/exchange/batch/take'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { AT, aWell, batchText, joss, send, TODAY, visitItem } from '../setup/batch'
import { freshDb } from '../setup/fresh-db'
import { photo } from '../setup/hostile-files'
import { recoveryTyped, sheetTyped, waitingAt } from '../setup/phone-forms'

const clock = { at: AT, today: TODAY }
const entries = (db: Db) =>
  db.sqlite.prepare('SELECT "id","kind","payload","authorId" FROM "Entry" ORDER BY "id"').all()
const noteItem = (wellId: string, text: string) => {
  const id = newId()
  return {
    kind: 'entries',
    id,
    entries: [
      {
        id: newId(),
        wellId,
        visitId: id,
        occurredOn: TODAY,
        occurredTime: null,
        byName: 'Joss',
        supersedes: null,
        withdraws: null,
        payload: { kind: 'note', text },
      },
    ],
  }
}
const correction = (wellId: string, target: string, text: string) => {
  const item = noteItem(wellId, text)
  const [entry] = item.entries
  return {
    ...item,
    entries: [
      {
        ...entry,
        supersedes: target,
        payload: {
          kind: 'correction',
          reason: 'misread',
          occurredOn: TODAY,
          occurredTime: null,
          replacement: { kind: 'note', text },
        },
      },
    ],
  }
}

describe('a batch from a phone', () => {
  test('stores a visit as its form would, once however often it is sent', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const item = visitItem(wellId, newId(), { 'duty:change-sediment-cartridge': 'done', flow: '9' })
    expect(await send(db, [item])).toMatchObject([{ id: item.id, outcome: 'stored' }])
    for (let i = 0; i < 3; i += 1) expect(await send(db, [item])).toMatchObject([{ outcome: 'already' }])
    expect(entries(db)).toMatchObject([
      { kind: 'service-done', authorId: 'joss' },
      { kind: 'flow-reading', authorId: 'joss' },
    ])
    // 9 gal/min at 3.785411784 L to the US gallon (NIST SP 811, appendix B.8).
    expect(entries(db)[1]).toMatchObject({ payload: expect.stringContaining('"si":0.00056781176') })
  })

  test('reads numbers in the units that the form showed, whatever the person has chosen since', async () => {
    const db = await freshDb()
    const item = { ...visitItem(await aWell(db), newId(), { staticLevel: '2.1' }), units: 'metric' }
    await send(db, [item])
    expect(entries(db)).toMatchObject([{ payload: expect.stringContaining('"si":2.1') }])
  })

  test('comes back with the question of an odd reading, and with its answer is stored', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    await send(db, [visitItem(wellId, newId(), { date: '2026-10-01', hourMeter: '1350' })])
    const item = visitItem(wellId, newId(), { hourMeter: '135' })
    const [asked] = await send(db, [item])
    expect(asked).toMatchObject({
      outcome: 'refused',
      questions: { hourMeter: { choices: expect.anything() } },
    })
    expect(entries(db)).toHaveLength(1)
    const answered = { ...item, typed: { ...item.typed, 'answer:hourMeter': 'replaced' } }
    expect(await send(db, [answered])).toMatchObject([{ outcome: 'stored' }])
  })

  test('sent again after later readings raises no question about itself', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const first = visitItem(wellId, newId(), { hourMeter: '1350' })
    await send(db, [first])
    const later = { at: '2026-11-20T13:00:00.000Z' }
    const question = visitItem(wellId, newId(), { hourMeter: '1300', 'answer:hourMeter': 'replaced' })
    expect(await send(db, [question], later)).toMatchObject([{ outcome: 'stored' }])
    expect(await send(db, [first, question], later)).toMatchObject([
      { outcome: 'already' },
      { outcome: 'already' },
    ])
  })

  test('sent again with other words is refused, and says where to look', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const id = newId()
    await send(db, [visitItem(wellId, id, { note: 'one' })])
    expect(await send(db, [visitItem(wellId, id, { note: 'two' })])).toMatchObject([
      { outcome: 'refused', why: [{ wrong: expect.stringContaining('saved already, with other words') }] },
    ])
    expect(entries(db)).toHaveLength(1)
  })

  test('takes a correction before its line in the same batch, and holds one whose line is still to come', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const line = noteItem(wellId, 'as read')
    const mend = correction(wellId, line.entries[0]?.id ?? '', 'as mended')
    expect(await send(db, [mend])).toMatchObject([{ outcome: 'later' }])
    expect(entries(db)).toHaveLength(0)
    expect(await send(db, [mend, line])).toMatchObject([{ outcome: 'stored' }, { outcome: 'stored' }])
  })
})

describe('a well test and a lab sheet from a phone', () => {
  const testItem = (wellId: string, typed: Record<string, string>) => {
    const { id, units } = waitingAt(wellId)
    return { kind: 'test' as const, test: 'recovery' as const, id, wellId, units, typed }
  }

  test('are stored as their forms would, in the units of the form, once however often they are sent', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const test = testItem(wellId, recoveryTyped())
    const { id, units } = waitingAt(wellId)
    const sheet = { kind: 'sheet', id, wellId, units, typed: sheetTyped() }
    expect(await send(db, [test, sheet])).toMatchObject([{ outcome: 'stored' }, { outcome: 'stored' }])
    for (let i = 0; i < 3; i += 1)
      expect(await send(db, [sheet, test])).toMatchObject([{ outcome: 'already' }, { outcome: 'already' }])
    expect(entries(db)).toMatchObject([
      // 6 ft at exactly 0.3048 m to the foot (NIST SP 811, appendix B.8).
      { kind: 'recovery-test', payload: expect.stringContaining('"si":1.8288') },
      { kind: 'sample', payload: expect.stringContaining('mg/L as N') },
    ])
  })

  test('a test whose well was measured anew since raises no question about itself', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const item = testItem(wellId, recoveryTyped({ static: '20', 'answer:readings': 'sure' }))
    expect(await send(db, [item])).toMatchObject([{ outcome: 'stored' }])
    db.sqlite.prepare('UPDATE "Well" SET "wellDepthM" = 2 WHERE "id" = ?').run(wellId)
    expect(await send(db, [item])).toMatchObject([{ outcome: 'already' }])
    expect(await send(db, [{ ...item, id: newId() }])).toMatchObject([
      { outcome: 'refused', questions: { static: expect.anything() } },
    ])
  })

  test('sent again with another reading is refused, and says where to look', async () => {
    const db = await freshDb()
    const item = testItem(await aWell(db), recoveryTyped())
    await send(db, [item])
    const other = { ...item, typed: { ...item.typed, level2: '8.1' } }
    expect(await send(db, [other])).toMatchObject([
      { outcome: 'refused', why: [{ wrong: expect.stringContaining('among the tests of the well') }] },
    ])
    expect(entries(db)).toHaveLength(1)
  })

  test('with a reading that lacks its level is refused at that field', async () => {
    const db = await freshDb()
    const item = testItem(await aWell(db), recoveryTyped({ level3: '' }))
    expect(await send(db, [item])).toMatchObject([{ outcome: 'refused', why: [{ field: 'level3' }] }])
    expect(entries(db)).toHaveLength(0)
  })
})

/** Kinds of poison, each put among fifty good records. */
const POISON: readonly [what: string, make: (wellId: string) => unknown][] = [
  ['nothing at all', () => null],
  ['a text instead of a record', () => 'visit'],
  ['a record of an unknown kind', () => ({ kind: 'teleport', id: newId() })],
  ['a record without an id', (wellId) => ({ ...visitItem(wellId, newId(), { note: 'x' }), id: undefined })],
  ['an id that is a path', (wellId) => visitItem(wellId, '../../etc/passwd', { note: 'x' })],
  ['a well that is not there', () => visitItem('nowhere', newId(), { note: 'x' })],
  ['a day in the future', (wellId) => visitItem(wellId, newId(), { date: '2031-01-01', note: 'x' })],
  ['a number that cannot be read', (wellId) => visitItem(wellId, newId(), { flow: 'a lot' })],
  ['a form with nothing written on it', (wellId) => visitItem(wellId, newId(), {})],
  [
    'a line whose shape is wrong',
    () => ({ kind: 'entries', id: newId(), entries: [{ payload: { kind: 'note', text: 7 } }] }),
  ],
  [
    'a test of an unknown kind',
    (wellId) => ({ ...visitItem(wellId, newId(), recoveryTyped()), kind: 'test', test: 'rain' }),
  ],
  ['a lab sheet without a row', (wellId) => ({ ...visitItem(wellId, newId(), {}), kind: 'sheet' })],
  ['a field that nobody knows', (wellId) => ({ ...visitItem(wellId, newId(), { note: 'x' }), admin: true })],
]

describe('one bad record among 49 good ones', () => {
  test.each(POISON)('%s: the others are stored, and it is told why not', async (_what, make) => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const items: unknown[] = Array.from({ length: 49 }, (_, i) => noteItem(wellId, `note ${i}`))
    items.splice(20, 0, make(wellId))
    const answers = await send(db, items)
    expect(answers.filter(({ outcome }) => outcome === 'stored')).toHaveLength(49)
    expect(answers[20]).toMatchObject({ index: 20, outcome: 'refused' })
    const [bad] = answers.filter((answer) => answer.outcome === 'refused')
    for (const { wrong, todo } of bad?.why ?? []) {
      expect(wrong).not.toBe('')
      expect(todo).not.toBe('')
    }
    expect(entries(db)).toHaveLength(49)
  })

  test('what fails in the server itself is to be sent again, and its cause is reported', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const [good, bad] = [noteItem(wellId, 'good'), noteItem(wellId, 'the disk breaks here')]
    db.sqlite.exec(`CREATE TRIGGER "break" BEFORE INSERT ON "Entry" WHEN NEW."payload" LIKE '%breaks here%'
      BEGIN SELECT RAISE(ABORT, 'disk I/O error'); END`)
    const causes: unknown[] = []
    const answers = await send(db, [bad, good], { report: (error) => causes.push(error) })
    expect(answers).toMatchObject([{ outcome: 'later' }, { outcome: 'stored' }])
    expect(causes.map(String)).toContainEqual(expect.stringContaining('disk I/O error'))
    db.sqlite.exec('DROP TRIGGER "break"')
    expect(await send(db, [bad, good])).toMatchObject([{ outcome: 'stored' }, { outcome: 'already' }])
  })
})

describe('a batch that is refused as a whole stores nothing', () => {
  test.each([
    ['of a newer form', { version: 99 }, 409, 'form 99'],
    ['of somebody else', { user: 'maren' }, 403, 'somebody else'],
    ['without items', { items: 'none' }, 400, 'no batch'],
  ])('%s', async (_what, more, status, words) => {
    const db = await freshDb()
    const item = noteItem(await aWell(db), 'kept on the phone')
    const taken = await takeBatch(db, joss, batchText([item], more), clock)
    expect(taken).toMatchObject({ ok: false, refusal: { status, wrong: expect.stringContaining(words) } })
    expect(entries(db)).toHaveLength(0)
  })

  test('with too many items, too many bytes, or nested too deeply', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const many = Array.from({ length: 51 }, () => noteItem(wellId, 'x'))
    const texts = [
      batchText(many),
      batchText(['x'.repeat(1024 * 1024)]),
      '['.repeat(100_000),
      '{"a":'.repeat(500),
    ]
    for (const text of texts) {
      const taken = await takeBatch(db, joss, text, clock)
      expect(taken).toMatchObject({ ok: false, refusal: { status: 413 } })
    }
    expect(entries(db)).toHaveLength(0)
  })

  test('brackets in quoted text are text', async () => {
    const db = await freshDb()
    expect(
      await send(db, [noteItem(await aWell(db), '[[[[[[[[[[[[[[[[[[[[ \\" {{{{{{{{{{{{{{')]),
    ).toMatchObject([{ outcome: 'stored' }])
  })

  test('a body is read no further than its limit, whatever length it claims', async () => {
    let pulled = 0
    const body = new ReadableStream<Uint8Array>({
      pull(controller) {
        pulled += 1
        controller.enqueue(new Uint8Array(1024))
      },
    })
    const request = new Request('http://localhost/', { method: 'POST', body, duplex: 'half' } as RequestInit)
    expect(await readLimited(request, 10 * 1024)).toBeNull()
    expect(pulled).toBeLessThan(20)
  })
})

describe('batches of earlier forms', () => {
  const folder = 'tests/exchange/batches'
  test.each(readdirSync(folder))('%s is taken whole', async (name) => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const text = readFileSync(`${folder}/${name}`, 'utf8')
      .replaceAll('WELL', wellId)
      .replaceAll('USER', 'joss')
    const taken = await takeBatch(db, joss, text, clock)
    if (!taken.ok) throw new Error(taken.refusal.wrong)
    expect(taken.reply.answers.map(({ outcome }) => outcome)).toEqual(taken.reply.answers.map(() => 'stored'))
    expect(entries(db).length).toBeGreaterThan(0)
  })
})

describe('the answer is lost', () => {
  test('200 times, and the phone sends again one to five times: nothing twice, nothing lost', async () => {
    const db = await freshDb()
    db.sqlite.pragma('synchronous = OFF')
    const wellId = await aWell(db)
    for (let round = 0; round < 200; round += 1) {
      const items = [
        noteItem(wellId, `round ${round}`),
        visitItem(wellId, newId(), { note: `visit ${round}` }),
      ]
      await send(db, items)
      for (let again = 0; again < 1 + (round % 5); again += 1)
        expect(await send(db, items)).toMatchObject([{ outcome: 'already' }, { outcome: 'already' }])
    }
    expect(entries(db)).toHaveLength(400)
  })
})

describe('a photo from a phone', () => {
  const about = async (visit: string, bytes: Uint8Array, more = {}) => ({
    version: '1',
    user: 'joss',
    id: newId(),
    visit,
    name: 'lid.jpg',
    sha256: createHash('sha256').update(bytes).digest('hex'),
    ...more,
  })

  test('waits for its visit, then hangs on its first line, once however often it is sent', async () => {
    const db = await freshDb()
    const item = visitItem(await aWell(db), newId(), { note: 'lid is cracked', flow: '9' })
    const bytes = await photo()
    const said = await about(item.id, bytes)
    expect(await takePhoto(db, joss, said, bytes, AT)).toMatchObject({ outcome: 'later' })
    await send(db, [item])
    expect(await takePhoto(db, joss, said, bytes, AT)).toEqual({ outcome: 'stored' })
    expect(await takePhoto(db, joss, said, bytes, AT)).toEqual({ outcome: 'already' })
    const [first] = entries(db) as { id: string }[]
    expect(db.sqlite.prepare('SELECT "id","entryId" FROM "Attachment"').all()).toEqual([
      { id: said.id, entryId: first?.id },
    ])
  })

  test('is not taken cut short, from somebody else, or as something other than a photo', async () => {
    const db = await freshDb()
    const item = visitItem(await aWell(db), newId(), { note: 'x' })
    await send(db, [item])
    const bytes = await photo()
    const tries: [Record<string, string>, Uint8Array, string][] = [
      [await about(item.id, bytes), bytes.subarray(0, 100), 'later'],
      [await about(item.id, bytes, { user: 'maren' }), bytes, 'refused'],
      [await about(item.id, Buffer.from('<script>')), Buffer.from('<script>'), 'refused'],
      [await about(item.id, bytes, { id: '../x' }), bytes, 'refused'],
    ]
    for (const [said, sent, outcome] of tries)
      expect(await takePhoto(db, joss, said, sent, AT)).toMatchObject({ outcome })
    expect(db.sqlite.prepare('SELECT COUNT(*) FROM "Attachment"').pluck().get()).toBe(0)
  })
})
