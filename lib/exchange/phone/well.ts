import type { Viewer } from '@/lib/access/viewer'
import { describeFact } from '@/lib/domain/logbook/describe'
import { daysShown } from '@/lib/domain/quantity'
import type { MeterSoFar } from '@/lib/forms/visit/context'
import type { Db } from '@/lib/records/db'
import { logbookOf } from '@/lib/records/logbook-of-well'
import { wellPlace } from '@/lib/records/place'
import { visitSetting } from '@/lib/records/visit-context'
import { testSetting } from '@/lib/records/well-tests'
import { wellPage } from '@/lib/records/wells'
import { type PhoneWell, phoneWellSchema } from './shape'

/** Readings that a new one is held against on the phone; an older one is asked about by the server. */
const POINTS_MAX = 40
const VISITS_MAX = 5

/** What a phone may carry of a well; null when there is none for this viewer. */
export function phoneWell(db: Db, viewer: Viewer, wellId: string): PhoneWell | null {
  const page = wellPage(db, viewer, wellId)
  const setting = visitSetting(db, viewer, wellId)
  const place = wellPlace(db, viewer, wellId)
  const test = testSetting(db, viewer, wellId)
  if (!page || !setting || !place || !test) return null
  const { well, owner, standing } = page
  const { units } = viewer
  const reasons = new Map(standing?.duties.map(({ key, reason }) => [key, reason]))
  return phoneWellSchema.parse({
    ...well,
    owner,
    chains: (standing?.water.chains ?? []).map((chain) => ({ ...chain, next: daysShown(chain.next, units) })),
    duties: setting.duties.map((duty) => ({ ...duty, why: daysShown(reasons.get(duty.key) ?? '', units) })),
    visits: logbookOf(page.entries)
      .visits.slice(0, VISITS_MAX)
      .map(({ on, by, lines }) => ({
        on,
        by: by.join(', '),
        lines: lines.filter(({ stands }) => stands).map(({ fact }) => describeFact(fact, units)),
      })),
    hours: newest(setting.hours),
    volume: newest(setting.volume),
    last: Object.fromEntries(
      Object.entries(setting.last).map(([field, { on, reading }]) => [field, { on, typed: reading.typed }]),
    ),
    place: { ...place, lastSearch: place.searches[0] ?? null },
    tested: { well: test.well, lastRecovery: test.lastRecovery },
    units,
  })
}

const newest = ({ points, perDayMax }: MeterSoFar): MeterSoFar => ({
  points: points.slice(-POINTS_MAX),
  perDayMax,
})
