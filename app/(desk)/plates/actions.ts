'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { demand, deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { makePlates, takePlateBack } from '@/lib/records/plates'

/** Makes plates for the wells of the form that have none, and shows them for printing. */
export async function makeMissing(form: FormData): Promise<void> {
  const viewer = await deskViewer()
  await demand(viewer, 'plate.edit')
  const wells = form.getAll('wells').map(String)
  await makePlates(await getDb(), viewer, wells, now())
  revalidatePath('/', 'layout')
  const chosen = (name: string) => String(form.get(name) ?? '')
  redirect(paths.plateSheet({ wells, kind: chosen('kind'), text: chosen('text') }))
}

/** Takes a lost or stolen plate back. */
export async function takeBack(form: FormData): Promise<void> {
  const viewer = await deskViewer()
  await demand(viewer, 'plate.edit')
  const wellId = await takePlateBack(await getDb(), viewer, String(form.get('code') ?? ''), now())
  if (wellId === null) notFound()
  revalidatePath('/', 'layout')
  redirect(paths.wellPlates(wellId))
}
