import 'fake-indexeddb/auto'
import { expect, test, vi } from 'vitest'
import { saveVisit } from '@/app/_offline/queue'
import { sendAll } from '@/app/_offline/send'
import { freshDb } from '../setup/fresh-db'
import { lines, visit, world } from '../setup/phone-world'

test('what waits is sent in turn: a person waits for the worker that is at it, and finds everything sent', async () => {
  const db = await freshDb()
  const { world: w } = world(db)
  await saveVisit(await visit(db, { note: 'in turn' }))
  let last: Promise<unknown> = Promise.resolve()
  let held = 0
  type Work = (lock: object | null) => unknown
  const request = async (_name: string, how: { ifAvailable?: boolean }, work: Work) => {
    if (how.ifAvailable && held > 0) return work(null)
    held += 1
    const mine = last
      .then(() => work({}))
      .finally(() => {
        held -= 1
      })
    last = mine
    return mine
  }
  vi.stubGlobal('navigator', { locks: { request } })
  try {
    const answers = await Promise.all([
      sendAll('joss', true, w),
      sendAll('joss', false, w),
      sendAll('joss', true, w),
    ])
    expect(answers).toEqual([{ sent: 1, left: 0, reached: true }, null, { sent: 0, left: 0, reached: true }])
  } finally {
    vi.unstubAllGlobals()
  }
  expect(lines(db)).toBe(1)
})
