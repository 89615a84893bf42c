/** A well test while it is being read: what the device keeps, and how each tap and keystroke changes it. */

export const TEST_KINDS = ['recovery', 'drawdown', 'step'] as const
export type TestKind = (typeof TEST_KINDS)[number]

/**
 * One reading. `atMs` is the instant of the tap (ms since 1970), null for a row typed by hand. `elapsed` is what was
 * typed over the stamp, '' where the stamp stands. A struck reading stays on the device and is not sent.
 */
export type KeptReading = {
  id: number
  atMs: number | null
  elapsed: string
  level: string
  struck: boolean
}

export type TestDraft = {
  /** Made on the device: the same test sent twice is stored once. */
  visitId: string
  /** The instant at which the pump stopped (or started); elapsed time is always counted from it, whatever slept since. */
  startedAtMs: number | null
  /** The other fields of the form, as typed. */
  fields: Readonly<Record<string, string>>
  readings: readonly KeptReading[]
  /** How many acts it has seen: of two copies of one test the one with more is the newer. */
  acts?: number
}

export type TestAct =
  | { type: 'start'; atMs: number; date: string; time: string }
  | { type: 'take-back-start' }
  | { type: 'tap'; atMs: number }
  | { type: 'row'; elapsed?: string; level?: string }
  | { type: 'level'; id: number; text: string }
  | { type: 'elapsed'; id: number; text: string }
  | { type: 'strike'; id: number }
  | { type: 'put-back'; id: number }
  | { type: 'field'; name: string; text: string }

/** A wet thumb bounces: a second tap within this time is the same reading. */
const BOUNCE_MS = 800

export const emptyDraft = (visitId: string): TestDraft => ({
  visitId,
  startedAtMs: null,
  fields: {},
  readings: [],
})

/** The draft after an act. An act that makes no sense now (a second start, a tap before the start) changes nothing. */
export function reduceTest(draft: TestDraft, act: TestAct): TestDraft {
  const next = acted(draft, act)
  return next === draft ? draft : { ...next, acts: (draft.acts ?? 0) + 1 }
}

function acted(draft: TestDraft, act: TestAct): TestDraft {
  switch (act.type) {
    case 'start':
      if (draft.startedAtMs !== null) return draft
      return {
        ...draft,
        startedAtMs: act.atMs,
        fields: { ...draft.fields, date: act.date, time: act.time },
      }
    case 'take-back-start':
      // Once a reading hangs on it the start is not taken back: it would move every time.
      return draft.readings.some((r) => r.atMs !== null) ? draft : { ...draft, startedAtMs: null }
    case 'tap':
      return tapped(draft, act.atMs)
    case 'row':
      return withReading(draft, { atMs: null, elapsed: act.elapsed ?? '', level: act.level ?? '' })
    case 'level':
      return changed(draft, act.id, { level: act.text })
    case 'elapsed':
      return changed(draft, act.id, { elapsed: act.text })
    case 'strike':
      return changed(draft, act.id, { struck: true })
    case 'put-back':
      return changed(draft, act.id, { struck: false })
    case 'field':
      return { ...draft, fields: { ...draft.fields, [act.name]: act.text } }
  }
}

function tapped(draft: TestDraft, atMs: number): TestDraft {
  if (draft.startedAtMs === null) return draft
  const last = draft.readings.findLast((r) => r.atMs !== null)
  if (last?.atMs != null && Math.abs(atMs - last.atMs) < BOUNCE_MS) return draft
  return withReading(draft, { atMs, elapsed: '', level: '' })
}

function withReading(draft: TestDraft, reading: Pick<KeptReading, 'atMs' | 'elapsed' | 'level'>): TestDraft {
  const id = draft.readings.reduce((most, r) => Math.max(most, r.id), 0) + 1
  return { ...draft, readings: [...draft.readings, { id, ...reading, struck: false }] }
}

function changed(draft: TestDraft, id: number, change: Partial<KeptReading>): TestDraft {
  return { ...draft, readings: draft.readings.map((r) => (r.id === id ? { ...r, ...change } : r)) }
}

/** Seconds from the start to a reading's stamp; null where there is no stamp or no start. */
export function stampS(draft: TestDraft, reading: KeptReading): number | null {
  if (reading.atMs === null || draft.startedAtMs === null) return null
  return Math.round((reading.atMs - draft.startedAtMs) / 1000)
}

/** The time of a reading as it stands in its field: what was typed, or else its stamp. */
export function elapsedText(draft: TestDraft, reading: KeptReading): string {
  if (reading.elapsed !== '') return reading.elapsed
  const seconds = stampS(draft, reading)
  return seconds === null ? '' : sayElapsed(seconds)
}

/** Seconds as the form reads them back: "1 h 2 min 5 s". A clock set back gives a time below zero, told as it is. */
export function sayElapsed(seconds: number): string {
  if (seconds < 0) return `-${-seconds} s`
  const hours = Math.floor(seconds / 3600)
  const minutes = Math.floor((seconds % 3600) / 60)
  const rest = seconds % 60
  const parts = [hours ? `${hours} h` : '', minutes ? `${minutes} min` : '', rest ? `${rest} s` : '']
  return parts.filter(Boolean).join(' ') || '0 s'
}

/** The readings that are sent: not struck, and with something in them. */
export function readingsToSend(draft: TestDraft): KeptReading[] {
  return draft.readings.filter((r) => !r.struck && (r.atMs !== null || r.elapsed !== '' || r.level !== ''))
}

/**
 * Which of two copies that a device kept goes on: that of the test begun later (ids of tests are in the order in which
 * they were made), and of one test the copy that has seen more.
 */
export function newerDraft(a: TestDraft | null, b: TestDraft | null): TestDraft | null {
  if (!a || !b) return a ?? b
  if (a.visitId !== b.visitId) return a.visitId > b.visitId ? a : b
  return (a.acts ?? 0) >= (b.acts ?? 0) ? a : b
}

/** Under what name a device keeps the test that a person runs at a well. */
export const testDraftKey = (kind: TestKind, wellId: string, userId: string) =>
  `test-${kind}-${wellId}-${userId}`

/** A draft as it was written to the device; null where the text is no draft (nothing kept, or cut short). */
export function draftFrom(text: string | null): TestDraft | null {
  if (text === null) return null
  try {
    const kept: unknown = JSON.parse(text)
    return isDraft(kept) ? kept : null
  } catch {
    // Cut short in the middle of writing: browsers write an item whole or not at all, so this is somebody else's text.
    return null
  }
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
const isInstant = (value: unknown) => value === null || (typeof value === 'number' && Number.isFinite(value))

function isDraft(value: unknown): value is TestDraft {
  return (
    isRecord(value) &&
    typeof value.visitId === 'string' &&
    isInstant(value.startedAtMs) &&
    isRecord(value.fields) &&
    Object.values(value.fields).every((text) => typeof text === 'string') &&
    (value.acts === undefined || typeof value.acts === 'number') &&
    Array.isArray(value.readings) &&
    value.readings.every(isReading)
  )
}

function isReading(value: unknown): value is KeptReading {
  return (
    isRecord(value) &&
    typeof value.id === 'number' &&
    isInstant(value.atMs) &&
    typeof value.elapsed === 'string' &&
    typeof value.level === 'string' &&
    typeof value.struck === 'boolean'
  )
}
