'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { ownViewer } from '@/app/ui/session'
import { storeOwnerLine } from '@/app/ui/store-owner-line'
import type { FormState } from '@/lib/forms/form'
import { paths } from '@/lib/paths'

/** Stores what a household says to a question of the outfit. */
export async function saveAnswer(
  wellId: string,
  entryId: string,
  _before: FormState,
  form: FormData,
): Promise<FormState> {
  const again = await storeOwnerLine(await ownViewer(), wellId, { kind: 'owner-answer', of: entryId }, form)
  if (again) return again
  revalidatePath('/', 'layout')
  redirect(paths.ownWell(wellId, { saved: 'yes' }))
}
