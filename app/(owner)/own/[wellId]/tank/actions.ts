'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { ownViewer } from '@/app/ui/session'
import { storeOwnerLine } from '@/app/ui/store-owner-line'
import type { FormState } from '@/lib/forms/form'
import { paths } from '@/lib/paths'

/** Stores how full the tank is. */
export async function saveTank(wellId: string, _before: FormState, form: FormData): Promise<FormState> {
  const again = await storeOwnerLine(await ownViewer(), wellId, { kind: 'tank-level' }, form)
  if (again) return again
  revalidatePath('/', 'layout')
  redirect(paths.ownWell(wellId, { saved: 'yes' }))
}
