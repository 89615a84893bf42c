'use server'

import { notFound, redirect } from 'next/navigation'
import { now } from '@/lib/clock'
import { quietByToken } from '@/lib/records/mail-choice'
import { getDb } from '@/lib/records/open'

/** Switches off the mail of whoever the link was made for. The link is the permission: nobody is signed in. */
export async function switchOff(token: unknown): Promise<void> {
  // An action can be called with anything.
  if (typeof token !== 'string') notFound()
  if (!(await quietByToken(await getDb(), token, now()))) notFound()
  redirect(`/quiet/${encodeURIComponent(token)}`)
}
