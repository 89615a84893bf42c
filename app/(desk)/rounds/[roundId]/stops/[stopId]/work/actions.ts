'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { demand, deskViewer } from '@/app/ui/session'
import { now } from '@/lib/clock'
import { timeText, timetable } from '@/lib/domain/place'
import { type FormState, typedFields } from '@/lib/forms/form'
import { readStopWork } from '@/lib/forms/stop-work'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { type RoundStop, roundPage } from '@/lib/records/rounds'
import { changeWork } from '@/lib/records/stop-work'

/** Plans other duties, minutes or words at a stop that stays where it is on the round. */
export async function saveWork(
  roundId: string,
  stopId: string,
  _before: FormState,
  form: FormData,
): Promise<FormState> {
  const viewer = await deskViewer()
  await demand(viewer, 'round.plan')
  const db = await getDb()
  const page = roundPage(db, viewer, roundId)
  if (!page) notFound()
  const typed = typedFields(form)
  const read = readStopWork(typed)
  if (!read.ok) return { typed, errors: read.errors }
  const { version, ...wish } = read.work
  const written = await changeWork(db, viewer, roundId, stopId, version, wish, now())
  switch (written.kind) {
    case 'no-such-round':
      notFound()
      break
    case 'refused':
      return { typed, errors: {}, message: written.message }
    case 'clash':
      return {
        typed: { ...typed, version: String(written.stop.version) },
        errors: {},
        message: clashWords(written.stop),
      }
    case 'stored': {
      revalidatePath('/', 'layout')
      const before = timetable(page.round, page.stops)
      const home = before ? { home: timeText(before.schedule.homeS) } : {}
      redirect(`${paths.round(roundId, { did: 'work', ...home })}#stop-${stopId}`)
    }
  }
}

/** What somebody else stored meanwhile. The form comes back with the new version, so that sending it again is a decision. */
function clashWords({ duties, minutes, note }: RoundStop): string {
  const named = duties.length === 0 ? 'no duty' : duties.map((duty) => duty.name).join(', ')
  const theirs = [named, `${minutes} min`, ...(note === null ? [] : [`the note “${note}”`])].join('; ')
  return `Nothing was stored: somebody else changed this stop since you opened it. It has now: ${theirs}. What you typed stands below; save again to put it in the place of theirs.`
}
