import { isAPIError } from 'better-auth/api'
import type { Viewer } from '@/lib/access/viewer'
import { authOf } from './auth'
import { writeChange } from './changes'
import { type CookieToSet, cookiesOf } from './cookies-to-set'
import type { Db } from './db'
import { noteSecurity } from './security-log'
import { admit, noteOutcome, type SignedIn } from './sessions'
import { prepared } from './statements'
import { transaction } from './transaction'

/** A device that signs its person in without a password, as its page lists it. */
export type PasskeyRow = { id: string; name: string; addedAt: Date | null; synced: boolean }
type Person = Viewer & { userId: string }
type Credential = {
  id: string
  rawId: string
  type: 'public-key'
  clientExtensionResults: Record<string, never>
}
/** A device's answers, in the JSON of the Web Authentication standard, their shape checked. */
export type NewPasskey = Credential & {
  response: { clientDataJSON: string; attestationObject: string; transports?: string[] }
}
export type PasskeyProof = Credential & {
  response: { clientDataJSON: string; authenticatorData: string; signature: string; userHandle?: string }
}

/** What the browser is asked, as JSON of the Web Authentication standard, and the cookie that ties its answer to it. */
export type Challenge = { options: Record<string, unknown>; cookies: CookieToSet[] }

/** The viewer's own passkeys, the oldest first. */
export async function passkeysOf(db: Db, viewer: Person): Promise<PasskeyRow[]> {
  const rows = await db.prisma.passkey.findMany({
    where: { userId: viewer.userId },
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
    select: { id: true, name: true, createdAt: true, backedUp: true },
  })
  return rows.map(({ id, name, createdAt, backedUp }) => ({
    id,
    name: name ?? 'Passkey',
    addedAt: createdAt,
    synced: backedUp,
  }))
}

/**
 * Begins to add a passkey. 'sign-in-again' where the session is older than a day: somebody who finds a phone unlocked must
 * not be able to make a key of their own to it.
 */
export async function beginPasskey(db: Db, headers: Headers): Promise<Challenge | 'sign-in-again'> {
  const auth = await authOf(db)
  try {
    const { headers: answer, response } = await auth.api.generatePasskeyRegistrationOptions({
      headers,
      query: {},
      returnHeaders: true,
    })
    return { options: { ...response }, cookies: cookiesOf(answer) }
  } catch (error) {
    if (isAPIError(error) && (error.statusCode === 403 || error.statusCode === 401)) return 'sign-in-again'
    throw error
  }
}

/** Ends it: keeps the device's public half, with a line in the change record. 'refused' where its answer does not hold. */
export async function addPasskey(
  db: Db,
  viewer: Person,
  headers: Headers,
  answered: { name: string; response: NewPasskey },
  at: string,
): Promise<'added' | 'refused'> {
  const auth = await authOf(db)
  try {
    const made = await auth.api.verifyPasskeyRegistration({ body: answered, headers })
    await transaction(db, () => changeOfPasskey(db, viewer, at, 'passkey.add', made.id, answered.name))
    return 'added'
  } catch (error) {
    if (isAPIError(error)) return 'refused'
    throw error
  }
}

/** Gives a passkey of the viewer's another name. */
export function renamePasskey(
  db: Db,
  viewer: Person,
  id: string,
  name: string,
  at: string,
): Promise<'done' | 'no-such-passkey'> {
  return transaction(db, () => {
    const { changes } = prepared(
      db.sqlite,
      'UPDATE "Passkey" SET "name" = ? WHERE "id" = ? AND "userId" = ?',
    ).run(name, id, viewer.userId)
    if (changes === 0) return 'no-such-passkey'
    changeOfPasskey(db, viewer, at, 'passkey.rename', id, name)
    return 'done'
  })
}

/** Takes a passkey of the viewer's away: its device signs nobody in any more. */
export function removePasskey(
  db: Db,
  viewer: Person,
  id: string,
  at: string,
): Promise<'done' | 'no-such-passkey'> {
  return transaction(db, () => {
    const { changes } = prepared(db.sqlite, 'DELETE FROM "Passkey" WHERE "id" = ? AND "userId" = ?').run(
      id,
      viewer.userId,
    )
    if (changes === 0) return 'no-such-passkey'
    changeOfPasskey(db, viewer, at, 'passkey.remove', id, undefined)
    return 'done'
  })
}

function changeOfPasskey(
  db: Db,
  viewer: Person,
  at: string,
  action: string,
  passkeyId: string,
  name: string | undefined,
): void {
  writeChange(db.sqlite, viewer, at, {
    action,
    targetKind: 'user',
    targetId: viewer.userId,
    after: { passkeyId, name },
  })
}

/** Begins to sign in. The same for everybody: nothing is said about who has a passkey. */
export async function beginPasskeySignIn(db: Db): Promise<Challenge> {
  // Questions that nobody answered: each lives for five minutes.
  await db.prisma.verification.deleteMany({ where: { expiresAt: { lt: new Date() } } })
  const auth = await authOf(db)
  const { headers: answer, response } = await auth.api.generatePasskeyAuthenticationOptions({
    headers: new Headers(),
    returnHeaders: true,
  })
  return { options: { ...response, userVerification: 'required' }, cookies: cookiesOf(answer) }
}

/** Ends it with a session, or 'no-match' for whatever reason: an unknown key, an old question, a person shut out. */
export async function signInWithPasskey(db: Db, headers: Headers, response: PasskeyProof): Promise<SignedIn> {
  const auth = await authOf(db)
  try {
    const { headers: answer, response: made } = await auth.api.verifyPasskeyAuthentication({
      body: { response },
      // The question it answers, and the browser as it names itself; no other header is believed.
      headers: new Headers({
        cookie: headers.get('cookie') ?? '',
        'user-agent': headers.get('user-agent') ?? '',
      }),
      returnHeaders: true,
    })
    const { token, userId } = made.session
    const outcome = await admit(db, headers, { token, userId }, cookiesOf(answer))
    noteOutcome(db, outcome, userId, 'passkey')
    return outcome
  } catch (error) {
    if (!isAPIError(error)) throw error
    noteSecurity(db, { what: 'sign-in-refused', by: null, about: 'passkey' })
    return { kind: 'no-match' }
  }
}
