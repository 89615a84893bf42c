import { appendFileSync, renameSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type { Db } from './db'

/** What is noted. What changes accounts and roles stands in the change record too, with before and after. */
export type SecurityEvent =
  | 'signed-in'
  | 'sign-in-refused'
  | 'sign-in-slowed'
  | 'signed-out'
  | 'password-changed'
  | 'password-change-refused'
  | 'password-reset'
  | 'role-changed'
  | 'shut-out'
  | 'let-in'
  | 'denied'

export type SecurityLine = {
  what: SecurityEvent
  /** The account's id; null where nobody is known. Never a name or an address: people type passwords there. */
  by: string | null
  /** What it was about: an id, an action, a way of signing in. */
  about?: string
}

/** Past this the file is set aside, and the one set aside before is given up. */
const MOST_BYTES = 5_000_000
const LONGEST = 80

/**
 * Adds a line to `security.log` in the data folder: JSON, the instant in UTC first, readable by its owner only. No password,
 * code, token or address stands in it. A line that cannot be written is told on the console and stops nobody.
 */
export function noteSecurity(db: Pick<Db, 'file'>, { what, by, about }: SecurityLine): void {
  const file = join(dirname(db.file), 'security.log')
  const line = {
    at: new Date().toISOString(),
    what,
    by,
    ...(about ? { about: about.slice(0, LONGEST) } : {}),
  }
  try {
    if ((statSync(file, { throwIfNoEntry: false })?.size ?? 0) > MOST_BYTES)
      renameSync(file, join(dirname(file), 'security.1.log'))
    appendFileSync(file, `${JSON.stringify(line)}\n`, { mode: 0o600 })
  } catch (error) {
    console.error('The security log could not be written:', error)
  }
}
