'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { demand, deskViewer } from '@/app/ui/session'
import { now, today } from '@/lib/clock'
import { FILE_BYTES_MAX, sayBytes } from '@/lib/domain/limits'
import { TABLE_KINDS } from '@/lib/exchange/columns'
import { readImportQuery } from '@/lib/exchange/import-query'
import { startImport } from '@/lib/exchange/jobs'
import { keepUpload, sweepUploads } from '@/lib/exchange/uploads'
import type { FormState } from '@/lib/forms/form'
import { paths } from '@/lib/paths'
import { undoBatch } from '@/lib/records/batch-undo'
import { dataFolder, getDb } from '@/lib/records/open'

/** Keeps the chosen file and leads to the page that asks what its columns are. */
export async function takeFile(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  await demand(viewer, 'import.run')
  const kind = TABLE_KINDS.find((known) => known === form.get('kind')) ?? 'wells'
  const file = form.get('file')
  const refuse = (message: string): FormState => ({ typed: { kind }, errors: { file: message } })
  if (!(file instanceof File) || file.size === 0) return refuse('Choose the file to import')
  if (file.size > FILE_BYTES_MAX)
    return refuse(`The file is larger than ${sayBytes(FILE_BYTES_MAX)}. Split it in parts.`)
  const at = now()
  await sweepUploads(dataFolder(), Date.parse(at))
  const kept = await keepUpload(dataFolder(), viewer, file.name, new Uint8Array(await file.arrayBuffer()), at)
  if (kept.kind === 'refused') return refuse(kept.message)
  redirect(paths.import(kept.upload.id, { kind }))
}

/** Starts the import that the mapping page has checked, and leads to its progress. */
export async function runImport(uploadId: string, search: string): Promise<void> {
  const viewer = await deskViewer()
  await demand(viewer, 'import.run')
  const query = readImportQuery(Object.fromEntries(new URLSearchParams(search)))
  const job = startImport(
    await getDb(),
    viewer,
    dataFolder(),
    {
      uploadId,
      kind: query.kind,
      choice: query.choice,
      mapping: query.mapping ?? {},
      answers: query.answers,
      options: {
        createMissingWells: query.createMissingWells,
        updateExisting: query.updateExisting,
        today: today(),
      },
    },
    now(),
  )
  redirect(paths.importJob(job.id))
}

/** Takes an import back, and says on the list of imports what that did. */
export async function takeBack(batchId: string): Promise<void> {
  const viewer = await deskViewer()
  await demand(viewer, 'import.run')
  const outcome = await undoBatch(await getDb(), viewer, batchId, now(), today())
  if (outcome.kind === 'no-such-batch') notFound()
  revalidatePath('/', 'layout')
  redirect(paths.importUndo(batchId))
}
