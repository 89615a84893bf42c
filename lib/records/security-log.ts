import { appendFileSync, renameSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type { Db } from './db'

/** What is noted. What changes accounts and roles stands in the change record too, with before and after. */
export const SECURITY_EVENTS = {
  'signed-in': 'somebody signed in',
  'sign-in-refused': 'a wrong password or passkey, or a person who is shut out',
  'sign-in-slowed': 'tries at a password go on after five wrong ones',
  'signed-out': 'somebody signed out',
  'password-changed': 'changed by its person',
  'password-change-refused': 'the password in use was given wrong',
  'password-reset': 'set anew by an installer, a card or a link',
  'code-refused': 'a code of a card or a link that opens nothing',
  'code-slowed': 'tries at codes go on after many wrong ones',
  'role-changed': 'an installer made a technician, or the other way round',
  'shut-out': 'an installer took away the way in',
  'let-in': 'an installer gave it back',
  denied: 'something asked for that its person may not see or do',
  'origin-refused': 'a change sent from another site, or from none',
  'body-refused': 'more sent than allowed, or a batch that is none',
  'call-refused': 'a call of an action that this build does not have, or whose words cannot be read',
  'file-refused': 'a file that is not what it says, or unpacks beyond bounds',
} as const
export type SecurityEvent = keyof typeof SECURITY_EVENTS

export type SecurityLine = {
  what: SecurityEvent
  /** The account's id; null where nobody is known. Never a name or an address: people type passwords there. */
  by: string | null
  /** What it was about: an id, an action, a way of signing in, a path without what follows its "?". */
  about?: string
}

/** Past this the file is set aside, and the one set aside before is given up. */
export const LOG_BYTES_MAX = 5_000_000
const LONGEST = 80

/**
 * Lines of one kind an hour by one person, and by everybody of whom nothing is known. What goes beyond is counted, and the count
 * stands in the next line: whoever knocks all night must not push out of the file what happened before.
 */
export const LINES_AN_HOUR = { person: 600, unknown: 60 } as const
const HOUR_MS = 60 * 60 * 1000
const heard = new Map<string, { from: number; lines: number; unsaid: number }>()

/**
 * Adds a line to `security.log` in the data folder: JSON, the instant in UTC first, readable by its owner only. No password,
 * code, token or address stands in it. A line that cannot be written is told on the console and stops nobody.
 */
export function noteSecurity(db: Pick<Db, 'file'>, { what, by, about }: SecurityLine): void {
  const file = join(dirname(db.file), 'security.log')
  const unsaid = turnOf(`${file} ${what} ${by}`, by === null ? LINES_AN_HOUR.unknown : LINES_AN_HOUR.person)
  if (unsaid === null) return
  const line = {
    at: new Date().toISOString(),
    what,
    by,
    ...(about ? { about: about.slice(0, LONGEST) } : {}),
    ...(unsaid > 0 ? { unsaid } : {}),
  }
  try {
    if ((statSync(file, { throwIfNoEntry: false })?.size ?? 0) > LOG_BYTES_MAX)
      renameSync(file, join(dirname(file), 'security.1.log'))
    appendFileSync(file, `${JSON.stringify(line)}\n`, { mode: 0o600 })
  } catch (error) {
    console.error('The security log could not be written:', error)
  }
}

/** How many lines were left out before this one; null where this one is left out too. */
function turnOf(key: string, most: number): number | null {
  const now = Date.now()
  const before = heard.get(key)
  if (before && now - before.from < HOUR_MS && now >= before.from) {
    if (before.lines >= most) before.unsaid += 1
    else before.lines += 1
    return before.lines >= most && before.unsaid > 0 ? null : 0
  }
  // Those who have been quiet for an hour are forgotten, so that the list stays as short as the hour was.
  for (const [other, { from, unsaid }] of heard)
    if (other !== key && unsaid === 0 && now - from >= HOUR_MS) heard.delete(other)
  heard.set(key, { from: now, lines: 1, unsaid: 0 })
  return before?.unsaid ?? 0
}
