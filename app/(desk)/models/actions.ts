'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { after } from 'next/server'
import { demand, deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { parseForm } from '@/lib/forms/form'
import {
  cartridgeModelFieldsOf,
  cartridgeModelForm,
  cartridgeModelTexts,
  pumpModelFieldsOf,
  pumpModelForm,
  pumpModelTexts,
} from '@/lib/forms/model-form'
import { clash, type RegisterState } from '@/lib/forms/register-state'
import { paths } from '@/lib/paths'
import type { Db } from '@/lib/records/db'
import {
  cartridgeModel,
  type ModelWrite,
  pumpModel,
  saveCartridgeModel,
  savePumpModel,
} from '@/lib/records/models'
import { getDb } from '@/lib/records/open'
import { rebuild } from '@/lib/records/rebuild'

/** Adds a pump model, or changes the one of that id. After a clash shows both and stores nothing. */
export async function storePump(
  id: string | null,
  _before: RegisterState,
  form: FormData,
): Promise<RegisterState> {
  const { viewer, db, version, existing } = await modelAsked(id, form)
  const parsed = parseForm(pumpModelForm(viewer.units), form)
  if (!parsed.ok) return withVersion(parsed.state, version)
  const outcome = await savePumpModel(db, viewer, existing, pumpModelFieldsOf(parsed.value), now())
  if (outcome.kind !== 'changed-since') return finish(db, outcome, parsed.typed, version)
  const row = id === null ? null : pumpModel(db, viewer, id)
  return row ? clash(parsed.typed, pumpModelTexts(row, viewer.units), row.version) : notFound()
}

/** The same for a cartridge model. */
export async function storeCartridge(
  id: string | null,
  _before: RegisterState,
  form: FormData,
): Promise<RegisterState> {
  const { viewer, db, version, existing } = await modelAsked(id, form)
  const parsed = parseForm(cartridgeModelForm(viewer.units), form)
  if (!parsed.ok) return withVersion(parsed.state, version)
  const outcome = await saveCartridgeModel(db, viewer, existing, cartridgeModelFieldsOf(parsed.value), now())
  if (outcome.kind !== 'changed-since') return finish(db, outcome, parsed.typed, version)
  const row = id === null ? null : cartridgeModel(db, viewer, id)
  return row ? clash(parsed.typed, cartridgeModelTexts(row, viewer.units), row.version) : notFound()
}

/** Who asks, and for which model in which version; nobody else gets further. */
async function modelAsked(id: string | null, form: FormData) {
  const viewer = await deskViewer()
  await demand(viewer, 'well.edit')
  const version = String(form.get('version') ?? '')
  return {
    viewer,
    db: await getDb(),
    version,
    existing: id === null ? null : { id, version: Number(version) },
  }
}

const withVersion = (state: RegisterState, version: string): RegisterState => ({
  ...state,
  typed: { ...state.typed, version },
})

function finish(
  db: Db,
  outcome: Exclude<ModelWrite, { kind: 'changed-since' }>,
  typed: RegisterState['typed'],
  version: string,
): RegisterState {
  switch (outcome.kind) {
    case 'stored':
      if (outcome.stale) after(() => rebuild(db, 'stale'))
      revalidatePath('/', 'layout')
      return redirect(paths.models())
    case 'name-taken':
      return withVersion({ typed, errors: { name: outcome.message } }, version)
    case 'no-such-model':
      return notFound()
  }
}
