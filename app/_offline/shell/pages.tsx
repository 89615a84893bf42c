import type { ReactNode } from 'react'
import { type TakenWell, takenWellSchema } from '@/lib/exchange/phone/shape'
import { paths } from '@/lib/paths'
import { openStore } from '../store'
import { type Person, takenData, wellKey } from '../taken'
import { NotHere } from './not-here'
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
  const [, kind, id = '', page = ''] = path.split('/').map(decodeURIComponent)
  if (kind === 'wells' && (page === '' || page === 'visit')) {
    const found = await wellOf(user, id)
    if (!found) return <NotHere user={user} />
    const { data, takenAt } = found
    const { well, zone } = data
    return page === 'visit' ? (
      <OfflineVisit {...{ who, well, zone, takenAt }} />
    ) : (
      <OfflineWell {...{ well, zone, takenAt }} />
    )
  }
  return <NotHere user={user} />
}

/** A record that waits, in the form that it was written on. */
async function mendPage(who: Person, id: string): Promise<ReactNode> {
  const user = who.id
  const mend = await (await openStore()).get('items', id)
  if (mend?.user !== user || mend.state === 'sent') return <UnsentPage user={user} />
  const found = (await wellOf(user, mend.wellId)) ?? (await asked(mend.wellId))
  if (!found) return <NotHere user={user} what={`The form of ${mend.label}`} />
  return <OfflineVisit who={who} {...found.data} takenAt={found.takenAt} mend={mend} />
}

type Found = { data: TakenWell; takenAt: string }

const wellOf = (user: string, id: string): Promise<Found | null> =>
  takenData(wellKey(id), user, takenWellSchema, Date.now())

/** From the server, where there is signal: a visit can be written online and kept when the signal fails. */
async function asked(wellId: string): Promise<Found | null> {
  try {
    const answer = await fetch(paths.phoneWell(wellId), { cache: 'no-store' })
    const parsed = takenWellSchema.safeParse(answer.ok ? await answer.json() : null)
    return parsed.success ? { data: parsed.data, takenAt: new Date().toISOString() } : null
  } catch {
    // No signal: the page says that the form is not on this phone.
    return null
  }
}
