import { beforeEach, describe, expect, test } from 'vitest'
import { EVENTS, type Fact, factSchema } from '@/lib/domain/logbook/kinds'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { ownWell } from '@/lib/records/own-well'
import { record } from '@/lib/records/record'
import { bareWell } from '@/lib/records/well-fields'
import { createWell, visibleWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
let db: Db
let wellId: string
let ownerId: string

beforeEach(async () => {
  db = await freshDb()
  const made = await createWell(db, installer, { ...bareWell('A-1'), ownerName: 'Orla Finch' }, AT)
  if (made.kind !== 'stored') throw new Error(made.kind)
  wellId = made.id
  ownerId = visibleWell(db, installer, wellId)?.ownerId ?? ''
})

const draft = (payload: Fact) => ({
  id: newId(),
  wellId,
  visitId: newId(),
  occurredOn: '2026-11-19',
  occurredTime: null,
  byName: 'Orla',
  supersedes: null,
  withdraws: null,
  payload,
})
const send = (payload: Fact) => record(db, owner(ownerId), [draft(payload)], AT, TODAY)
const sheet = (more: object = {}): Fact =>
  factSchema.parse({
    kind: 'sample',
    sampledAt: '2026-11-18T09:00',
    receivedAt: '2026-11-18T12:00',
    results: [{ analyte: 'Total coliform', result: 'Absent', unit: 'per 100 mL' }],
    ...more,
  })
const si = (value: number) => ({ si: value, typed: String(value) })

describe('an owner', () => {
  test('writes what they read, see and send in', async () => {
    const lines: Fact[] = [
      sheet(),
      { kind: 'meter-reading', meter: 'volume', reading: si(12), explained: null },
      { kind: 'level-reading', level: si(2), state: 'rest' },
      { kind: 'flow-reading', flow: si(0.0005) },
      { kind: 'event', event: 'flooded' },
      { kind: 'event', event: 'ran-dry' },
      { kind: 'note', text: 'Could somebody come by?' },
      { kind: 'tank-level', level: 'half' },
      { kind: 'visit-request', about: 'flow', urgent: true },
      { kind: 'owner-answer', of: 'any-line', text: 'Yes' },
    ]
    for (const line of lines) expect((await send(line)).kind, line.kind).toBe('stored')
    const sources = db.sqlite.prepare('SELECT DISTINCT "source" FROM "Entry"').pluck().all()
    expect(sources).toEqual(['owner'])
  })

  test('writes nothing that is the outfit’s to say', async () => {
    const refused: Fact[] = [
      factSchema.parse({ kind: 'service-done', duties: ['sediment-cartridge'] }),
      factSchema.parse({ kind: 'water-step', step: 'flushed', chlorineGone: 'yes' }),
      factSchema.parse({ kind: 'water-step', step: 'chain-closed', by: 'Orla', reason: 'tastes fine' }),
      { kind: 'brush-length', lengths: [si(0.01)] },
      { kind: 'confirmation', of: 'any-line', verdict: 'confirmed' },
      { kind: 'visit-answer', of: 'any-line', state: 'done' },
      ...EVENTS.filter((event) => !['flooded', 'ran-dry', 'prime-lost'].includes(event)).map(
        (event): Fact => ({ kind: 'event', event }),
      ),
    ]
    for (const line of refused) expect((await send(line)).kind, JSON.stringify(line)).toBe('refused')
    expect(ownWell(db, owner(ownerId), wellId)?.visits).toEqual([])
  })

  test('cannot confirm a sheet, and a sheet says who sent it in, whatever it came with', async () => {
    expect((await send(sheet({ confirmedBy: 'Maren' }))).kind).toBe('stored')
    expect((await send(sheet({ enteredBy: 'outfit' }))).kind).toBe('stored')
    const seen = ownWell(db, owner(ownerId), wellId)
    expect(seen?.samples.map(({ unconfirmed }) => unconfirmed)).toEqual([true, true])
    // A clear sheet that nobody of the outfit has looked at never says that the water meets anything.
    expect(seen?.standing?.water.verdict).not.toBe('meets')
  })

  test('sees no well of another household, by whatever id', () => {
    expect(ownWell(db, owner('somebody-else'), wellId)).toBeNull()
    expect(ownWell(db, owner(null), wellId)).toBeNull()
    expect(ownWell(db, owner(ownerId), newId())).toBeNull()
  })
})

test('staff write every kind, and their sheets stay as they were sent', async () => {
  const outcome = await record(
    db,
    installer,
    [draft(sheet({ confirmedBy: 'Maren', enteredBy: 'owner' }))],
    AT,
    TODAY,
  )
  expect(outcome.kind).toBe('stored')
  expect(ownWell(db, owner(ownerId), wellId)?.samples.map(({ unconfirmed }) => unconfirmed)).toEqual([false])
})
