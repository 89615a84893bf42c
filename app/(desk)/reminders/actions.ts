'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { demand, deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { paths } from '@/lib/paths'
import { sendAgain } from '@/lib/records/mailings'
import { getDb } from '@/lib/records/open'

/** Lets a mail that did not go out be tried at the next look, within ten minutes. */
export async function sendMailAgain(form: FormData): Promise<void> {
  const viewer = await deskViewer()
  await demand(viewer, 'setting.edit')
  const id = form.get('id')
  const outcome = await sendAgain(await getDb(), viewer, typeof id === 'string' ? id : '', now())
  if (outcome === 'no-such-mail') notFound()
  revalidatePath(paths.reminders())
  redirect(paths.reminders())
}
