'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { now, today } from '@/lib/clock'
import { type FormState, parseForm } from '@/lib/forms/form'
import { withdrawalForm } from '@/lib/forms/withdrawal'
import { paths } from '@/lib/paths'
import { entryPage } from '@/lib/records/entry-page'
import { getDb } from '@/lib/records/open'
import { record } from '@/lib/records/record'

/** Records a withdrawal of a line. */
export async function saveWithdrawal(
  entryId: string,
  _before: FormState,
  form: FormData,
): Promise<FormState> {
  const viewer = await deskViewer()
  const db = await getDb()
  const page = entryPage(db, viewer, entryId)
  if (!page) notFound()
  const parsed = parseForm(withdrawalForm, form)
  if (!parsed.ok) return parsed.state
  const day = today()
  const outcome = await record(
    db,
    viewer,
    [
      {
        id: parsed.value.newId,
        wellId: page.wellId,
        visitId: page.current.visitId,
        occurredOn: day,
        occurredTime: null,
        byName: viewer.name,
        supersedes: null,
        withdraws: entryId,
        payload: { kind: 'withdrawal', reason: parsed.value.reason },
      },
    ],
    now(),
    day,
  )
  if (outcome.kind === 'no-such-well') notFound()
  if (outcome.kind === 'refused') {
    return {
      typed: parsed.typed,
      errors: {},
      message: outcome.problems.map((problem) => problem.message).join(' '),
    }
  }
  revalidatePath('/', 'layout')
  redirect(`${paths.well(page.wellId)}?withdrawn=${entryId}`)
}
