/// <reference lib="webworker" />
declare const self: ServiceWorkerGlobalScope

/**
 * Handed out in the worker's place where pages without signal are switched off (WELLROUND_OFFLINE=off): takes over, throws
 * away what the worker kept, and goes. Records that wait on the phone stay; pages send them.
 */
self.addEventListener('install', () => {
  void self.skipWaiting()
})
self.addEventListener('activate', (event) => {
  event.waitUntil(leave())
})

async function leave(): Promise<void> {
  for (const name of await caches.keys()) await caches.delete(name)
  await self.registration.unregister()
}

export {}
