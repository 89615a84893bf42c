import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { FREE_CODES, tryCode } from '@/lib/records/code-patience'
import type { Db } from '@/lib/records/db'
import { acceptInvitation } from '@/lib/records/invitations'
import { freshDb } from '../setup/fresh-db'

const AT = '2026-11-20T12:00:00.000Z'
let db: Db

beforeEach(async () => {
  db = await freshDb()
  vi.useFakeTimers({ toFake: ['Date', 'setTimeout', 'clearTimeout'] })
})
afterEach(() => {
  vi.useRealTimers()
})

const wrong = (outcome: string) => outcome === 'no-such-invitation'
const person = { name: 'Eve', email: 'eve@evil.example', password: 'a stone in every shoe' }
const guess = (userId: string | null) =>
  tryCode(db, userId, () => acceptInvitation(db, '7K2M-7K2M-7K2M-7K2M', person, AT), wrong)

describe.each([
  ['an account', 'ada', FREE_CODES.account],
  ['people who are not signed in, all together', null, FREE_CODES.door],
] as const)('wrong codes of %s', (_who, userId, free) => {
  test('are slowed, ever longer, up to a minute', async () => {
    for (let n = 0; n < free; n += 1) expect(await guess(userId)).toBe('no-such-invitation')
    const waits: number[] = []
    for (let n = 0; n < 9; n += 1) {
      const outcome = await guess(userId)
      if (typeof outcome !== 'object') throw new Error(outcome)
      waits.push(outcome.seconds)
      vi.advanceTimersByTime(outcome.seconds * 1000 + 1)
      expect(await guess(userId)).toBe('no-such-invitation')
    }
    expect(waits).toEqual([1, 2, 4, 8, 16, 32, 64, 64, 64])
    // Whoever holds a card waits a minute at the most, and is let in.
    vi.advanceTimersByTime(64_001)
    expect(await tryCode(db, userId, async () => 'created', wrong)).toBe('created')
    expect(await guess(userId), 'the failures are forgotten').toBe('no-such-invitation')
  })
})

test('of one account slow no other', async () => {
  for (let n = 0; n < 5; n += 1) await guess('bo')
  expect(await guess('bo')).toMatchObject({ kind: 'wait' })
  expect(await guess('cy')).toBe('no-such-invitation')
})
