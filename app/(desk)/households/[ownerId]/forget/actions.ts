'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { type FormState, parseForm } from '@/lib/forms/form'
import { forgetForm } from '@/lib/forms/sale-form'
import { paths } from '@/lib/paths'
import { forgetHousehold, forgetPerson } from '@/lib/records/forget'
import { getDb } from '@/lib/records/open'

/** Forgets one person, or the household with everybody in it. */
export async function forget(ownerId: string, _before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  const parsed = parseForm(forgetForm, form)
  if (!parsed.ok) return parsed.state
  const { who } = parsed.value
  const db = await getDb()
  const outcome =
    who === 'household'
      ? await forgetHousehold(db, viewer, ownerId, now())
      : await forgetPerson(db, viewer, who, now())
  if (outcome !== 'done') notFound()
  revalidatePath('/', 'layout')
  redirect(paths.household(ownerId))
}
