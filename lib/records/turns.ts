import { AsyncLocalStorage } from 'node:async_hooks'

/**
 * One writer at a time in this process. SQLite allows one writing transaction; two connections
 * of one process that each hold half of one would wait for each other for ever.
 */
const holder = new AsyncLocalStorage<true>()
let last: Promise<unknown> = Promise.resolve()

/** Whether the present call chain already holds the turn. */
export function currentlyHeld(): boolean {
  return holder.getStore() === true
}

/** Runs `work` when every earlier turn has ended; within a turn, runs it at once. */
export function exclusively<T>(work: () => T | Promise<T>): Promise<T> {
  if (currentlyHeld()) return Promise.resolve(work())
  const mine = last.then(() => holder.run(true, async () => work()))
  // A failed turn must not stop the ones behind it; its own caller still sees the failure.
  last = mine.catch(() => undefined)
  return mine
}
