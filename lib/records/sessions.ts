import { isAPIError } from 'better-auth/api'
import { ROLES, type Role, type Viewer } from '@/lib/access/viewer'
import { authOf } from './auth'
import { type CookieToSet, cookiesOf } from './cookies-to-set'
import type { Db } from './db'
import { householdIdsOf } from './memberships'
import { hashPassword, isOutdated } from './passwords'
import { Patience } from './patience'
import { noteSecurity } from './security-log'
import { prepared } from './statements'

/** Longest time between two uses of a session. */
export const IDLE_DAYS = 14
/** A new way in (a passkey, a calendar address) is made only so long after signing in: somebody may have found a phone unlocked. */
export const FRESH_HOURS = 24
const DAY_MS = 24 * 60 * 60 * 1000

export type SignedIn =
  | { kind: 'signed-in'; cookies: CookieToSet[] }
  | { kind: 'no-match' }
  | { kind: 'wait'; seconds: number }

const patience = new Patience()

/**
 * Who is asking, from the headers of a request; null for everybody who is not signed in.
 * Looked up each time: a session ended or a person disabled a moment ago is refused now.
 */
export async function viewerFromHeaders(db: Db, headers: Headers): Promise<Viewer | null> {
  const found = await sessionFromHeaders(db, headers)
  return found?.viewer ?? null
}

/** The same with the id of the session, for the page that lists them, and whether its person signed in lately. */
export async function sessionFromHeaders(
  db: Db,
  headers: Headers,
): Promise<{ viewer: Viewer; sessionId: string; email: string; fresh: boolean } | null> {
  const auth = await authOf(db)
  const found = await auth.api.getSession({
    headers,
    query: { disableCookieCache: true, disableRefresh: true },
  })
  if (!found) return null
  const { user, session } = found
  if (user.disabled) return null
  if (!(await stillInUse(db, session.id, session.updatedAt))) return null
  const viewer: Viewer = {
    userId: user.id,
    name: user.name,
    role: roleOf(user.role),
    ownerIds: householdIdsOf(db, user.id),
    units: user.units === 'metric' ? 'metric' : 'us',
  }
  const fresh = Date.now() - session.createdAt.getTime() <= FRESH_HOURS * 60 * 60 * 1000
  return { viewer, sessionId: session.id, email: user.email, fresh }
}

/** Ends a session that lay unused too long; notes the use of one at most once a day, so that reading stays reading. */
async function stillInUse(db: Db, sessionId: string, lastUsed: Date): Promise<boolean> {
  const idleMs = Date.now() - lastUsed.getTime()
  if (idleMs > IDLE_DAYS * DAY_MS) {
    await db.prisma.session.deleteMany({ where: { id: sessionId } })
    return false
  }
  if (idleMs > DAY_MS)
    await db.prisma.session.updateMany({ where: { id: sessionId }, data: { updatedAt: new Date() } })
  return true
}

export function roleOf(text: string): Role {
  const role = ROLES.find((known) => known === text)
  if (!role) throw new Error(`a person has the role "${text}"`)
  return role
}

/**
 * Starts a session. The session that the request came with, if any, ends: nobody can hand somebody a session
 * and then share it. An unknown address, a disabled person and a wrong password give the same answer after
 * the same work.
 */
export async function signIn(db: Db, email: string, password: string, headers: Headers): Promise<SignedIn> {
  const key = email.trim().toLowerCase()
  const seconds = await patience.secondsToWait(key)
  const known = accountOf(db, key)
  if (seconds > 0) {
    noteSecurity(db, { what: 'sign-in-slowed', by: known })
    return { kind: 'wait', seconds }
  }
  const auth = await authOf(db)
  try {
    const { headers: answer, response } = await auth.api.signInEmail({
      body: { email: key, password },
      headers: agentOnly(headers),
      returnHeaders: true,
    })
    const made = { token: response.token, userId: response.user.id }
    const outcome = await admit(db, headers, made, cookiesOf(answer))
    noteOutcome(db, outcome, made.userId, 'password')
    if (outcome.kind === 'signed-in') {
      await patience.forgive(key)
      await raiseHash(db, made.userId, password)
    }
    return outcome
  } catch (error) {
    if (!(isAPIError(error) && error.statusCode === 401)) throw error
    noteSecurity(db, { what: 'sign-in-refused', by: known, about: 'password' })
    return { kind: 'no-match' }
  }
}

/** A password that was hashed at an earlier cost is hashed anew, now that it is known for a moment. */
async function raiseHash(db: Db, userId: string, password: string): Promise<void> {
  const where = { userId, providerId: 'credential' }
  const account = await db.prisma.account.findFirst({ where, select: { password: true } })
  if (!account?.password || !isOutdated(account.password)) return
  const fresh = await hashPassword(password)
  // Only in the place of the one that was looked at: a change in between holds.
  await db.prisma.account.updateMany({
    where: { ...where, password: account.password },
    data: { password: fresh },
  })
}

/** Notes how a sign-in ended for an account. */
export function noteOutcome(db: Db, outcome: SignedIn, userId: string, about: 'password' | 'passkey'): void {
  noteSecurity(db, {
    what: outcome.kind === 'signed-in' ? 'signed-in' : 'sign-in-refused',
    by: userId,
    about,
  })
}

function accountOf(db: Db, email: string): string | null {
  const sql = 'SELECT "id" FROM "User" WHERE "email" = ?'
  return prepared<{ id: string }>(db.sqlite, sql).get(email)?.id ?? null
}

/**
 * Lets a new session in, unless its person is shut out. The session that the request came with ends, so that nobody is
 * handed a session which somebody else goes on using.
 */
export async function admit(
  db: Db,
  headers: Headers,
  made: { token: string; userId: string },
  cookies: CookieToSet[],
): Promise<SignedIn> {
  const user = await db.prisma.user.findUnique({ where: { id: made.userId }, select: { disabled: true } })
  if (user?.disabled !== false) {
    await db.prisma.session.deleteMany({ where: { token: made.token } })
    return { kind: 'no-match' }
  }
  const auth = await authOf(db)
  const before = await auth.api.getSession({
    headers,
    query: { disableCookieCache: true, disableRefresh: true },
  })
  if (before) await db.prisma.session.deleteMany({ where: { id: before.session.id } })
  return { kind: 'signed-in', cookies }
}

/** Ends the session of a request. Answers the cookies that make the browser forget it. */
export async function signOut(db: Db, headers: Headers): Promise<CookieToSet[]> {
  const auth = await authOf(db)
  const leaving = await sessionFromHeaders(db, headers)
  if (leaving) noteSecurity(db, { what: 'signed-out', by: leaving.viewer.userId })
  const { headers: answer } = await auth.api.signOut({ headers, returnHeaders: true })
  return cookiesOf(answer)
}

/**
 * Changes the password of whoever is signed in, who must know the one they have. Every session of theirs ends
 * and a new one starts for this browser.
 */
export async function changePassword(
  db: Db,
  headers: Headers,
  current: string,
  fresh: string,
): Promise<
  { kind: 'changed'; cookies: CookieToSet[] } | { kind: 'no-match' } | { kind: 'wait'; seconds: number }
> {
  const asking = await sessionFromHeaders(db, headers)
  if (!asking) return { kind: 'no-match' }
  const key = asking.email.toLowerCase()
  const seconds = await patience.secondsToWait(key)
  if (seconds > 0) return { kind: 'wait', seconds }
  const auth = await authOf(db)
  try {
    const { headers: answer } = await auth.api.changePassword({
      body: { currentPassword: current, newPassword: fresh, revokeOtherSessions: true },
      headers,
      returnHeaders: true,
    })
    await patience.forgive(key)
    noteSecurity(db, { what: 'password-changed', by: asking.viewer.userId })
    return { kind: 'changed', cookies: cookiesOf(answer) }
  } catch (error) {
    if (!(isAPIError(error) && error.body?.code === 'INVALID_PASSWORD')) throw error
    noteSecurity(db, { what: 'password-change-refused', by: asking.viewer.userId })
    return { kind: 'no-match' }
  }
}

/** The program a session was started with, as its browser names itself; no other header is believed. */
function agentOnly(headers: Headers): Headers {
  return new Headers({ 'user-agent': headers.get('user-agent') ?? '' })
}
