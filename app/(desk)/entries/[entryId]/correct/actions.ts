'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import type { Asking } from '@/app/ui/with-questions'
import { now, today } from '@/lib/clock'
import { uuidSchema } from '@/lib/domain/logbook/kinds'
import { readCorrection } from '@/lib/forms/correction-form'
import { paths } from '@/lib/paths'
import { entryPage } from '@/lib/records/entry-page'
import { getDb } from '@/lib/records/open'
import { record } from '@/lib/records/record'
import { visitSetting } from '@/lib/records/visit-context'

export type CorrectionState = Asking

/** Records a correction: a new line that speaks for the old one from now on. */
export async function saveCorrection(
  entryId: string,
  _before: CorrectionState,
  form: FormData,
): Promise<CorrectionState> {
  const viewer = await deskViewer()
  const db = await getDb()
  const page = entryPage(db, viewer, entryId)
  const setting = page && visitSetting(db, viewer, page.wellId)
  if (!page || !setting) notFound()
  const typed: Record<string, string> = {}
  for (const [name, value] of form)
    if (typeof value === 'string' && !name.startsWith('$')) typed[name] = value
  const day = today()
  const reading = readCorrection(typed, page.current.fact, {
    ...setting,
    today: day,
    system: viewer.units,
  })
  const id = uuidSchema.safeParse(typed.newId)
  if (!reading.ok) return { typed, errors: reading.errors, questions: reading.questions }
  if (!id.success)
    return { typed, errors: {}, questions: {}, message: 'This form has lost its number: open it again' }
  const outcome = await record(
    db,
    viewer,
    [
      {
        id: id.data,
        wellId: page.wellId,
        visitId: page.current.visitId,
        occurredOn: reading.correction.occurredOn,
        occurredTime: reading.correction.occurredTime,
        byName: viewer.name,
        supersedes: page.current.spokenBy,
        withdraws: null,
        payload: { kind: 'correction', ...reading.correction },
      },
    ],
    now(),
    day,
  )
  if (outcome.kind === 'no-such-well') notFound()
  if (outcome.kind === 'refused') {
    return {
      typed,
      errors: {},
      questions: {},
      message: outcome.problems.map((problem) => problem.message).join(' '),
    }
  }
  revalidatePath('/', 'layout')
  redirect(`${paths.well(page.wellId)}?corrected=${id.data}`)
}
