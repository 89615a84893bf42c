import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { currentFacts, type Entry } from '@/lib/domain/logbook/entries'
import type { Payload } from '@/lib/domain/logbook/kinds'
import { addDays } from '@/lib/domain/quantity/day'
import type { Db } from '@/lib/records/db'
import { addDuty } from '@/lib/records/duties'
import { entriesOfWell } from '@/lib/records/entries'
import { newId } from '@/lib/records/ids'
import { rebuild } from '@/lib/records/rebuild'
import { record } from '@/lib/records/record'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'

async function aWell(db: Db, label = 'A-1', ownerName: string | null = 'Orla Finch'): Promise<string> {
  const outcome = await createWell(
    db,
    installer,
    { ...bareWell(label), ownerName, installedOn: '2020-01-15' },
    AT,
  )
  if (outcome.kind !== 'stored') throw new Error(outcome.kind)
  return outcome.id
}

const line = (
  wellId: string,
  payload: Payload,
  more: Partial<Record<'supersedes' | 'withdraws' | 'id' | 'occurredOn', string>> = {},
) => ({
  id: newId(),
  wellId,
  visitId: newId(),
  occurredOn: '2026-05-04',
  occurredTime: null,
  byName: 'Joss',
  supersedes: null,
  withdraws: null,
  payload,
  ...more,
})
const note = (text: string): Payload => ({ kind: 'note', text })
const count = (db: Db, table: 'Entry' | 'Change' = 'Entry') =>
  Number(db.sqlite.prepare(`SELECT COUNT(*) FROM "${table}"`).pluck().get())

describe('record', () => {
  test('stores a visit once, however often it is sent', async () => {
    const db = await freshDb()
    const draft = line(await aWell(db), note('pumped clear'))
    expect(await record(db, technician, [draft], AT, TODAY)).toMatchObject({
      stored: [draft.id],
      already: [],
    })
    expect(await record(db, technician, [draft], AT, TODAY)).toMatchObject({
      stored: [],
      already: [draft.id],
    })
    expect(count(db)).toBe(1)
  })

  test('refuses another entry under an id that is taken', async () => {
    const db = await freshDb()
    const draft = line(await aWell(db), note('first'))
    await record(db, technician, [draft], AT, TODAY)
    const outcome = await record(db, technician, [{ ...draft, payload: note('second') }], AT, TODAY)
    expect(outcome).toMatchObject({ kind: 'refused', problems: [{ field: 'id' }] })
  })

  test('refuses a line sent again with another day, and two lines of one visit under one id', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const draft = line(wellId, note('first'))
    await record(db, technician, [draft], AT, TODAY)
    const moved = await record(db, technician, [{ ...draft, occurredOn: '2026-05-05' }], AT, TODAY)
    expect(moved).toMatchObject({ kind: 'refused', problems: [{ field: 'id' }] })
    const one = line(wellId, note('a'))
    const twins = await record(db, technician, [one, { ...one, payload: note('b') }], AT, TODAY)
    expect(twins).toMatchObject({ kind: 'refused', problems: [{ index: 1, field: 'id' }] })
    expect(count(db)).toBe(1)
  })

  test('refuses an entry that takes itself back, and a sample of a day that never was', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const id = newId()
    const self = line(wellId, { kind: 'withdrawal', reason: 'x' }, { id, withdraws: id })
    expect((await record(db, installer, [self], AT, TODAY)).kind).toBe('refused')
    const sample: Payload = {
      kind: 'sample',
      sampledAt: '2026-02-30',
      results: [{ analyte: 'E. coli', result: 'Absent' }],
    }
    expect((await record(db, installer, [line(wellId, sample)], AT, TODAY)).kind).toBe('refused')
    expect(count(db)).toBe(0)
  })

  test("answers about another household's well as about none at all", async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const stranger = owner('nobody')
    const foreign = await record(db, stranger, [line(wellId, note('x'))], AT, TODAY)
    const absent = await record(db, stranger, [line(newId(), note('x'))], AT, TODAY)
    expect(foreign).toEqual({ kind: 'no-such-well' })
    expect(absent).toEqual(foreign)
    expect(count(db)).toBe(0)
  })

  test('lets an owner write to their own well, and not correct what others wrote', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const ownerId = String(db.sqlite.prepare('SELECT "ownerId" FROM "Well"').pluck().get())
    const draft = line(wellId, note('by the office'))
    await record(db, installer, [draft], AT, TODAY)
    expect((await record(db, owner(ownerId), [line(wellId, note('mine'))], AT, TODAY)).kind).toBe('stored')
    const withdrawal = line(wellId, { kind: 'withdrawal', reason: 'no' }, { withdraws: draft.id })
    expect(await record(db, owner(ownerId), [withdrawal], AT, TODAY)).toEqual({ kind: 'no-such-well' })
  })

  test('stores nothing of a visit of which one line is wrong', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const changes = count(db, 'Change')
    for (const bad of [
      line(wellId, note('x'), { occurredOn: '2026-02-30' }),
      line(wellId, note('x'), { occurredOn: '2027-01-01' }),
      line(wellId, { kind: 'withdrawal', reason: 'x' }, { withdraws: newId() }),
      line(wellId, note('x'), { supersedes: newId() }),
      { ...line(wellId, note('x')), payload: { kind: 'note', text: '' } },
    ]) {
      const outcome = await record(db, installer, [line(wellId, note('good')), bad], AT, TODAY)
      expect(outcome.kind).toBe('refused')
    }
    expect(count(db)).toBe(0)
    expect(count(db, 'Change')).toBe(changes)
  })

  test('meets any junk with a refusal and never with a throw or a half visit', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    await fc.assert(
      fc.asyncProperty(fc.array(fc.anything(), { maxLength: 4 }), async (junk) => {
        const outcome = await record(db, installer, [line(wellId, note('good')), ...junk], AT, TODAY)
        expect(junk.length === 0 ? outcome.kind === 'stored' : outcome.kind !== 'stored').toBe(true)
      }),
      { numRuns: 150 },
    )
    expect(count(db)).toBe(
      Number(db.sqlite.prepare(`SELECT COUNT(*) FROM "Entry" WHERE "kind" = 'note'`).pluck().get()),
    )
  })
})

describe('the logbook and the change record', () => {
  test.each(['Entry', 'Change'])('refuse UPDATE and DELETE of %s, whoever asks', async (table) => {
    const db = await freshDb()
    await record(db, installer, [line(await aWell(db), note('x'))], AT, TODAY)
    expect(() => db.sqlite.prepare(`UPDATE "${table}" SET "id" = 'y'`).run()).toThrow(
      /never changed|append-only/,
    )
    expect(() => db.sqlite.prepare(`DELETE FROM "${table}"`).run()).toThrow(/never deleted|append-only/)
  })

  test('a correction speaks for its line, a second for the first, and a withdrawal of it gives the word back', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const first = line(wellId, note('3 gpm'))
    const correct = (of: string, text: string) =>
      line(
        wellId,
        {
          kind: 'correction',
          reason: 'typo',
          occurredOn: '2026-05-05',
          occurredTime: null,
          replacement: { kind: 'note', text },
        },
        { supersedes: of },
      )
    const second = correct(first.id, '4 gpm')
    const third = correct(second.id, '5 gpm')
    await record(db, installer, [first, second, third], AT, TODAY)
    const words = () =>
      currentFacts(entriesOfWell(db.sqlite, wellId)).map(({ fact }) =>
        fact.kind === 'note' ? fact.text : '',
      )
    expect(words()).toEqual(['5 gpm'])
    await record(
      db,
      installer,
      [line(wellId, { kind: 'withdrawal', reason: 'wrong again' }, { withdraws: third.id })],
      AT,
      TODAY,
    )
    expect(words()).toEqual(['4 gpm'])
    const gone = line(wellId, { kind: 'withdrawal', reason: 'wrong well' }, { withdraws: first.id })
    await record(db, installer, [gone], AT, TODAY)
    expect(words()).toEqual([])
    await record(
      db,
      installer,
      [line(wellId, { kind: 'withdrawal', reason: 'right well after all' }, { withdraws: gone.id })],
      AT,
      TODAY,
    )
    expect(words()).toEqual(['4 gpm'])
  })
})

/** A random step of a logbook: mostly facts, now and then a correction or withdrawal of an earlier line. */
const step = fc.record({
  kind: fc.constantFrom('service', 'hours', 'level', 'flood', 'correct', 'withdraw'),
  day: fc.integer({ min: 0, max: 900 }),
  value: fc.integer({ min: 0, max: 5000 }),
  target: fc.nat(50),
})

async function play(
  db: Db,
  wellId: string,
  steps: readonly { kind: string; day: number; value: number; target: number }[],
) {
  const ids: string[] = []
  for (const { kind, day, value, target } of steps) {
    const on = addDays(TODAY, -day)
    const aim = ids[target % Math.max(1, ids.length)]
    const fact: Payload =
      kind === 'service'
        ? { kind: 'service-done', duties: ['change-sediment-cartridge'], names: [], parts: [] }
        : kind === 'hours'
          ? {
              kind: 'meter-reading',
              meter: 'hours',
              reading: { si: value * 3600, typed: `${value} h` },
              explained: null,
            }
          : kind === 'level'
            ? { kind: 'level-reading', level: { si: value / 1000, typed: `${value} mm` }, state: 'rest' }
            : { kind: 'event', event: 'flooded' }
    const draft =
      kind === 'correct' && aim
        ? line(
            wellId,
            {
              kind: 'correction',
              reason: 'r',
              occurredOn: on,
              occurredTime: null,
              replacement: { kind: 'note', text: 'now a note' },
            },
            { supersedes: aim },
          )
        : kind === 'withdraw' && aim
          ? line(wellId, { kind: 'withdrawal', reason: 'r' }, { withdraws: aim, occurredOn: TODAY })
          : line(wellId, fact, { occurredOn: on })
    const outcome = await record(db, installer, [draft], AT, TODAY)
    if (outcome.kind === 'stored') ids.push(draft.id)
  }
}

test('standings made step by step equal those rebuilt from the whole logbook', async () => {
  const db = await freshDb()
  let n = 0
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 25 }), async (steps) => {
      n += 1
      const wellId = await aWell(db, `P-${n}`, null)
      await addDuty(
        db,
        installer,
        wellId,
        {
          key: 'change-sediment-cartridge',
          name: 'Change sediment cartridge',
          consequence: 'supply',
          everyMonths: 6,
          everyRunS: 500 * 3600,
          everyM3: null,
          condition: null,
          conditionLimitSi: null,
          lastDoneOn: null,
          typed: {},
        },
        AT,
      )
      await play(db, wellId, steps)
      const dump = () =>
        JSON.stringify([
          db.sqlite.prepare('SELECT * FROM "Standing" WHERE "wellId" = ?').all(wellId),
          db.sqlite.prepare('SELECT * FROM "DueItem" WHERE "wellId" = ? ORDER BY "id"').all(wellId),
        ])
      const before = dump()
      db.sqlite.prepare('DELETE FROM "Standing" WHERE "wellId" = ?').run(wellId)
      db.sqlite.prepare('DELETE FROM "DueItem" WHERE "wellId" = ?').run(wellId)
      await rebuild(db, 'stale')
      expect(dump()).toBe(before)
    }),
    { numRuns: 60 },
  )
})

test('the order in which entries arrive does not matter', () => {
  fc.assert(
    fc.property(
      fc.array(fc.nat(6), { minLength: 1, maxLength: 12 }),
      fc.infiniteStream(fc.nat(1000)),
      (shape, dice) => {
        const entries: Entry[] = shape.map((kind, i) => {
          const target = i > 0 && kind > 3 ? `e${String(kind % i).padStart(3, '0')}` : null
          const payload: Payload =
            target === null
              ? note(`n${i}`)
              : kind % 2 === 0
                ? {
                    kind: 'correction',
                    reason: 'r',
                    occurredOn: '2026-01-02',
                    occurredTime: null,
                    replacement: { kind: 'note', text: `c${i}` },
                  }
                : { kind: 'withdrawal', reason: 'r' }
          return {
            id: `e${String(i).padStart(3, '0')}`,
            wellId: 'w',
            visitId: 'v',
            occurredOn: '2026-01-01',
            occurredTime: null,
            payload,
            supersedes: payload.kind === 'correction' ? target : null,
            withdraws: payload.kind === 'withdrawal' ? target : null,
            byName: null,
          }
        })
        const shuffled = entries
          .map((entry) => ({ entry, at: dice.next().value ?? 0 }))
          .sort((a, b) => a.at - b.at)
          .map(({ entry }) => entry)
        expect(currentFacts(shuffled)).toEqual(currentFacts(entries))
      },
    ),
  )
})
