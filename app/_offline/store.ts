import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { Refusal } from '@/lib/exchange/batch/shape'
import type { TestKind } from '@/lib/forms/test/draft'
import type { Question } from '@/lib/forms/visit/reader'

/**
 * `saved`: on this phone, to be sent. `sending`: on its way, or cut off on its way. `refused`: a person must look.
 * `sent`: stored by the server; kept a while to be seen, without its content.
 */
export type ItemState = 'saved' | 'sending' | 'refused' | 'sent'

type Waiting = {
  id: string
  /** Who wrote it: shown to and sent for nobody else. */
  user: string
  state: ItemState
  /** Why it was not sent or not taken; empty where nothing went wrong. */
  why: Refusal[]
  tries: number
  /** Not sent again by itself before this, in ms since 1970. */
  notBefore: number
}

/** On which form it was written: that of a visit, of a well test, or of a lab sheet. Each is a visit of its own. */
export type Written = { kind: 'visit' | 'sheet' } | { kind: 'test'; test: TestKind }

/** A visit as typed, with where and when. */
export type QueuedVisit = Waiting & {
  kind: Written['kind']
  /** Which test it is. */
  test?: TestKind
  /** The clock and the stamps of a test as JSON, so that it goes on where it was when it is opened again. */
  marks?: string
  /** The form of batch that it was written for. */
  version: number
  wellId: string
  label: string
  units: 'us' | 'metric'
  typed: Record<string, string>
  /** The stop that it closes, kept when the content has gone: the round shows that it was closed here. */
  stopId?: string
  questions: Record<string, Question>
  savedAt: string
  sentAt: string | null
}

export type QueuedPhoto = Waiting & {
  /** The visit it belongs to. */
  visit: string
  name: string
  type: string
  bytes: ArrayBuffer
  sha256: string
}

/** A photo of a place that was taken along. */
export type Picture = { id: string; blob: Blob }

/** A well or a round taken along, with the photos of its places. `data` is checked again each time it is read. */
export type Taken = {
  key: string
  user: string
  takenAt: string
  label: string
  data: unknown
  pictures?: Picture[]
}

export interface Schema extends DBSchema {
  items: { key: string; value: QueuedVisit; indexes: { user: string } }
  photos: { key: string; value: QueuedPhoto; indexes: { user: string; visit: string } }
  taken: { key: string; value: Taken }
  meta: { key: string; value: string }
}
export type Store = IDBPDatabase<Schema>

const NAME = 'wellround'
let opened: Promise<Store> | null = null

/** The phone's own store, opened once a page. Throws what the browser throws where it allows none. */
export function openStore(): Promise<Store> {
  opened ??= openDB<Schema>(NAME, 1, {
    upgrade(db) {
      db.createObjectStore('items', { keyPath: 'id' }).createIndex('user', 'user')
      const photos = db.createObjectStore('photos', { keyPath: 'id' })
      photos.createIndex('user', 'user')
      photos.createIndex('visit', 'visit')
      db.createObjectStore('taken', { keyPath: 'key' })
      db.createObjectStore('meta')
    },
    // A page of a newer edition wants to change the store: let it, and open anew when needed.
    blocking: () => closeStore(),
    terminated: () => {
      opened = null
    },
  }).catch((error) => {
    opened = null
    throw error
  })
  return opened
}

/** Closes the store of this page; the next use opens it again. */
export async function closeStore(): Promise<void> {
  const was = opened
  opened = null
  if (was) (await was).close()
}

/** Why this phone could not keep something, and what to do, in words for the person who holds it. */
export function storageRefusal(error: unknown): string {
  const name = error instanceof DOMException || error instanceof Error ? error.name : ''
  if (name === 'QuotaExceededError')
    return 'Not saved: there is no room left on this phone. Make room (photos, other apps), then save again. What you typed still stands here.'
  if (name === 'SecurityError' || name === 'InvalidStateError' || name === 'UnknownError')
    return 'Not saved: this browser keeps nothing, as in a private window. Open Wellround in an ordinary window, or stay on this page until there is signal. What you typed still stands here.'
  return 'Not saved: this browser could not write it down. Stay on this page until there is signal and save again. What you typed still stands here.'
}
