import type { BatchReply, ItemAnswer, Refusal } from '@/lib/exchange/batch/shape'
import { tellChanged, tidy } from './queue'
import { openStore, type QueuedPhoto, type QueuedVisit } from './store'

/** A batch is far below what the server takes, so that a weak signal carries some of it through. */
const ITEMS_IN_BATCH = 20
const CHARS_IN_BATCH = 200_000
const BACK_OFF_MS = 5_000
const BACK_OFF_MAX_MS = 10 * 60_000
const LOCK = 'wellround-send'
/** How long a person's own sending waits for another one to end. */
const TURN_MS = 15_000

export type Sent = { sent: number; left: number; reached: boolean }

type World = { fetch: typeof fetch; now: () => number }
const REAL: World = { fetch: (...args) => fetch(...args), now: () => Date.now() }

/**
 * Sends what waits on this phone for a person: records in batches, then photos. One page or the worker at a time.
 * Whatever happens, each record is afterwards sent, or still there with its reason.
 *
 * Shape   `eager`: at once, without waiting out what failed a moment ago; when the signal returns, or a person asks. It waits
 *         a while for its turn: the worker, woken by the same record, is often at it, and what it sent has arrived.
 * Answer  how many arrived and how many are left; `reached`: whether the server gave an answer at all. Null where
 *         another page is sending already.
 */
export async function sendAll(user: string, eager = false, world: World = REAL): Promise<Sent | null> {
  const work = async () => {
    try {
      return await sendNow(user, eager, world)
    } finally {
      tellChanged()
    }
  }
  if (typeof navigator === 'undefined' || !navigator.locks) return work()
  const turn = new AbortController()
  const patience = eager ? setTimeout(() => turn.abort(), TURN_MS) : undefined
  const how = eager ? { signal: turn.signal } : { ifAvailable: true }
  try {
    return await navigator.locks.request(LOCK, how, (lock) => {
      clearTimeout(patience)
      return lock ? work() : null
    })
  } catch (error) {
    if (turn.signal.aborted) return null
    throw error
  } finally {
    clearTimeout(patience)
  }
}

async function sendNow(user: string, eager: boolean, world: World): Promise<Sent> {
  await tidy(world.now())
  const until = eager ? Number.POSITIVE_INFINITY : world.now()
  const tried = new Set<string>()
  let sent = 0
  let reached = true
  while (reached) {
    const batch = await nextBatch(user, until, tried)
    if (batch.length === 0) break
    for (const { id } of batch) tried.add(id)
    const outcome = await sendBatch(user, batch, world)
    sent += outcome.sent
    reached = outcome.reached
  }
  if (reached) {
    const photos = await sendPhotos(user, until, world)
    sent += photos.sent
    reached = photos.reached
  }
  const db = await openStore()
  const [items, photos] = await Promise.all([
    db.getAllFromIndex('items', 'user', user),
    db.getAllKeysFromIndex('photos', 'user', user),
  ])
  return { sent, reached, left: items.filter(({ state }) => state !== 'sent').length + photos.length }
}

/** The oldest records that may be sent now. One that was on its way when its page ended is sent again: the server knows it. */
async function nextBatch(user: string, until: number, tried: ReadonlySet<string>): Promise<QueuedVisit[]> {
  const items = await (await openStore()).getAllFromIndex('items', 'user', user)
  const due = items
    .filter(({ id }) => !tried.has(id))
    .filter(({ state, notBefore }) => (state === 'saved' || state === 'sending') && notBefore <= until)
    .sort((a, b) => (a.savedAt < b.savedAt ? -1 : 1))
  const [first] = due
  if (!first) return []
  const batch: QueuedVisit[] = []
  let size = 0
  for (const item of due) {
    size += JSON.stringify(item.typed).length
    if (batch.length > 0 && (batch.length === ITEMS_IN_BATCH || size > CHARS_IN_BATCH)) break
    // Each batch is of one form: records written by an earlier edition go by themselves.
    if (item.version === first.version) batch.push(item)
  }
  return batch
}

async function sendBatch(user: string, batch: QueuedVisit[], world: World): Promise<Omit<Sent, 'left'>> {
  await change(batch, (item) => ({ ...item, state: 'sending' }))
  tellChanged()
  const items = batch.map(({ kind, test, id, wellId, units, typed, savedAt }) => ({
    ...{ kind, id, wellId, units, typed, savedAt },
    ...(test ? { test } : {}),
  }))
  const body = JSON.stringify({ version: batch[0]?.version, user, device: 'phone', items })
  const answer = await ask(world, '/api/v1/batches', body, 'application/json')
  if (answer.kind === 'none') {
    await change(batch, (item) => later(item, answer.why, world.now()))
    return { sent: 0, reached: false }
  }
  if (answer.kind === 'refused') {
    await change(batch, (item) => ({ ...item, state: 'refused', why: [answer.why] }))
    return { sent: 0, reached: true }
  }
  const { answers } = answer.json as BatchReply
  const at = new Date(world.now()).toISOString()
  await change(batch, (item, i) => settled(item, answers[i], at, world.now()))
  return {
    sent: answers.filter(({ outcome }) => outcome === 'stored' || outcome === 'already').length,
    reached: true,
  }
}

/** A record after the server's word about it. Only a word that it is stored lets its content go. */
function settled(item: QueuedVisit, answer: ItemAnswer | undefined, at: string, nowMs: number): QueuedVisit {
  if (!answer || answer.id !== item.id) return later(item, NO_ANSWER, nowMs)
  switch (answer.outcome) {
    case 'stored':
    case 'already':
      return emptied(item, at)
    case 'refused':
      return { ...item, state: 'refused', why: answer.why, questions: answer.questions ?? {} }
    case 'later':
      return later(item, { field: '', wrong: answer.why, todo: '' }, nowMs)
  }
}

/** What the server has, the phone lets go: of the record it keeps that it was sent, and where it leads. */
function emptied({ marks: _, ...item }: QueuedVisit, at: string): QueuedVisit {
  return { ...item, state: 'sent', sentAt: at, typed: {}, questions: {}, why: [] }
}

async function sendPhotos(user: string, until: number, world: World): Promise<Omit<Sent, 'left'>> {
  const db = await openStore()
  const [items, photos] = await Promise.all([
    db.getAllFromIndex('items', 'user', user),
    db.getAllFromIndex('photos', 'user', user),
  ])
  const waiting = new Set(items.filter(({ state }) => state !== 'sent').map(({ id }) => id))
  let sent = 0
  for (const photo of photos) {
    if (waiting.has(photo.visit) || photo.state === 'refused' || photo.notBefore > until) continue
    const { id, visit, name, sha256, bytes } = photo
    const query = new URLSearchParams({ version: '1', user, id, visit, name, sha256 })
    const answer = await ask(world, `/api/v1/photos?${query}`, bytes, 'application/octet-stream')
    if (answer.kind === 'none') {
      await db.put('photos', later(photo, answer.why, world.now()))
      return { sent, reached: false }
    }
    const outcome = answer.kind === 'refused' ? null : (answer.json as { outcome: string; why: unknown })
    if (outcome?.outcome === 'stored' || outcome?.outcome === 'already') {
      await db.delete('photos', id)
      sent += 1
    } else if (outcome?.outcome === 'later') {
      await db.put('photos', later(photo, { field: '', wrong: String(outcome.why), todo: '' }, world.now()))
    } else {
      const why = answer.kind === 'refused' ? [answer.why] : (outcome?.why as Refusal[])
      await db.put('photos', { ...photo, state: 'refused', why })
    }
  }
  return { sent, reached: true }
}

type Answer =
  | { kind: 'answer'; json: unknown }
  /** The server looked at it and takes none of it. */
  | { kind: 'refused'; why: Refusal }
  | { kind: 'none'; why: Refusal }

async function ask(world: World, url: string, body: string | ArrayBuffer, type: string): Promise<Answer> {
  try {
    const response = await world.fetch(url, {
      method: 'POST',
      body,
      headers: { 'Content-Type': type },
      credentials: 'same-origin',
      signal: AbortSignal.timeout(60_000),
    })
    if (response.status === 401) return { kind: 'none', why: SIGN_IN }
    if (response.status >= 500) return { kind: 'none', why: FAULT }
    const json: unknown = await response.json().catch(() => null)
    if (response.ok && json !== null) return { kind: 'answer', json }
    return { kind: 'refused', why: { ...NOT_TAKEN, ...wordsOf(json) } }
  } catch {
    // No connection, or one that broke off: nobody knows whether it arrived. The ids make sending again harmless.
    return { kind: 'none', why: NO_SIGNAL }
  }
}

function wordsOf(json: unknown): Partial<Refusal> {
  if (typeof json !== 'object' || json === null || !('wrong' in json) || !('todo' in json)) return {}
  return { wrong: String(json.wrong), todo: String(json.todo) }
}

const NO_SIGNAL: Refusal = { field: '', wrong: 'There was no signal', todo: '' }
const NO_ANSWER: Refusal = { field: '', wrong: 'The server gave no answer about it', todo: '' }
const FAULT: Refusal = { field: '', wrong: 'The server had a fault', todo: '' }
const SIGN_IN: Refusal = { field: '', wrong: 'Nobody is signed in', todo: 'Sign in again, and it is sent' }
const NOT_TAKEN: Refusal = {
  field: '',
  wrong: 'The server does not take this',
  todo: 'Save it as a file, and ask whoever keeps the register',
}

/** Kept, to be tried again: soon at first, then less often, at most every ten minutes. */
function later<T extends QueuedVisit | QueuedPhoto>(item: T, why: Refusal, nowMs: number): T {
  const wait = Math.min(BACK_OFF_MAX_MS, BACK_OFF_MS * 2 ** item.tries)
  return { ...item, state: 'saved', why: [why], tries: item.tries + 1, notBefore: nowMs + wait }
}

/** Writes back each record; one that was deleted or written anew meanwhile stays as the person left it. */
async function change(batch: readonly QueuedVisit[], how: (item: QueuedVisit, i: number) => QueuedVisit) {
  const tx = (await openStore()).transaction('items', 'readwrite')
  for (const [i, { id }] of batch.entries()) {
    const item = await tx.store.get(id)
    if (item && item.savedAt === batch[i]?.savedAt) await tx.store.put(how(item, i))
  }
  await tx.done
}
