import { describe, expect, test } from 'vitest'
import { BATCH_VERSION } from '@/lib/exchange/batch/shape'
import { takeBatch } from '@/lib/exchange/batch/take'
import { clash } from '@/lib/forms/register-state'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { logbookOf } from '@/lib/records/logbook-of-well'
import { bareWell, type WellFields } from '@/lib/records/well-fields'
import { updateWell, visibleWell, wellPage } from '@/lib/records/wells'
import { AT, aWell, batchText, joss, send, TODAY, visitItem } from '../setup/batch'
import { freshDb } from '../setup/fresh-db'
import { installer } from '../setup/viewers'

/**
 * Two devices change the same thing without knowing of each other: nine cases. Every edit carries a word found nowhere
 * else; afterwards each word must still be there for a person to see, and identical edits must make no conflict.
 */
const line = (wellId: string, payload: unknown, names: { supersedes?: string; withdraws?: string } = {}) => {
  const id = newId()
  const entry = {
    id,
    wellId,
    visitId: id,
    occurredOn: TODAY,
    occurredTime: null,
    byName: 'Joss',
    supersedes: null,
    withdraws: null,
    payload,
    ...names,
  }
  return { kind: 'entries', id, entries: [entry] }
}
const note = (text: string) => ({ kind: 'note', text })
const corrected = (text: string) => ({
  kind: 'correction',
  reason: 'misread',
  occurredOn: TODAY,
  occurredTime: null,
  replacement: note(text),
})
const withdrawn = (reason: string) => ({ kind: 'withdrawal', reason })

/** Everything that the pages of a well can show of it: register, logbook with its history, change record. */
function shown(db: Db, wellId: string): string {
  const page = wellPage(db, installer, wellId)
  return JSON.stringify([page?.well, page && logbookOf(page.entries).visits, page?.changes])
}
const change = (fields: Partial<WellFields>): WellFields => ({ ...bareWell('A-1'), ...fields })
const version = (db: Db, wellId: string) => visibleWell(db, installer, wellId)?.version ?? 0

describe('one line of a logbook, changed on two phones', () => {
  const orders = [
    ['mine first', [0, 1]],
    ['theirs first', [1, 0]],
  ] as const

  test.each(orders)('corrected to two different values, %s: both are in its history', async (_, order) => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const first = line(wellId, note('written'))
    await send(db, [first])
    const both = ['CANARY-MINE', 'CANARY-THEIRS'].map((word) =>
      line(wellId, corrected(word), { supersedes: first.id }),
    )
    for (const i of order) expect(await send(db, [both[i]])).toMatchObject([{ outcome: 'stored' }])
    for (const word of ['CANARY-MINE', 'CANARY-THEIRS', 'written']) expect(shown(db, wellId)).toContain(word)
  })

  test.each(orders)('corrected here and withdrawn there, %s: both words stay', async (_, order) => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const first = line(wellId, note('written'))
    await send(db, [first])
    const both = [
      line(wellId, corrected('CANARY-EDIT'), { supersedes: first.id }),
      line(wellId, withdrawn('CANARY-GONE'), { withdraws: first.id }),
    ]
    for (const i of order) expect(await send(db, [both[i]])).toMatchObject([{ outcome: 'stored' }])
    for (const word of ['CANARY-EDIT', 'CANARY-GONE', 'written']) expect(shown(db, wellId)).toContain(word)
  })

  test('withdrawn twice: both reasons stay, and the line counts for nothing', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const first = line(wellId, note('written'))
    const both = ['CANARY-ONE', 'CANARY-TWO'].map((word) =>
      line(wellId, withdrawn(word), { withdraws: first.id }),
    )
    for (const answer of await send(db, [...both, first])) expect(answer.outcome).toBe('stored')
    for (const word of ['CANARY-ONE', 'CANARY-TWO', 'written']) expect(shown(db, wellId)).toContain(word)
    const [visit] = logbookOf(wellPage(db, installer, wellId)?.entries ?? []).visits
    expect(visit?.lines).toMatchObject([{ stands: false }])
  })

  test('added to by a phone that does not know that it was withdrawn', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const first = line(wellId, note('written'))
    await send(db, [first, line(wellId, withdrawn('gone'), { withdraws: first.id })])
    await send(db, [line(wellId, corrected('CANARY-LATE'), { supersedes: first.id })])
    expect(shown(db, wellId)).toContain('CANARY-LATE')
  })

  test('written at a well that was taken out meanwhile: refused with its reason, so that the phone keeps it', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    db.sqlite.prepare('UPDATE "Well" SET "struck" = 1 WHERE "id" = ?').run(wellId)
    expect(await send(db, [visitItem(wellId, newId(), { note: 'CANARY' })])).toMatchObject([
      { outcome: 'refused', why: [{ field: 'wellId' }] },
    ])
  })

  test('by a phone whose clock is a day ahead is stored; two days ahead, it is refused with its reason', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const dated = (date: string) => visitItem(wellId, newId(), { date, note: `CANARY-${date}` })
    expect(await send(db, [dated('2026-11-21'), dated('2026-11-22')])).toMatchObject([
      { outcome: 'stored' },
      { outcome: 'refused', why: [{ field: 'date' }] },
    ])
    expect(shown(db, wellId)).toContain('CANARY-2026-11-21')
  })

  test('by a newer program: nothing is stored of it, and the phone is told to keep it', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const text = batchText([visitItem(wellId, newId(), { note: 'CANARY' })], { version: BATCH_VERSION + 1 })
    const taken = await takeBatch(db, joss, text, { at: AT, today: TODAY })
    expect(taken).toMatchObject({
      ok: false,
      refusal: { todo: expect.stringContaining('stay on the phone') },
    })
    expect(await send(db, [{ ...line(wellId, { kind: 'hologram', text: 'CANARY' }) }])).toMatchObject([
      { outcome: 'refused' },
    ])
  })
})

describe('the register, changed on two devices', () => {
  test('one field, two values: the second is shown both, and what is replaced stays in the change record', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const opened = version(db, wellId)
    await updateWell(db, installer, wellId, opened, change({ access: 'CANARY-MINE' }), AT)
    const theirs = await updateWell(db, installer, wellId, opened, change({ access: 'CANARY-THEIRS' }), AT)
    if (theirs.kind !== 'changed-since') throw new Error(theirs.kind)
    const state = clash(
      { access: 'CANARY-THEIRS' },
      { access: theirs.current.access ?? '' },
      theirs.current.version,
    )
    expect(state).toMatchObject({
      typed: { access: 'CANARY-THEIRS' },
      theirs: { access: 'CANARY-MINE' },
      message: expect.stringContaining('Somebody else'),
    })
    await updateWell(db, installer, wellId, theirs.current.version, change({ access: 'CANARY-THEIRS' }), AT)
    for (const word of ['CANARY-MINE', 'CANARY-THEIRS']) expect(shown(db, wellId)).toContain(word)
  })

  test('one field, the same value: no conflict', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const opened = version(db, wellId)
    await updateWell(db, installer, wellId, opened, change({ access: 'CANARY' }), AT)
    const again = await updateWell(db, installer, wellId, opened, change({ access: 'CANARY' }), AT)
    expect(again).toEqual({ kind: 'stored', id: wellId })
    expect(version(db, wellId)).toBe(opened + 1)
  })

  test('two fields: the second is asked, and both values can be kept', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const opened = version(db, wellId)
    await updateWell(db, installer, wellId, opened, change({ access: 'CANARY-PATH' }), AT)
    const theirs = await updateWell(db, installer, wellId, opened, change({ notes: 'CANARY-NOTE' }), AT)
    expect(theirs).toMatchObject({ kind: 'changed-since', current: { access: 'CANARY-PATH' } })
    const both = change({ access: 'CANARY-PATH', notes: 'CANARY-NOTE' })
    await updateWell(db, installer, wellId, version(db, wellId), both, AT)
    for (const word of ['CANARY-PATH', 'CANARY-NOTE']) expect(shown(db, wellId)).toContain(word)
  })

  test('by a form that is a year old: nothing is overwritten unseen', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const opened = version(db, wellId)
    for (let month = 1; month <= 12; month += 1) {
      const at = `2026-${String(month).padStart(2, '0')}-15T08:00:00.000Z`
      await updateWell(db, installer, wellId, version(db, wellId), change({ notes: `CANARY-${month}` }), at)
    }
    expect(await updateWell(db, installer, wellId, opened, change({ notes: 'old' }), AT)).toMatchObject({
      kind: 'changed-since',
      current: { notes: 'CANARY-12' },
    })
    for (let month = 1; month <= 12; month += 1) expect(shown(db, wellId)).toContain(`CANARY-${month}`)
  })
})
