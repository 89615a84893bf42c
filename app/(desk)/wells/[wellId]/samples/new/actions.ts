'use server'

import { redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { paths } from '@/lib/paths'
import type { SheetState } from './sheet-state'
import { storeSheet } from './store-sheet'

/** Stores a lab sheet, or shows it again as it was typed, with how each row reads and what has to be asked. */
export async function saveSheet(wellId: string, _before: SheetState, form: FormData): Promise<SheetState> {
  const outcome = await storeSheet(await deskViewer(), wellId, form)
  if (outcome.kind === 'again') return outcome.state
  redirect(paths.sample(wellId, outcome.sampleId, { saved: 'yes' }))
}
