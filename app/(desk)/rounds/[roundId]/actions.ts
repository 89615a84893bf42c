'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { demand, deskViewer } from '@/app/ui/session'
import type { Viewer } from '@/lib/access/viewer'
import { now } from '@/lib/clock'
import { moveStop } from '@/lib/domain/place'
import { type FormState, parseForm } from '@/lib/forms/form'
import { roundForm } from '@/lib/forms/round-form'
import { paths } from '@/lib/paths'
import type { Db } from '@/lib/records/db'
import { settleStop } from '@/lib/records/follow-ups'
import { getDb } from '@/lib/records/open'
import type { RoundWrite } from '@/lib/records/round-change'
import {
  addStop,
  changeRound,
  deleteRound,
  removeStop,
  reorderRound,
  setRoundStatus,
} from '@/lib/records/round-writes'
import { type RoundPage, roundPage } from '@/lib/records/rounds'
import { sayUnknown, wellsNamed } from '@/lib/records/wells-named'
import { reckonedOrder } from '../../_rounds/order'

/** What every button of a round begins with: who asks, and the round as it stands. */
async function roundOpened(roundId: string): Promise<{ viewer: Viewer; db: Db; page: RoundPage }> {
  const viewer = await deskViewer()
  const db = await getDb()
  const page = roundPage(db, viewer, roundId)
  if (!page) notFound()
  return { viewer, db, page }
}

/** Leads back to the round, and says what was done or why nothing was. */
function answered(roundId: string, outcome: RoundWrite, did: string, at = ''): never {
  if (outcome.kind === 'no-such-round') notFound()
  revalidatePath('/', 'layout')
  const said = outcome.kind === 'stored' ? did : outcome.kind
  redirect(`${paths.round(roundId, { did: said })}${at}`)
}

const versionIn = (form: FormData): number => Number(form.get('version'))

/** Moves a stop to the place that the button or the list names, counted from 1. */
export async function moveTo(roundId: string, stopId: string, form: FormData): Promise<void> {
  const { viewer, db, page } = await roundOpened(roundId)
  const ids = page.stops.map((stop) => stop.id)
  const from = ids.indexOf(stopId)
  const to = Number(form.get('to')) - 1
  if (from < 0 || !Number.isInteger(to) || to < 0 || to >= ids.length) {
    answered(roundId, { kind: 'changed-since' }, 'moved')
  }
  const outcome = await reorderRound(
    db,
    viewer,
    roundId,
    versionIn(form),
    moveStop(
      ids.map((_, i) => i),
      from,
      to,
    ).flatMap((i) => ids[i] ?? []),
    lockedOf(page),
    now(),
  )
  answered(roundId, outcome, 'moved', `#stop-${stopId}`)
}

/** Puts the stops in the reckoned order; those that are locked or closed stay. */
export async function reckonOrder(roundId: string, form: FormData): Promise<void> {
  const { viewer, db, page } = await roundOpened(roundId)
  const ids = reckonedOrder(page.round, page.stops)?.ids ?? page.stops.map((stop) => stop.id)
  const outcome = await reorderRound(db, viewer, roundId, versionIn(form), ids, lockedOf(page), now())
  answered(roundId, outcome, 'ordered')
}

/** Locks a stop in its place, or frees it. */
export async function switchLock(roundId: string, stopId: string, form: FormData): Promise<void> {
  const { viewer, db, page } = await roundOpened(roundId)
  const locked = lockedOf(page)
  if (!locked.delete(stopId)) locked.add(stopId)
  const ids = page.stops.map((stop) => stop.id)
  const outcome = await reorderRound(db, viewer, roundId, versionIn(form), ids, locked, now())
  answered(roundId, outcome, locked.has(stopId) ? 'locked' : 'freed', `#stop-${stopId}`)
}

function lockedOf({ stops }: RoundPage): Set<string> {
  return new Set(stops.filter((stop) => stop.locked).map((stop) => stop.id))
}

/** Takes an open stop off the round. */
export async function takeOff(roundId: string, stopId: string, form: FormData): Promise<void> {
  const { viewer, db } = await roundOpened(roundId)
  await demand(viewer, 'round.plan')
  answered(roundId, await removeStop(db, viewer, roundId, versionIn(form), stopId, now()), 'off')
}

/** Puts a well on the round by its label, where it costs least. */
export async function addWell(roundId: string, _before: FormState, form: FormData): Promise<FormState> {
  const { viewer, db } = await roundOpened(roundId)
  await demand(viewer, 'round.plan')
  const label = String(form.get('label') ?? '').trim()
  const typed = { label }
  if (label === '') return { typed, errors: { label: 'Enter the label of a well, such as W012' } }
  const found = wellsNamed(db, viewer, [label])
  const wellId = found.ids[0]
  if (!wellId) return { typed, errors: { label: sayUnknown(found.unknown) } }
  const wish = { wellId, dutyKeys: null }
  const outcome = await addStop(db, viewer, roundId, versionIn(form), wish, now())
  if (outcome.kind === 'refused') return { typed, errors: { label: outcome.message } }
  answered(roundId, outcome, 'added')
}

/** Changes day, hours, driver, name and notes of a round. */
export async function editRound(roundId: string, _before: FormState, form: FormData): Promise<FormState> {
  const { viewer, db } = await roundOpened(roundId)
  await demand(viewer, 'round.plan')
  const parsed = parseForm(roundForm, form)
  if (!parsed.ok) return parsed.state
  const { version, name, day, startAt, endAt, person, notes } = parsed.value
  const fields = { name, day, startAt, endAt, assignedTo: person, notes }
  const outcome = await changeRound(db, viewer, roundId, version, fields, now())
  if (outcome.kind === 'changed-since') {
    const message =
      'Somebody else changed this round since you opened it. What you typed stands here; open the round again to see theirs.'
    return { typed: parsed.typed, errors: {}, message }
  }
  if (outcome.kind === 'refused') return { typed: parsed.typed, errors: {}, message: outcome.message }
  answered(roundId, outcome, 'changed')
}

/** Sends the round out, or closes it. */
export async function setStatus(roundId: string, status: 'out' | 'closed'): Promise<void> {
  const { viewer, db } = await roundOpened(roundId)
  answered(roundId, await setRoundStatus(db, viewer, roundId, status, now()), status)
}

/** Throws away a round that nobody has driven. */
export async function throwAway(roundId: string): Promise<void> {
  const { viewer, db } = await roundOpened(roundId)
  await demand(viewer, 'round.plan')
  const outcome = await deleteRound(db, viewer, roundId, now())
  if (outcome.kind !== 'stored') answered(roundId, outcome, '')
  revalidatePath('/', 'layout')
  redirect(paths.rounds({ did: 'thrown' }))
}

/** Says that what a stop left was seen to. */
export async function settle(stopId: string, back: 'rounds' | 'well', wellId: string): Promise<void> {
  const viewer = await deskViewer()
  if (!(await settleStop(await getDb(), viewer, stopId, now()))) notFound()
  revalidatePath('/', 'layout')
  redirect(back === 'well' ? paths.well(wellId) : paths.rounds({ did: 'settled' }))
}
