'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { ownViewer } from '@/app/ui/session'
import { storeOwnerLine } from '@/app/ui/store-owner-line'
import type { FormState } from '@/lib/forms/form'
import { paths } from '@/lib/paths'

/** Stores that a visit is asked for. */
export async function saveAsk(wellId: string, _before: FormState, form: FormData): Promise<FormState> {
  const again = await storeOwnerLine(await ownViewer(), wellId, { kind: 'visit-request' }, form)
  if (again) return again
  revalidatePath('/', 'layout')
  redirect(paths.ownWell(wellId, { saved: 'asked' }))
}
