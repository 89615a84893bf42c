import type { Viewer } from '@/lib/access/viewer'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { closingFields } from '@/lib/forms/round-closing'
import { readVisit } from '@/lib/forms/visit-form'
import type { Db } from '@/lib/records/db'
import { visitSetting } from '@/lib/records/visit-context'
import { sendNotReached, sendWithVisit } from './send-closing'
import { storeDrafts } from './store-drafts'
import { SAVED_OTHERWISE, type VisitSent } from './visit-sent'

/**
 * Takes in a visit form as typed: reads it, stores all of its lines or none. The one way for the form and for what a
 * phone sends later. Sent again, it is held against what was known when it first arrived, so that its own readings, or
 * those of others since, raise no question about it.
 *
 * A form that names a stop of a round (`stopId`) closes it too, with its visit or as not found or no access.
 *
 * Shape   `typed` every field as typed, `visitId` among them; `clock` the instant and the day at the outfit.
 * Units   `system` is that in which a number alone was meant.
 */
export async function sendVisit(
  db: Db,
  viewer: Viewer,
  wellId: string,
  typed: Readonly<Record<string, string>>,
  clock: { at: string; today: Day },
  system: UnitSystem = viewer.units,
): Promise<VisitSent> {
  const setting = visitSetting(db, viewer, wellId, typed.visitId)
  if (!setting) return { kind: 'no-such-well' }
  const closing = closingFields(typed, clock.at)
  if (closing?.outcome === 'not-found' || closing?.outcome === 'no-access') {
    return sendNotReached(db, viewer, wellId, typed, clock)
  }
  const reading = readVisit(typed, { ...setting, today: clock.today, system })
  if (!reading.ok) {
    // The register may have changed since: it cannot be told any more whether this says the same.
    if (setting.stored) return { kind: 'refused', message: SAVED_OTHERWISE }
    return { kind: 'asked', errors: reading.errors, questions: reading.questions }
  }
  if (closing) return sendWithVisit(db, viewer, closing, reading.drafts, clock)
  return storeDrafts(db, viewer, wellId, reading.drafts, clock, SAVED_OTHERWISE)
}
