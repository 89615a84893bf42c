'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import type { FormState } from '@/lib/forms/form'
import { paths } from '@/lib/paths'
import { attachSheet } from './attach-sheet'

/** Hangs a photo or a PDF on a sheet. */
export async function attachFile(
  wellId: string,
  entryId: string,
  _before: FormState,
  form: FormData,
): Promise<FormState> {
  const outcome = await attachSheet(await deskViewer(), entryId, form)
  if (outcome.kind === 'again') return outcome.state
  revalidatePath(paths.sample(wellId, entryId))
  redirect(paths.sample(wellId, entryId, { attached: outcome.kind === 'already' ? 'already' : 'yes' }))
}
