import type { Db } from './db'
import { Patience } from './patience'
import { noteSecurity } from './security-log'

/**
 * Wrong codes before the first wait. Those of people who are signed in are counted by account. All others are counted together:
 * the address that a request claims to come from can be made up, and the longest wait keeps a card's holder out for a minute.
 */
export const FREE_CODES = { account: 5, door: 30 } as const
const byAccount = new Patience(FREE_CODES.account)
const atTheDoor = new Patience(FREE_CODES.door)

export type CodeWait = { kind: 'wait'; seconds: number }

/**
 * Tries a code of a card or a link, unless too many were wrong. `isWrong` tells whether an answer means that the code opens
 * nothing; any other forgives what was wrong before.
 */
export async function tryCode<T>(
  db: Db,
  userId: string | null,
  attempt: () => Promise<T>,
  isWrong: (outcome: T) => boolean,
): Promise<T | CodeWait> {
  const patience = userId === null ? atTheDoor : byAccount
  const key = userId ?? 'door'
  const seconds = await patience.secondsToWait(key)
  if (seconds > 0) {
    noteSecurity(db, { what: 'code-slowed', by: userId })
    return { kind: 'wait', seconds }
  }
  const outcome = await attempt()
  if (isWrong(outcome)) noteSecurity(db, { what: 'code-refused', by: userId })
  else await patience.forgive(key)
  return outcome
}
