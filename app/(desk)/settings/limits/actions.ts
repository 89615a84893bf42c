'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { after } from 'next/server'
import { demand, deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import type { LocalLimit } from '@/lib/domain/water/schemes'
import type { FormState } from '@/lib/forms/form'
import { LIMIT_FIELDS, limitKey, readLocalLimit } from '@/lib/forms/local-limit'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { rebuild } from '@/lib/records/rebuild'
import { putReckonChoices, reckonSettings } from '@/lib/records/reckon-settings'

const GONE = 'Somebody changed or removed this limit since the page was opened. Open the list again.'

/** Adds a limit of the installer's own, or puts it in the place of the one named `was`. */
export async function saveLimit(_before: FormState, form: FormData): Promise<FormState> {
  const { db, viewer } = await settingEditor()
  const typed = Object.fromEntries([...LIMIT_FIELDS, 'was'].map((name) => [name, textOf(form.get(name))]))
  const reading = readLocalLimit(typed)
  if (!reading.ok) return { typed, errors: reading.errors }
  const { choices } = reckonSettings(db.sqlite)
  const local = choices.local ?? []
  const { was = '' } = typed
  if (was !== '' && !local.some((limit) => limitKey(limit) === was))
    return { typed, errors: {}, message: GONE }
  const others = local.filter((limit) => limitKey(limit) !== was)
  if (others.some((limit) => limitKey(limit) === limitKey(reading.limit)))
    return { typed, errors: {}, message: 'This limit is in the list already.' }
  await put([...others, reading.limit], { db, viewer })
  redirect(paths.localLimits({ done: was === '' ? 'added' : 'changed' }))
}

/** Takes a limit off the list; the change record keeps what it said. */
export async function removeLimit(form: FormData): Promise<void> {
  const editor = await settingEditor()
  const { choices } = reckonSettings(editor.db.sqlite)
  const was = textOf(form.get('was'))
  const rest = (choices.local ?? []).filter((limit) => limitKey(limit) !== was)
  if (rest.length === (choices.local ?? []).length) redirect(paths.localLimits({ done: 'gone' }))
  await put(rest, editor)
  redirect(paths.localLimits({ done: 'removed' }))
}

type Editor = Awaited<ReturnType<typeof settingEditor>>

async function settingEditor() {
  const viewer = await deskViewer()
  await demand(viewer, 'setting.edit')
  return { db: await getDb(), viewer }
}

async function put(local: LocalLimit[], { db, viewer }: Editor): Promise<void> {
  await putReckonChoices(db, viewer, { ...reckonSettings(db.sqlite).choices, local }, now())
  // A stop in the middle loses nothing: what is still stale is reckoned at the next start.
  after(() => rebuild(db, 'stale'))
  revalidatePath('/', 'layout')
}

const textOf = (value: FormDataEntryValue | null) => (typeof value === 'string' ? value : '')
