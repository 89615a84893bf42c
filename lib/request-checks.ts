import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { DOOR_BYTES_MAX, FORM_BYTES_MAX, sayBytes } from './domain/limits'
import type { SecurityEvent } from './records/security-log'

/** What of a request is looked at before anything else is: its head, and nothing of its body. */
export type RequestHead = {
  method: string
  path: string
  headers: Pick<Headers, 'get'>
  /** Names of the cookies that came with it. */
  cookies: readonly string[]
}

/** Why a request goes no further: the line for the log, and what is answered. */
export type Stopped = { what: SecurityEvent; status: number; said: string }

/**
 * What stops a request that would change something, by its head alone; null where it may go on. It lets nobody in: each page and
 * action asks for its viewer itself.
 *
 * Shape   `site` the configured address of the site, where there is one.
 */
export function stops(head: RequestHead, site: string | undefined): Stopped | null {
  if (['GET', 'HEAD', 'OPTIONS'].includes(head.method)) return null
  return tooLarge(head) ?? (isOnePress(head) || comesFromUs(head, site) ? malformedCall(head) : FOREIGN)
}

const FOREIGN: Stopped = {
  what: 'origin-refused',
  status: 403,
  said: 'This was not sent from a page of this site, so nothing was changed.',
}

/**
 * Who is not signed in sends small forms, and says how long they are, as every browser does. The rest is cut where it is read:
 * a length can be a lie, or missing.
 */
function tooLarge({ path, headers, cookies }: RequestHead): Stopped | null {
  // A phone whose session has run out must be told to sign in, and not that its photo is too large.
  const signedIn = path.startsWith('/api/v1/') || cookies.some((name) => /^(?:__Host-)?wellround$/.test(name))
  const length = headers.get('content-length')
  if (length === null && headers.get('transfer-encoding') !== null && !signedIn)
    return { what: 'body-refused', status: 411, said: 'Say how long this is, and send it again.' }
  const most = signedIn ? FORM_BYTES_MAX : DOOR_BYTES_MAX
  if (Number(length ?? 0) <= most) return null
  return {
    what: 'body-refused',
    status: 413,
    said: `This is larger than ${sayBytes(most)}, so nothing was read of it. Go back, and choose a smaller file.`,
  }
}

/** A mail program posts here by itself (RFC 8058): the long token of the address is the permission, and no cookie counts. */
const isOnePress = ({ path }: RequestHead) => path.startsWith('/api/quiet/')

/**
 * Browsers name the origin on every request that changes something. One without it, or with "null" or another
 * site, is refused: Next itself lets a missing one pass.
 */
function comesFromUs({ headers }: RequestHead, site: string | undefined): boolean {
  const origin = headers.get('origin')
  if (!origin || !URL.canParse(origin)) return false
  if (site && origin === new URL(site).origin) return true
  return new URL(origin).host === headers.get('host')
}

const ACTION_ID = /^[0-9a-f]{42}$/

function malformedCall({ headers }: RequestHead): Stopped | null {
  const id = headers.get('next-action')
  if (id === null || ACTION_ID.test(id)) return null
  return { what: 'call-refused', status: 400, said: 'This is no call that a page of this site makes.' }
}

let known: ReadonlySet<string> | null | undefined

/**
 * Whether a request calls an action that this build does not have: a page from before the last build, or somebody who tries. Next
 * refuses it by itself. Never true while developing, where actions come and go.
 */
export function callsUnknownAction({ headers }: Pick<RequestHead, 'headers'>): boolean {
  const id = headers.get('next-action')
  if (id === null || process.env.NODE_ENV === 'development') return false
  known ??= actionsOfBuild()
  return known !== null && !known.has(id)
}

function actionsOfBuild(): ReadonlySet<string> | null {
  try {
    const list = join(process.cwd(), '.next', 'server', 'server-reference-manifest.json')
    const { node } = JSON.parse(readFileSync(/*turbopackIgnore: true*/ list, 'utf8')) as {
      node: Record<string, unknown>
    }
    return new Set(Object.keys(node))
  } catch (error) {
    // Another edition of the framework may keep its list elsewhere: calls are then refused by it alone, and not noted.
    console.error('The list of actions could not be read:', error)
    return null
  }
}
