'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { now, today } from '@/lib/clock'
import { type FormState, parseForm } from '@/lib/forms/form'
import { revokeForm, saleForm } from '@/lib/forms/sale-form'
import { paths } from '@/lib/paths'
import { revokeGrant } from '@/lib/records/grants'
import { getDb } from '@/lib/records/open'
import { sellWell } from '@/lib/records/sale'

/** Hands a well to another household. */
export async function saveSale(wellId: string, _before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  const parsed = parseForm(saleForm(today()), form)
  if (!parsed.ok) return parsed.state
  const { reads, on, ...sale } = parsed.value
  const mayRead = reads === 'past'
  // The form asks for the day: a blank one was refused above.
  const outcome = await sellWell(
    await getDb(),
    viewer,
    wellId,
    { ...sale, on: on ?? today(), mayRead },
    now(),
  )
  if (outcome === 'no-such-well') notFound()
  if (outcome === 'same-household') {
    const ownerName = 'The well belongs to this household already'
    return { typed: parsed.typed, errors: { ownerName } }
  }
  revalidatePath('/', 'layout')
  redirect(paths.sale(wellId, { done: 'yes' }))
}

/** Takes back what a former household was granted to read. */
export async function takeGrantBack(wellId: string, form: FormData): Promise<void> {
  const viewer = await deskViewer()
  const parsed = parseForm(revokeForm, form)
  if (!parsed.ok) notFound()
  await revokeGrant(await getDb(), viewer, parsed.value.id, now())
  revalidatePath(paths.sale(wellId))
}
