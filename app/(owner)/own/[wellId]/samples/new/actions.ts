'use server'

import { redirect } from 'next/navigation'
import type { SheetState } from '@/app/(desk)/wells/[wellId]/samples/new/sheet-state'
import { storeSheet } from '@/app/(desk)/wells/[wellId]/samples/new/store-sheet'
import { ownViewer } from '@/app/ui/session'
import { paths } from '@/lib/paths'

/** Stores an owner's lab sheet: it can warn at once, and clears nothing until the outfit confirms it. */
export async function saveOwnSheet(wellId: string, _before: SheetState, form: FormData): Promise<SheetState> {
  const outcome = await storeSheet(await ownViewer(), wellId, form)
  if (outcome.kind === 'again') return outcome.state
  redirect(paths.ownSample(wellId, outcome.sampleId, { saved: 'yes' }))
}
