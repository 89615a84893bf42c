import { DRAFT_PREFIX } from '@/app/ui/keep-draft'
import type { Asking } from '@/app/ui/with-questions'
import { typedFields } from '@/lib/forms/form'
import { lineId } from '@/lib/forms/visit/lines'
import { paths } from '@/lib/paths'
import { dropMarks } from './marks'
import { type NewPhoto, type NewVisit, saveVisit } from './queue'
import { sha256 } from './sha256'
import { openStore, type QueuedVisit, storageRefusal, type Written } from './store'
import { SYNC_TAG } from './sync-tag'

/** Whose visit it is, and where. */
export type About = {
  user: string
  wellId: string
  label: string
  units: 'us' | 'metric'
  draftKey: string
  /** On which form; a visit where it is not said. */
  written?: Written | undefined
  /** The round that a stop closed by this visit is on. */
  roundId?: string | undefined
}

/**
 * Keeps a filled visit form on this phone, with its photos, and sends it where there is signal. Says "saved" only after
 * the phone's store has it. What the server refuses or asks at once comes back into the form.
 */
export async function keepVisit(form: FormData, about: About, at: Date = new Date()): Promise<Asking> {
  const typed = typedFields(form)
  // A stop is closed when it is written down, not when there is signal again.
  if (typed.stopId) typed.stopMadeAt = at.toISOString()
  const { user, wellId, label, units, written } = about
  const id = typed.visitId ?? ''
  const draft = DRAFT_PREFIX + about.draftKey
  const marks = written?.kind === 'test' ? localStorage.getItem(draft) : null
  try {
    const visit: NewVisit = {
      ...{ id, user, wellId, label, units, typed, savedAt: at.toISOString() },
      ...(written ?? {}),
      ...(marks ? { marks } : {}),
      ...(typed.stopId ? { stopId: typed.stopId } : {}),
    }
    await saveVisit(visit, await photosOf(form))
  } catch (error) {
    return { typed, errors: {}, questions: {}, message: storageRefusal(error) }
  }
  // The record holds it now. Marks that could not be removed are those of the same test: sent again, it is stored once.
  if (written?.kind === 'test') await dropMarks(draft).catch(() => undefined)
  localStorage.removeItem(draft)
  await stay()
  await wakeLater()
  return navigator.onLine ? sentOrKept(id, about, typed, at) : saved(at)
}

/** Tries at once; a visit that arrives leads to its well, one that is refused comes back, any other is kept. */
async function sentOrKept(id: string, about: About, typed: Asking['typed'], at: Date): Promise<Asking> {
  try {
    const { sendAll } = await import('./send')
    await sendAll(about.user, true)
  } catch {
    // The part of the page that sends could not be loaded: the signal is not there after all.
    return saved(at)
  }
  const item = await (await openStore()).get('items', id)
  if (item?.state === 'sent') {
    location.assign(pageAfter(about, id, typed.stopId))
    return { typed: {}, errors: {}, questions: {}, done: `Sent at ${clock(new Date())}.` }
  }
  return item?.state === 'refused' ? askedAgain(item, typed) : saved(at)
}

/** Where the server leads after the same form. */
function pageAfter({ wellId, roundId, written }: About, id: string, stopId?: string): string {
  if (written?.kind === 'test') return paths.test(wellId, lineId(id, written.test), { saved: id })
  if (written?.kind === 'sheet') return paths.sample(wellId, lineId(id, 'sample'), { saved: 'yes' })
  if (!roundId || !stopId) return `${paths.well(wellId)}?saved=${id}`
  return `${paths.round(roundId, { closed: stopId })}#stop-${stopId}`
}

/** A refused record as the form that it came from. */
export function askedAgain(item: Pick<QueuedVisit, 'why' | 'questions'>, typed: Asking['typed']): Asking {
  const asked = new Set(Object.keys(item.questions))
  const errors = item.why.filter(({ field }) => field !== '' && !asked.has(field))
  const loose = item.why.filter(({ field }) => field === '').map(({ wrong, todo }) => `${wrong}. ${todo}`)
  return {
    typed,
    errors: Object.fromEntries(errors.map(({ field, wrong }) => [field, wrong])),
    questions: item.questions,
    ...(loose.length > 0 ? { message: loose.join(' ') } : {}),
  }
}

const saved = (at: Date): Asking => ({
  typed: {},
  errors: {},
  questions: {},
  done: `Saved on this phone at ${clock(at)}. It is sent when there is signal.`,
})

/** HH:MM where the phone is. */
export const clock = (at: Date): string =>
  `${String(at.getHours()).padStart(2, '0')}:${String(at.getMinutes()).padStart(2, '0')}`

/** The chosen photos with their bytes; the field of a form without any holds one empty file. */
export async function photosOf(form: FormData): Promise<NewPhoto[]> {
  const files = form.getAll('photo').filter((file): file is File => file instanceof File && file.size > 0)
  return Promise.all(
    files.map(async (file) => {
      const bytes = await file.arrayBuffer()
      return { id: crypto.randomUUID(), name: file.name, type: file.type, bytes, sha256: await sha256(bytes) }
    }),
  )
}

/** Asks the browser not to clear this site's store when it runs short of room. It may say no; the list says so. */
async function stay(): Promise<void> {
  if (!navigator.storage?.persist || (await navigator.storage.persisted())) return
  await navigator.storage.persist()
}

/** Asks the browser to wake the worker when the signal returns, where it can: elsewhere the next page opened sends. */
async function wakeLater(): Promise<void> {
  if (!('serviceWorker' in navigator)) return
  const registration = await navigator.serviceWorker.getRegistration()
  const sync = registration && 'sync' in registration ? registration.sync : null
  if (!isSync(sync)) return
  try {
    await sync.register(SYNC_TAG)
  } catch {
    // Not allowed here (a private window, or switched off): the page itself sends on "online" and when it is opened.
  }
}

function isSync(sync: unknown): sync is { register(tag: string): Promise<void> } {
  return typeof sync === 'object' && sync !== null && 'register' in sync
}
