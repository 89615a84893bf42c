import { cookies, headers } from 'next/headers'
import { notFound, redirect } from 'next/navigation'
import { cache } from 'react'
import { type Action, mayFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { localPath } from '@/lib/forms/accounts'
import type { CookieToSet } from '@/lib/records/cookies-to-set'
import { getDb } from '@/lib/records/open'
import { noteSecurity } from '@/lib/records/security-log'
import { sessionFromHeaders } from '@/lib/records/sessions'

/** A viewer who came in through the door: always a person. */
export type Person = Viewer & { userId: string }

/** The session behind this request, looked up once a request; null when nobody is signed in. */
export const currentSession = cache(async () => sessionFromHeaders(await getDb(), await headers()))

/** Whoever is signed in; others are sent to the sign-in page. Every page and action asks this or `deskViewer`. */
export async function signedInViewer(): Promise<Person> {
  const session = await currentSession()
  if (!session?.viewer.userId) redirect(await signInPath())
  return { ...session.viewer, userId: session.viewer.userId }
}

/** The sign-in page, with the page that was asked for to lead back to. */
async function signInPath(): Promise<string> {
  const path = localPath((await headers()).get('x-wellround-path') ?? '/')
  return path === '/' ? '/sign-in' : `/sign-in?next=${encodeURIComponent(path)}`
}

/** The same for the pages of installers and technicians: for an owner they do not exist. */
export async function deskViewer(): Promise<Person> {
  const viewer = await signedInViewer()
  if (viewer.role === 'owner') return absent(viewer, await pathAsked())
  return viewer
}

/** For whoever may not do this to the fleet the page or action does not exist; that they asked is noted. */
export async function demand(viewer: Viewer, action: Action): Promise<void> {
  if (!mayFleet(viewer, action)) await absent(viewer, action)
}

/** The session of the desk behind a request of a program; null for everybody else, for whom the address does not exist. */
export async function deskSession(): Promise<{ viewer: Person } | null> {
  const viewer = (await currentSession())?.viewer
  if (!viewer?.userId) return null
  if (viewer.role !== 'owner') return { viewer: { ...viewer, userId: viewer.userId } }
  await noteDenied(viewer, await pathAsked())
  return null
}

/** Notes that somebody asked for what is not theirs to see or do. */
export async function noteDenied(viewer: Viewer, about: string): Promise<void> {
  noteSecurity(await getDb(), { what: 'denied', by: viewer.userId, about })
}

async function absent(viewer: Viewer, about: string): Promise<never> {
  await noteDenied(viewer, about)
  return notFound()
}

/** The path that was asked for, without what follows its "?": a search may hold anything. */
const pathAsked = async () => (await headers()).get('x-wellround-path')?.split('?')[0] ?? 'a page of the desk'

/** The same for the pages of owners: the desk has its own. */
export async function ownViewer(): Promise<Person> {
  const viewer = await signedInViewer()
  if (viewer.role !== 'owner') redirect('/')
  return viewer
}

/** Sets the cookies that lib/records hands out. Only actions and route handlers can. */
export async function applyCookies(list: readonly CookieToSet[]): Promise<void> {
  const jar = await cookies()
  for (const { name, value, options } of list) jar.set(name, value, options)
}
