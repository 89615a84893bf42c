import { dirname } from 'node:path'
import { passkey } from '@better-auth/passkey'
import { APIError, betterAuth } from 'better-auth'
import { prismaAdapter } from 'better-auth/adapters/prisma'
import type { Db } from './db'
import { newId } from './ids'
import { hashPassword, passwordMatches } from './passwords'
import { authSecret } from './secret'

/** Longest life of a session, in use or not. */
export const SESSION_DAYS = 30

const perDb = new WeakMap<Db, Promise<Auth>>()

/** The sign-in library over one database. Its own web addresses are never mounted: only lib/records calls it. */
export function authOf(db: Db): Promise<Auth> {
  let auth = perDb.get(db)
  if (!auth) {
    auth = authSecret(dirname(db.file)).then((secret) => build(db, secret))
    perDb.set(db, auth)
  }
  return auth
}

type Auth = ReturnType<typeof build>

/** Address under which people reach the site; https turns on the cookie rules that only https can have. */
export function siteUrl(): string {
  return process.env.WELLROUND_URL ?? `http://localhost:${process.env.PORT ?? '3000'}`
}

/** Name of the session cookie. `__Host-` makes the browser refuse it from other hosts, paths and from http. */
function sessionCookieName(): string {
  return siteUrl().startsWith('https:') ? '__Host-wellround' : 'wellround'
}

/** The library takes a key that only proves the device; ours must prove the person too. */
async function demandPresence(verified: boolean | undefined): Promise<undefined> {
  if (verified !== true) throw new APIError('UNAUTHORIZED')
}

function build(db: Db, secret: string) {
  const fixed = { input: false, returned: true } as const
  return betterAuth({
    appName: 'Wellround',
    baseURL: siteUrl(),
    secret,
    database: prismaAdapter(db.prisma, { provider: 'sqlite' }),
    telemetry: { enabled: false },
    // Its limiter counts web addresses and sees no call from a form; see ./patience for ours.
    rateLimit: { enabled: false },
    logger: { disabled: true },
    emailAndPassword: {
      enabled: true,
      disableSignUp: true,
      minPasswordLength: 12,
      maxPasswordLength: 128,
      password: { hash: hashPassword, verify: ({ password, hash }) => passwordMatches(password, hash) },
    },
    user: {
      additionalFields: {
        role: { type: 'string', required: true, ...fixed },
        units: { type: 'string', required: true, ...fixed },
        disabled: { type: 'boolean', required: true, ...fixed },
      },
    },
    plugins: [
      passkey({
        rpName: 'Wellround',
        rpID: new URL(siteUrl()).hostname,
        origin: new URL(siteUrl()).origin,
        // The key stands on the device with its person's address, and asks for a finger, a face or a code each time.
        authenticatorSelection: { residentKey: 'required', userVerification: 'required' },
        registration: {
          afterVerification: ({ verification }) =>
            demandPresence(verification.registrationInfo?.userVerified),
        },
        authentication: {
          afterVerification: ({ verification }) =>
            demandPresence(verification.authenticationInfo.userVerified),
        },
        advanced: { webAuthnChallengeCookie: 'wellround-passkey' },
      }),
    ],
    session: {
      expiresIn: SESSION_DAYS * 24 * 60 * 60,
      // A cached session would outlive its revocation; a refreshed one would never end.
      cookieCache: { enabled: false },
      disableSessionRefresh: true,
    },
    advanced: {
      useSecureCookies: false,
      database: { generateId: () => newId() },
      cookies: {
        session_token: {
          name: sessionCookieName(),
          attributes: {
            httpOnly: true,
            sameSite: 'lax',
            path: '/',
            secure: sessionCookieName().startsWith('__Host-'),
          },
        },
      },
    },
  })
}
