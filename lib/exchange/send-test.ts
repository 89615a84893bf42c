import type { Viewer } from '@/lib/access/viewer'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import type { TestKind } from '@/lib/forms/test/draft'
import { readTest } from '@/lib/forms/test-form'
import type { Db } from '@/lib/records/db'
import { firstLineOfVisit } from '@/lib/records/entries'
import { testSetting } from '@/lib/records/well-tests'
import { storeDrafts } from './store-drafts'
import type { VisitSent } from './visit-sent'

/**
 * Takes in the form of a well test as typed: the test with its readings, what was pumped before it, a note. The one way
 * for the form and for what a phone sends later; sent twice it is stored once.
 *
 * Shape   `typed` every field as typed, `visitId` among them; `clock` the instant and the day at the outfit.
 * Units   `system` is that in which a number alone was meant.
 */
export async function sendTest(
  db: Db,
  viewer: Viewer,
  wellId: string,
  kind: TestKind,
  typed: Readonly<Record<string, string>>,
  clock: { at: string; today: Day },
  system: UnitSystem = viewer.units,
): Promise<VisitSent> {
  const setting = testSetting(db, viewer, wellId)
  if (!setting) return { kind: 'no-such-well' }
  const context = { wellId, today: clock.today, system, well: setting.well }
  let reading = readTest(kind, typed, context)
  // Stored already, it was asked or had no need to be: a well measured anew since raises no question about it.
  if (!reading.ok && firstLineOfVisit(db.sqlite, typed.visitId ?? '') !== null)
    reading = readTest(kind, { ...typed, ...stoodBy(reading.questions) }, context)
  if (!reading.ok) return { kind: 'asked', errors: reading.errors, questions: reading.questions }
  return storeDrafts(db, viewer, wellId, reading.drafts, clock, SAVED_OTHERWISE)
}

/** The one answer that each question of a test has: it is as written. */
const stoodBy = (questions: Extract<ReturnType<typeof readTest>, { ok: false }>['questions']) =>
  Object.fromEntries(
    Object.entries(questions).map(([field, { choices }]) => [`answer:${field}`, choices[0]?.value ?? '']),
  )

const SAVED_OTHERWISE =
  'This test reached the server before, with other words or readings. Open it among the tests of the well and correct it there. What stands here stays on this device until you throw it away.'
