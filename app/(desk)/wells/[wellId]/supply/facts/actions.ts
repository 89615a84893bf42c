'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { now, today } from '@/lib/clock'
import { supplyFactsOf } from '@/lib/domain/logbook/supply-facts'
import { parseForm } from '@/lib/forms/form'
import { clash, type RegisterState } from '@/lib/forms/register-state'
import { supplyFactsOfForm, supplyForm, supplyFormTexts } from '@/lib/forms/supply-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { saveSupply } from '@/lib/records/well-supply'

/** Stores what drives a well's pump. Where somebody else changed the well meanwhile, shows both and stores nothing. */
export async function storeSupply(
  wellId: string,
  _before: RegisterState,
  form: FormData,
): Promise<RegisterState> {
  const viewer = await deskViewer()
  const version = Number(form.get('version'))
  const parsed = parseForm(supplyForm(viewer.units), form)
  if (!parsed.ok) {
    return { ...parsed.state, typed: { ...parsed.state.typed, version: String(version) } }
  }
  const facts = supplyFactsOfForm(parsed.value, today())
  const outcome = await saveSupply(await getDb(), viewer, wellId, version, facts, now())
  if (outcome.kind === 'no-such-well') notFound()
  if (outcome.kind === 'changed-since') {
    const { supply, version: stored } = outcome.current
    return clash(parsed.typed, supplyFormTexts(supplyFactsOf(supply), viewer.units), stored)
  }
  revalidatePath('/', 'layout')
  redirect(paths.wellSupply(wellId))
}
