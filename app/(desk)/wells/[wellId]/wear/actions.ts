'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { demand, deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { paths } from '@/lib/paths'
import { adoptInterval } from '@/lib/records/adopt-interval'
import { getDb } from '@/lib/records/open'

/** Takes up the interval that the well's own cartridges suggest. */
export async function takeInterval(wellId: string, form: FormData): Promise<void> {
  const viewer = await deskViewer()
  await demand(viewer, 'duty.edit')
  const outcome = await adoptInterval(await getDb(), viewer, wellId, Number(form.get('version')), now())
  if (outcome.kind === 'no-such-duty') notFound()
  revalidatePath('/', 'layout')
  redirect(paths.wellWear(wellId, { done: outcome.kind === 'stored' ? 'interval' : 'clash' }))
}
