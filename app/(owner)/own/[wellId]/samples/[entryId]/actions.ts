'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { attachSheet } from '@/app/(desk)/wells/[wellId]/samples/[entryId]/attach-sheet'
import { ownViewer } from '@/app/ui/session'
import type { FormState } from '@/lib/forms/form'
import { paths } from '@/lib/paths'

/** Hangs a photo or a PDF on a sheet of one's own well. */
export async function attachOwnFile(
  wellId: string,
  entryId: string,
  _before: FormState,
  form: FormData,
): Promise<FormState> {
  const outcome = await attachSheet(await ownViewer(), entryId, form)
  if (outcome.kind === 'again') return outcome.state
  revalidatePath(paths.ownSample(wellId, entryId))
  redirect(paths.ownSample(wellId, entryId, { attached: 'yes' }))
}
