'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import type { Asking } from '@/app/ui/with-questions'
import { now, today } from '@/lib/clock'
import { typedFields } from '@/lib/forms/form'
import { TEST_KINDS } from '@/lib/forms/test/draft'
import { readTest } from '@/lib/forms/test-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { record } from '@/lib/records/record'
import { testSetting } from '@/lib/records/well-tests'

/** Stores a test with what belongs to it, or answers with the form filled in as it was. */
export async function saveTest(
  wellId: string,
  kind: string,
  _before: Asking,
  form: FormData,
): Promise<Asking> {
  const viewer = await deskViewer()
  const db = await getDb()
  const setting = testSetting(db, viewer, wellId)
  const known = TEST_KINDS.find((one) => one === kind)
  if (!setting || !known) notFound()
  const typed = typedFields(form)
  const day = today()
  const reading = readTest(known, typed, { wellId, today: day, system: viewer.units, well: setting.well })
  if (!reading.ok) return { typed, errors: reading.errors, questions: reading.questions }
  const outcome = await record(db, viewer, reading.drafts, now(), day)
  if (outcome.kind === 'no-such-well') notFound()
  if (outcome.kind === 'refused') {
    const taken = outcome.problems.some((problem) => problem.field === 'id')
    const message = taken
      ? 'This test reached the server before, with other words or readings. Open it among the tests of the well and correct it there. What stands here stays on this device until you throw it away.'
      : outcome.problems.map((problem) => problem.message).join(' ')
    return { typed, errors: {}, questions: {}, message }
  }
  revalidatePath('/', 'layout')
  const [test] = reading.drafts
  redirect(paths.test(wellId, test?.id ?? '', { saved: test?.visitId }))
}
