'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { demand, deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { uuidSchema } from '@/lib/domain/logbook/kinds'
import { parseTime } from '@/lib/domain/quantity'
import { type FormState, typedFields } from '@/lib/forms/form'
import { type PlannedRound, readPlan } from '@/lib/forms/round-plan'
import { paths } from '@/lib/paths'
import type { Db } from '@/lib/records/db'
import { getDb } from '@/lib/records/open'
import { createRounds, type RoundWish } from '@/lib/records/round-writes'
import { sayUnknown, wellsNamed } from '@/lib/records/wells-named'

/** Makes the rounds of an accepted proposal, one a day; nothing where anything in the form needs mending. */
export async function makeRounds(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  await demand(viewer, 'round.plan')
  const db = await getDb()
  const typed = typedFields(form)
  const { rounds, errors } = readPlan(typed)
  const planId = uuidSchema.safeParse(typed.planId)
  const start = parseTime(typed.start ?? '')
  const end = parseTime(typed.end ?? '')
  if (!planId.success || !start.ok || !end.ok) {
    return { typed, errors: {}, message: 'This plan has lost its hours: ask for a proposal again.' }
  }
  const wishes = rounds.map((round) =>
    wishOf(db, viewer, round, errors, {
      startAt: start.time,
      endAt: end.time,
      assignedTo: typed.person ? typed.person : null,
    }),
  )
  if (Object.keys(errors).length > 0) return { typed, errors }
  if (wishes.length === 0) {
    return { typed, errors: {}, message: 'Nothing is ticked: tick a stop, or add a well by its label.' }
  }
  const ids = await createRounds(db, viewer, planId.data, wishes, now())
  revalidatePath('/', 'layout')
  redirect(
    ids.length === 1 ? paths.round(ids[0] ?? '', { did: 'planned' }) : paths.rounds({ did: 'planned' }),
  )
}

function wishOf(
  db: Db,
  viewer: Parameters<typeof wellsNamed>[1],
  round: PlannedRound,
  errors: Record<string, string>,
  frame: { startAt: string; endAt: string; assignedTo: string | null },
): RoundWish {
  const added = wellsNamed(db, viewer, round.add)
  if (added.unknown.length > 0) {
    errors[`add:${round.day}`] = sayUnknown(added.unknown)
  }
  return {
    ...frame,
    name: round.name,
    day: round.day,
    notes: null,
    stops: [...round.stops, ...added.ids.map((wellId) => ({ wellId, dutyKeys: null }))],
  }
}
