'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { storeOwnerLine } from '@/app/ui/store-owner-line'
import { localPath } from '@/lib/forms/accounts'
import type { FormState } from '@/lib/forms/form'

/** What the office says to a line of a household: looked at and right, or a question; or what becomes of a visit. */
export async function saveReply(
  wellId: string,
  entryId: string,
  kind: 'confirmation' | 'visit-answer',
  back: string,
  _before: FormState,
  form: FormData,
): Promise<FormState> {
  const again = await storeOwnerLine(await deskViewer(), wellId, { kind, of: entryId }, form)
  if (again) return again
  revalidatePath('/', 'layout')
  redirect(localPath(back))
}
