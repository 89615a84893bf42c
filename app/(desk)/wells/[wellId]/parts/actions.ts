'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { now, today } from '@/lib/clock'
import { type FormState, parseForm } from '@/lib/forms/form'
import { partForm } from '@/lib/forms/part-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { savePart } from '@/lib/records/parts'

/** Adds a part, or changes the one that the form was opened for. */
export async function storePart(
  wellId: string,
  existing: { id: string; version: number } | null,
  _before: FormState,
  form: FormData,
): Promise<FormState> {
  const viewer = await deskViewer()
  const parsed = parseForm(partForm(today()), form)
  if (!parsed.ok) return parsed.state
  const outcome = await savePart(await getDb(), viewer, wellId, existing, parsed.value, now())
  if (outcome.kind === 'no-such-well') notFound()
  if (outcome.kind === 'changed-since') {
    return {
      typed: parsed.typed,
      errors: {},
      message:
        'Somebody else changed this part while the form was open. Nothing was stored: open it again and compare.',
    }
  }
  revalidatePath('/', 'layout')
  redirect(paths.well(wellId))
}
