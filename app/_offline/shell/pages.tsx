import type { ComponentProps, ReactNode } from 'react'
import type { StopToClose } from '@/app/(desk)/_rounds/stop-to-close'
import { wellDuties } from '@/lib/domain/place'
import {
  type PhoneWell,
  type TakenRound,
  type TakenWell,
  takenRoundSchema,
  takenWellSchema,
} from '@/lib/exchange/phone/shape'
import { TEST_KINDS } from '@/lib/forms/test/draft'
import { paths } from '@/lib/paths'
import { openStore, type Picture, type QueuedVisit } from '../store'
import { type Person, roundKey, takenData, takenList, wellKey } from '../taken'
import { OfflineFind } from './find-page'
import { NotHere } from './not-here'
import { OfflineRound } from './round-page'
import type { OfflineSheet } from './sheet-page'
import { MendNotReached, OfflineStop } from './stop-page'
import type { OfflineTest } from './test-page'
import { OfflineTests } from './tests-page'
import { UnsentPage } from './unsent-page'
import { OfflineVisit } from './visit-page'
import { OfflineWell } from './well-page'

/** The page for an address, from what is on the phone; what is not there is said, with what is. */
export async function pageFor(who: Person, path: string, query: URLSearchParams): Promise<ReactNode> {
  const user = who.id
  if (path === paths.unsent()) {
    const record = query.get('record')
    return record === null ? <UnsentPage user={user} /> : mendPage(who, record)
  }
  const [, kind, id = '', page = '', part = '', last = ''] = path.split('/').map(decodeURIComponent)
  if (kind === 'wells') return wellPages(who, id, [page, part, last].filter(Boolean).join('/'), query)
  if (kind === 'rounds' && (page === '' || page === 'stops')) return roundPages(who, id, part)
  return <NotHere user={user} />
}

/** A round, or the closing of one of its stops. */
async function roundPages(who: Person, id: string, stopId: string): Promise<ReactNode> {
  const found = await takenData(roundKey(id), who.id, takenRoundSchema, Date.now())
  if (!found) return <NotHere user={who.id} />
  const { takenAt } = found
  const { round, zone } = found.data
  if (stopId === '') return <OfflineRound user={who.id} {...{ round, takenAt }} />
  const stop = round.stops.find((one) => one.id === stopId)
  return stop ? <OfflineStop {...{ who, round, stop, zone, takenAt }} /> : <NotHere user={who.id} />
}

async function wellPages(who: Person, id: string, page: string, query: URLSearchParams): Promise<ReactNode> {
  const found = await wellOf(who.id, id)
  if (!found) return <NotHere user={who.id} />
  const { takenAt } = found
  const { well, zone } = found.data
  switch (page) {
    case '':
      return <OfflineWell {...{ well, zone, takenAt }} />
    case 'visit':
      return <OfflineVisit {...{ who, well, zone, takenAt }} stop={await stopOf(who.id, query.get('stop'))} />
    case 'find':
      return <OfflineFind {...{ who, well, zone, takenAt }} pictures={found.pictures} />
    case 'tests/new':
      return <OfflineTests {...{ well, takenAt }} />
    case 'samples/new':
      return sheetForm({ who, well, zone, takenAt })
    default: {
      const kind = TEST_KINDS.find((one) => page === `tests/new/${one}`)
      return kind ? testForm({ who, well, zone, takenAt, kind }) : <NotHere user={who.id} />
    }
  }
}

/** Forms with much reckoning behind them are parts of their own, on the phone like the rest, and read when they are opened. */
async function testForm(props: ComponentProps<typeof OfflineTest>): Promise<ReactNode> {
  const { OfflineTest } = await import('./test-page')
  return <OfflineTest {...props} />
}
async function sheetForm(props: ComponentProps<typeof OfflineSheet>): Promise<ReactNode> {
  const { OfflineSheet } = await import('./sheet-page')
  return <OfflineSheet {...props} />
}

/** A record that waits, in the form that it was written on. */
async function mendPage(who: Person, id: string): Promise<ReactNode> {
  const user = who.id
  const mend = await (await openStore()).get('items', id)
  if (mend?.user !== user || mend.state === 'sent') return <UnsentPage user={user} />
  const stop = await stopOf(user, mend.stopId ?? null)
  if (mend.typed.stopOutcome === 'not-found' || mend.typed.stopOutcome === 'no-access')
    return <MendNotReached who={who} mend={mend} roundId={stop?.roundId} />
  const found = (await wellOf(user, mend.wellId)) ?? (await asked(mend.wellId))
  if (!found) return <NotHere user={user} what={`The form of ${mend.label}`} />
  const { well, zone } = found.data
  return formOf(mend, { who, well, zone, takenAt: found.takenAt }, stop)
}

type Here = { who: Person; well: PhoneWell; zone: string; takenAt: string }

function formOf(mend: QueuedVisit, here: Here, stop: StopToClose | null): ReactNode | Promise<ReactNode> {
  if (mend.kind === 'sheet') return sheetForm({ ...here, mend })
  if (mend.kind === 'test' && mend.test) return testForm({ ...here, mend, kind: mend.test })
  return <OfflineVisit {...here} mend={mend} stop={stop} />
}

type Found = { data: TakenWell; takenAt: string; pictures: readonly Picture[] }

/** A well that was taken along by itself, or with a round; the newer of the two. */
async function wellOf(user: string, id: string): Promise<Found | null> {
  const own = await takenData(wellKey(id), user, takenWellSchema, Date.now())
  const founds: Found[] = own ? [own] : []
  for (const { data, takenAt, pictures } of await roundsOf(user)) {
    const well = data.round.wells.find((one) => one.id === id)
    if (well) founds.push({ data: { version: 1, zone: data.zone, well }, takenAt, pictures })
  }
  return founds.sort((a, b) => (a.takenAt < b.takenAt ? 1 : -1))[0] ?? null
}

async function roundsOf(
  user: string,
): Promise<{ data: TakenRound; takenAt: string; pictures: readonly Picture[] }[]> {
  const rounds = (await takenList(user, Date.now())).filter(({ key }) => key.startsWith(roundKey('')))
  const founds = await Promise.all(
    rounds.map(({ key }) => takenData(key, user, takenRoundSchema, Date.now())),
  )
  return founds.filter((found) => found !== null)
}

/** The stop that a visit closes, from the round that was taken along; null for a visit of its own. */
async function stopOf(user: string, stopId: string | null): Promise<StopToClose | null> {
  if (stopId === null) return null
  for (const { data } of await roundsOf(user)) {
    const stop = data.round.stops.find(({ id }) => id === stopId)
    if (!stop) continue
    const duties = wellDuties(stop.duties)
    return {
      id: stop.id,
      roundId: data.round.id,
      words: `Stop ${stop.position} of ${data.round.name}`,
      ticked: duties.map(({ key }) => key),
      left: duties.map(({ name }) => name),
      others: stop.duties.filter(({ ticked }) => !ticked).map(({ name }) => name),
      note: stop.note,
    }
  }
  return null
}

/** From the server, where there is signal: a visit can be written online and kept when the signal fails. */
async function asked(wellId: string): Promise<Found | null> {
  try {
    const answer = await fetch(paths.phoneWell(wellId), { cache: 'no-store' })
    const parsed = takenWellSchema.safeParse(answer.ok ? await answer.json() : null)
    return parsed.success ? { data: parsed.data, takenAt: new Date().toISOString(), pictures: [] } : null
  } catch {
    // No signal: the page says that the form is not on this phone.
    return null
  }
}
