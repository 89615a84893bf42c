import type { Viewer } from '@/lib/access/viewer'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { readSheet } from '@/lib/forms/sheet/read-sheet'
import type { Db } from '@/lib/records/db'
import { visibleWell } from '@/lib/records/wells'
import { storeDrafts } from './store-drafts'
import type { VisitSent } from './visit-sent'

/**
 * Takes in the form of a lab sheet as typed, to be stored: the sample with its results, and a note. The one way for the
 * form and for what a phone sends later; sent twice it is stored once.
 *
 * Shape   `typed` every field as typed, `visitId` among them; `clock` the instant and the day at the outfit.
 * Units   `system` is that in which the temperature on arrival was meant.
 */
export async function sendSheet(
  db: Db,
  viewer: Viewer,
  wellId: string,
  typed: Readonly<Record<string, string>>,
  clock: { at: string; today: Day },
  system: UnitSystem = viewer.units,
): Promise<VisitSent> {
  if (!visibleWell(db, viewer, wellId)) return { kind: 'no-such-well' }
  const reading = readSheet(typed, 'save', { wellId, today: clock.today, system })
  if (!reading.ok) return { kind: 'asked', errors: reading.errors, questions: reading.questions }
  return storeDrafts(db, viewer, wellId, reading.drafts, clock, SHEET_STORED_OTHERWISE)
}

export const SHEET_STORED_OTHERWISE =
  'This sheet was stored already, with other words. Open it from the logbook to correct it, or open a new form.'
