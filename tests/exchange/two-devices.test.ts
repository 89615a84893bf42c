import fc from 'fast-check'
import { expect, test } from 'vitest'
import { factSchema } from '@/lib/domain/logbook/kinds'
import { UNMEASURED_WELL } from '@/lib/domain/logbook/test-result'
import { readSheet } from '@/lib/forms/sheet/read-sheet'
import { readTest } from '@/lib/forms/test-form'
import type { Db } from '@/lib/records/db'
import { refreshWell, standingOf } from '@/lib/records/standings'
import { AT, aWell, send, TODAY } from '../setup/batch'
import { freshDb } from '../setup/fresh-db'
import { recoveryTyped, sheetTyped } from '../setup/phone-forms'

/**
 * Two phones write to the logbook of one well without signal, each correcting and taking back lines of its own and of
 * the other, and send it all in pieces: shuffled, repeated, cut before arriving or with the answer lost. Whatever the
 * way, the logbook ends with every line once, and the standing is what a reckoning of all lines in one go gives.
 *
 * Tests and lab sheets go up as their forms were filled in. Lines that raise questions are left out: what they are asked depends on what is known when they come (batch.test.ts).
 */
type Op = {
  device: 0 | 1
  kind: 'note' | 'level' | 'event' | 'test' | 'sheet' | 'correct' | 'withdraw'
  pick: number
}
type Delivery = {
  device: 0 | 1
  share: number
  order: number
  fate: 'arrives' | 'lost on the way' | 'answer lost' | 'twice'
}
/** Something that waits on a phone, as it is sent, and the lines that it must become. */
type Item = { id: string; sent: Record<string, unknown>; lines: readonly Record<string, unknown>[] }

const op = fc.record<Op>({
  device: fc.constantFrom(0, 1),
  kind: fc.constantFrom('note', 'level', 'event', 'note', 'level', 'test', 'sheet', 'correct', 'withdraw'),
  pick: fc.nat(1000),
})
const delivery = fc.record<Delivery>({
  device: fc.constantFrom(0, 1),
  share: fc.integer({ min: 1, max: 12 }),
  order: fc.nat(1000),
  fate: fc.constantFrom('arrives', 'lost on the way', 'answer lost', 'twice'),
})

/** Rare branches that the run must have seen, each at least once. */
const sometimes = {
  repeated: 0,
  held: 0,
  lost: 0,
  answerLost: 0,
  rivals: 0,
  takenBack: 0,
  crossed: 0,
  forms: 0,
}

test('1,000 histories of two phones end in the same state, each line applied once', async () => {
  const db = await freshDb()
  db.sqlite.pragma('synchronous = OFF')
  let n = 0
  await fc.assert(
    fc.asyncProperty(
      fc.array(op, { minLength: 20, maxLength: 60 }),
      fc.array(delivery, { maxLength: 20 }),
      async (ops, deliveries) => {
        n += 1
        const wellId = await aWell(db, `H-${n}`)
        const queues = written(wellId, n, ops)
        const all = queues.flat()
        for (const each of deliveries) await deliver(db, queues, each)
        // The signal stays: what is left goes up, one phone after the other, until nothing waits.
        for (let i = 0; queues.some((queue) => queue.length > 0); i += 1) {
          if (i > 100) throw new Error(`still waiting: ${JSON.stringify(queues)}`)
          await deliver(db, queues, { device: i % 2 === 0 ? 0 : 1, share: 50, order: i, fate: 'arrives' })
        }
        expect(linesOf(db, wellId)).toEqual(
          all
            .flatMap(({ lines }) => lines)
            .map(plain)
            .sort(byId),
        )
        const kept = standingOf(db.sqlite, wellId)
        expect(refreshWell(db.sqlite, wellId)).toEqual(kept)
      },
    ),
    { numRuns: 1000, seed: 20261120 },
  )
  for (const [branch, times] of Object.entries(sometimes)) expect(times, branch).toBeGreaterThan(0)
})

/** What each phone has written, as it waits there. */
function written(wellId: string, n: number, ops: readonly Op[]): [Item[], Item[]] {
  const queues: [Item[], Item[]] = [[], []]
  const seen: { id: string; device: number }[] = []
  const corrected = new Set<string>()
  ops.forEach(({ device, kind, pick }, i) => {
    const id = idOf(n, i)
    const target =
      kind === 'correct' || kind === 'withdraw' ? seen[pick % Math.max(1, seen.length)] : undefined
    if (target) count(kind, target.device !== device, corrected.has(target.id))
    if (target && kind === 'correct') corrected.add(target.id)
    // A withdrawal cannot be corrected; everything else can be corrected and taken back.
    const form = kind === 'test' || kind === 'sheet' ? filled(kind, wellId, id, pick) : null
    if (form) sometimes.forms += 1
    if (!target || kind !== 'withdraw') seen.push({ id: String(form?.lines[0]?.id ?? id), device })
    queues[device].push(form ?? ofOneLine(wellId, id, { device, kind, pick }, target?.id ?? null))
  })
  return queues
}

/** A line, or a correction or withdrawal of the line `target`. */
function ofOneLine(wellId: string, id: string, { device, kind, pick }: Op, target: string | null): Item {
  const entry = {
    id,
    wellId,
    visitId: id,
    occurredOn: TODAY,
    occurredTime: null,
    byName: `phone ${device}`,
    supersedes: kind === 'correct' ? target : null,
    withdraws: kind === 'withdraw' ? target : null,
    payload: target ? about(kind, pick) : fact(pick),
  }
  return { id, sent: { kind: 'entries', id, entries: [entry] }, lines: [entry] }
}

/** A test or a lab sheet as typed, with the lines that the server's reading of it must give. */
function filled(kind: 'test' | 'sheet', wellId: string, id: string, pick: number): Item {
  const known = { wellId, today: TODAY, system: 'us' as const }
  const typed = { ...(kind === 'test' ? recoveryTyped() : sheetTyped()), visitId: id, note: `form ${pick}` }
  const reading =
    kind === 'test'
      ? readTest('recovery', typed, { ...known, well: UNMEASURED_WELL })
      : readSheet(typed, 'save', known)
  if (!reading.ok) throw new Error(JSON.stringify(reading))
  const sent = { kind, id, wellId, units: 'us', typed, ...(kind === 'test' ? { test: 'recovery' } : {}) }
  return { id, sent, lines: reading.drafts }
}

function count(kind: Op['kind'], crossed: boolean, again: boolean): void {
  if (crossed) sometimes.crossed += 1
  if (kind === 'withdraw') sometimes.takenBack += 1
  else if (again) sometimes.rivals += 1
}

const about = (kind: Op['kind'], pick: number) =>
  kind === 'withdraw'
    ? { kind: 'withdrawal', reason: 'not here' }
    : {
        kind: 'correction',
        reason: 'misread',
        occurredOn: TODAY,
        occurredTime: null,
        replacement: fact(pick),
      }

const fact = (pick: number) =>
  factSchema.parse(
    [
      { kind: 'note', text: `note ${pick}` },
      { kind: 'level-reading', level: { si: 1 + (pick % 300) / 100, typed: `${pick}` }, state: 'rest' },
      { kind: 'event', event: pick % 2 === 0 ? 'flooded' : 'ran-dry' },
    ][pick % 3],
  )

/** In order of writing, as ids made on a device are. */
const idOf = (history: number, i: number) =>
  `019a${String(history).padStart(4, '0')}-${String(i).padStart(4, '0')}-7000-8000-000000000000`

async function deliver(db: Db, queues: [Item[], Item[]], { device, share, order, fate }: Delivery) {
  const queue = queues[device]
  const items = shuffled(queue, order).slice(0, share)
  if (items.length === 0) return
  if (fate === 'lost on the way') {
    sometimes.lost += 1
    return
  }
  let answers = await send(db, sentOf(items), { at: AT })
  if (fate === 'twice') answers = await send(db, sentOf(shuffled(items, order + 1)), { at: AT })
  if (answers.some(({ outcome }) => outcome === 'already')) sometimes.repeated += 1
  if (answers.some(({ outcome }) => outcome === 'later')) sometimes.held += 1
  if (fate === 'answer lost') {
    sometimes.answerLost += 1
    return
  }
  const refused = answers.find(({ outcome }) => outcome === 'refused')
  if (refused) throw new Error(JSON.stringify(refused))
  const done = new Set(
    answers.flatMap((a) => (a.outcome === 'stored' || a.outcome === 'already' ? [a.id] : [])),
  )
  queues[device] = queue.filter(({ id }) => !done.has(id))
}

const sentOf = (items: readonly Item[]) => items.map(({ sent }) => sent)

function shuffled<T>(list: readonly T[], seed: number): T[] {
  const rank = (i: number) => Math.imul(i + 1, 2654435761 + seed * 40503) >>> 0
  return list
    .map((item, i) => ({ item, r: rank(i) }))
    .sort((a, b) => a.r - b.r)
    .map(({ item }) => item)
}

const plain = ({ id, wellId, visitId, payload, supersedes, withdraws }: Record<string, unknown>) => ({
  id,
  wellId,
  visitId,
  payload: JSON.stringify(payload),
  supersedes,
  withdraws,
})
const byId = (a: { id: unknown }, b: { id: unknown }) => (String(a.id) < String(b.id) ? -1 : 1)

const linesOf = (db: Db, wellId: string) =>
  (db.sqlite.prepare('SELECT * FROM "Entry" WHERE "wellId" = ?').all(wellId) as Record<string, unknown>[])
    .map((row) => plain({ ...row, payload: JSON.parse(String(row.payload)) }))
    .sort(byId)
