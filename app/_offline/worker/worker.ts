/// <reference lib="webworker" />
import { type PrecacheEntry, Route, Serwist } from 'serwist'
import { sendAll } from '../send'
import { SYNC_TAG } from '../sync-tag'
import { person } from '../taken'

/** `patienceMs` is written before the script by whoever hands it out (app/sw.js), where the outfit chose one. */
declare const self: ServiceWorkerGlobalScope & { patienceMs?: number }
/** What the build made for phones: one page without data, its script, style and font. */
declare const PRECACHED: PrecacheEntry[]

/**
 * Keeps the files of the build for pages without signal, and nothing that anybody wrote: no page, no answer of the server is
 * ever put in the cache. What a phone carries lies in its store (see ../store), under its own rules.
 *
 * A new worker takes over at once and reloads nothing: a page that is open goes on with the script it has loaded.
 */
const serwist = new Serwist({
  precacheEntries: PRECACHED,
  skipWaiting: true,
  clientsClaim: true,
  navigationPreload: false,
  precacheOptions: { cleanupOutdatedCaches: true },
})

const SHELL = '/offline/shell.html'
/** Pages that the phone can show by itself: where the signal is too weak to answer in this time, it does. */
const PATIENCE_MS = self.patienceMs ?? 10_000

serwist.registerRoute(
  new Route(
    ({ request, sameOrigin }) => sameOrigin && request.mode === 'navigate' && request.method === 'GET',
    async ({ request, url }) => {
      if (url.pathname === '/unsent') return shell(request)
      try {
        return await fetch(request, { signal: AbortSignal.timeout(PATIENCE_MS) })
      } catch {
        // No signal, or one too weak to carry a page: the phone's own page says what is there.
        return shell(request)
      }
    },
  ),
)
// One by one: all together they would bring one for messages, by which a page puts addresses into the cache.
self.addEventListener('install', serwist.handleInstall)
self.addEventListener('activate', serwist.handleActivate)
self.addEventListener('fetch', serwist.handleFetch)

async function shell(request: Request): Promise<Response> {
  return (await serwist.matchPrecache(SHELL)) ?? fetch(request)
}

self.addEventListener('sync', (event) => {
  if (!isSync(event) || event.tag !== SYNC_TAG) return
  event.waitUntil(sendWaiting())
})

/** Answers when everything has been sent; throws otherwise, so that the browser wakes the worker again. */
async function sendWaiting(): Promise<void> {
  const who = await person()
  const outcome = who === null ? null : await sendAll(who.id, true)
  if (outcome && !outcome.reached) throw new Error('the server was not reached')
}

/** Background Sync is not in every browser, nor in TypeScript's list of events. */
function isSync(event: Event): event is ExtendableEvent & { tag: string } {
  return 'tag' in event && 'waitUntil' in event
}
