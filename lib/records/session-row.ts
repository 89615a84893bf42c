import { createHmac, timingSafeEqual } from 'node:crypto'
import { dirname } from 'node:path'
import { sessionCookieName } from './auth'
import type { Db } from './db'
import { authSecret } from './secret'
import { prepared } from './statements'

/** A session that has not run out, with what every request needs of its person. */
type SessionRow = {
  id: string
  expiresAt: string
  updatedAt: string
  userId: string
  email: string
  name: string
  role: string
  units: string
  disabled: 0 | 1
}

/** Characters of an HMAC-SHA256 in base64, the last of them "=". */
const SIGNATURE_LENGTH = 44

const SELECT = `SELECT s."id", s."expiresAt", s."updatedAt", u."id" AS "userId", u."email", u."name", u."role", u."units",
  u."disabled" FROM "Session" s JOIN "User" u ON u."id" = s."userId" WHERE s."token" = ?`

/**
 * The session named by the cookie of a request; null without one, where our signature is not on it, and after its end.
 *
 * The sign-in library starts and ends sessions; this reads what it wrote, as its own look-up does, for a twentieth of the
 * work: every page and action asks. A test holds the two against each other.
 */
export async function sessionRowOf(db: Db, headers: Headers): Promise<SessionRow | null> {
  const token = signedToken(headers, await secretOf(db))
  if (token === null) return null
  const row = prepared<SessionRow>(db.sqlite, SELECT).get(token)
  if (!row) return null
  if (Date.parse(row.expiresAt) >= Date.now()) return row
  await db.prisma.session.deleteMany({ where: { id: row.id } })
  return null
}

const secrets = new WeakMap<Db, Promise<string>>()

function secretOf(db: Db): Promise<string> {
  let secret = secrets.get(db)
  if (!secret) {
    secret = authSecret(dirname(db.file))
    secrets.set(db, secret)
  }
  return secret
}

/** The token within the cookie ("token.signature"), or null unless the signature is ours. */
function signedToken(headers: Headers, secret: string): string | null {
  const value = cookieOf(headers, sessionCookieName())
  const dot = value?.lastIndexOf('.') ?? -1
  if (!value || dot < 1) return null
  const token = value.slice(0, dot)
  const signature = value.slice(dot + 1)
  if (signature.length !== SIGNATURE_LENGTH || !signature.endsWith('=')) return null
  const given = Buffer.from(signature, 'base64')
  const ours = createHmac('sha256', secret).update(token).digest()
  return given.length === ours.length && timingSafeEqual(given, ours) ? token : null
}

/** The first cookie of that name, decoded; null where there is none or it is no text. */
function cookieOf(headers: Headers, name: string): string | null {
  for (const pair of (headers.get('cookie') ?? '').split(';')) {
    const equals = pair.indexOf('=')
    if (equals < 0 || pair.slice(0, equals).trim() !== name) continue
    try {
      return decodeURIComponent(pair.slice(equals + 1).trim())
    } catch {
      return null
    }
  }
  return null
}
