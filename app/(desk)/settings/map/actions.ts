'use server'

import { revalidatePath } from 'next/cache'
import { deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { type FormState, parseForm } from '@/lib/forms/form'
import { mapTilesForm } from '@/lib/forms/map-tiles'
import { putMapTiles } from '@/lib/records/map-tiles'
import { getDb } from '@/lib/records/open'

/** Stores from where the map takes its ground. */
export async function saveTiles(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  const parsed = parseForm(mapTilesForm, form)
  if (!parsed.ok) return parsed.state
  const { url, attribution } = parsed.value
  await putMapTiles(await getDb(), viewer, url === '' ? null : { url, attribution }, now())
  revalidatePath('/map')
  const done = url === '' ? 'Saved: plain ground' : 'Saved. Open the map anew to see it'
  return { typed: parsed.typed, errors: {}, done }
}
