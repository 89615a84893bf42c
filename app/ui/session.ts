import { cookies, headers } from 'next/headers'
import { notFound, redirect } from 'next/navigation'
import { cache } from 'react'
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
  if (viewer.role !== 'owner') return viewer
  noteSecurity(await getDb(), { what: 'denied', by: viewer.userId, about: 'a page of the desk' })
  return notFound()
}

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
