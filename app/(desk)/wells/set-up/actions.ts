'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { demand, deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { setUpWells } from '@/lib/records/set-up'
import { chosenWells } from '../duties/chosen'
import { choiceOf } from './choice'

/** Gives the chosen wells what the preview showed, in one step. */
export async function setUpAlike(form: FormData): Promise<void> {
  const viewer = await deskViewer()
  await demand(viewer, 'well.edit')
  const db = await getDb()
  const params: Record<string, string | string[]> = {}
  for (const name of new Set(form.keys())) {
    if (!name.startsWith('$')) params[name] = form.getAll(name).map(String)
  }
  const { ids } = chosenWells(db, viewer, single(params))
  const outcome = await setUpWells(db, viewer, ids, choiceOf(single(params)), now())
  if (outcome.kind === 'no-such-model') notFound()
  revalidatePath('/', 'layout')
  if (outcome.kind === 'nothing-to-change') redirect(paths.bulkSetUp({ done: 'nothing' }))
  redirect(
    paths.bulkSetUp({
      done: outcome.batchId,
      wells: String(outcome.wells),
      duties: String(outcome.duties),
    }),
  )
}

/** One value stays a text, as an address would have it. */
const single = (params: Record<string, string | string[]>) =>
  Object.fromEntries(
    Object.entries(params).map(([name, value]) => [
      name,
      name === 'ids' || name === 'duty' ? value : (value[0] ?? ''),
    ]),
  )
