import { AsyncLocalStorage } from 'node:async_hooks'

/**
 * One writer at a time in this process. SQLite allows one writing transaction; two connections
 * of one process that each hold half of one would wait for each other for ever.
 */
type Turns = { holder: AsyncLocalStorage<true>; last: Promise<unknown> }

declare global {
  // The server loads this module once for pages and once for route handlers: their turns are the same turns.
  var wellroundTurns: Turns | undefined
}

globalThis.wellroundTurns ??= { holder: new AsyncLocalStorage<true>(), last: Promise.resolve() }
const turns = globalThis.wellroundTurns

/** Whether the present call chain already holds the turn. */
export function currentlyHeld(): boolean {
  return turns.holder.getStore() === true
}

/** Runs `work` when every earlier turn has ended; within a turn, runs it at once. */
export function exclusively<T>(work: () => T | Promise<T>): Promise<T> {
  if (currentlyHeld()) return Promise.resolve(work())
  const mine = turns.last.then(() => turns.holder.run(true, async () => work()))
  // A failed turn must not stop the ones behind it; its own caller still sees the failure.
  turns.last = mine.catch(() => undefined)
  return mine
}
