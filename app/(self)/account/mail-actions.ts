'use server'

import { revalidatePath } from 'next/cache'
import { currentSession, signedInViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { sentForm } from '@/lib/forms/form'
import { paths } from '@/lib/paths'
import { siteUrl } from '@/lib/records/auth'
import { makeFeed, removeFeed, switchMail } from '@/lib/records/mail-choice'
import { getDb } from '@/lib/records/open'

/** Switches the viewer's own reminders by mail off or on. */
export async function switchMailOver(form: FormData): Promise<void> {
  const viewer = await signedInViewer()
  await switchMail(await getDb(), viewer, sentForm(form).get('to') === 'off', now())
  revalidatePath(paths.account())
}

/** A new calendar address of the viewer, shown in the answer and nowhere else; null where they must sign in again first. */
export async function makeFeedAddress(): Promise<string | null> {
  const viewer = await signedInViewer()
  if (!(await currentSession())?.fresh) return null
  const token = await makeFeed(await getDb(), viewer, now())
  revalidatePath(paths.account())
  return `${siteUrl()}${paths.feed(token)}`
}

/** The viewer's calendar address leads nowhere from now on. */
export async function takeFeedBack(): Promise<void> {
  const viewer = await signedInViewer()
  await removeFeed(await getDb(), viewer, now())
  revalidatePath(paths.account())
}
