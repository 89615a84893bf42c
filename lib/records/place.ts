import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { currentFacts } from '@/lib/domain/logbook/entries'
import type { LogLine } from '@/lib/domain/logbook/history'
import {
  type MeasuredPlace,
  measuredPlaces,
  type PlaceSheet,
  placeSheet,
} from '@/lib/domain/logbook/place-record'
import type { Fix, LatLon } from '@/lib/domain/place'
import type { Day } from '@/lib/domain/quantity/day'
import { type AttachmentRow, attachmentsOf } from './attachments'
import { writeChange } from './changes'
import type { Db } from './db'
import { entryRowsOfWell } from './entries'
import { logbookOf } from './logbook-of-well'
import { entryOf, type WellRow } from './rows'
import { refreshWell } from './standings'
import { prepared } from './statements'
import { transaction } from './transaction'
import { type OwnerContact, visibleWell, wellWithOwner } from './wells'

/** Somebody looked for the head. */
export type Search = { entryId: string; on: Day; by: string | null; found: boolean }

/** Everything known of where one well's head lies. */
export type WellPlace = PlaceSheet & {
  well: WellRow
  owner: OwnerContact | null
  /** The measurement that counts, reckoned; null where none stands. */
  measured: MeasuredPlace | null
  photos: AttachmentRow[]
  /** Every line that measured a place, the latest first, those taken back among them. */
  history: LogLine[]
  /** Whether it was measured before the measurement that counts, too. */
  earlier: boolean
  /** The latest first. */
  searches: Search[]
}

/** The place of the well of that id; null when there is none for this viewer, whether it exists or not. */
export function wellPlace(db: Db, viewer: Viewer, wellId: string): WellPlace | null {
  const page = wellWithOwner(db, viewer, wellId)
  if (!page) return null
  const rows = entryRowsOfWell(db.sqlite, wellId)
  const facts = currentFacts(rows.map(entryOf))
  const measured = measuredPlaces(facts)[0] ?? null
  const register = registerPosition(page.well)
  const photos = measured
    ? attachmentsOf(db, viewer, measured.id).filter((row) => row.type === 'image/jpeg')
    : []
  const lines = logbookOf(rows).visits.flatMap((visit) => visit.lines)
  const history = lines
    .filter((line) => line.fact.kind === 'place-measured')
    .sort((a, b) => (a.on < b.on ? 1 : -1))
  return {
    ...page,
    measured,
    ...placeSheet(measured?.fact ?? null, register, photos, viewer.units),
    photos,
    history,
    earlier: history.some((line) => line.id !== measured?.id),
    searches: facts
      .flatMap(({ id, on, byName, fact }): Search[] =>
        fact.kind === 'event' && (fact.event === 'found' || fact.event === 'not-found')
          ? [{ entryId: id, on, by: byName, found: fact.event === 'found' }]
          : [],
      )
      .reverse(),
  }
}

const registerPosition = ({ latitude, longitude }: WellRow): LatLon | null =>
  latitude === null || longitude === null ? null : { latitude, longitude }

/** What the register could take over: the position taken at the head, or the one that the ties give. */
export type PlaceSource = 'fix' | 'ties'

/** A coordinate that differs from the register's in its fifth decimal, about a metre, is worth offering. */
export function offeredPosition(place: WellPlace, source: PlaceSource): Fix | null {
  const { measured, found, well } = place
  const fix = measured?.fact.fix
  const offered =
    source === 'ties'
      ? (found?.fromTies ?? null)
      : fix
        ? { latitude: fix.latitude, longitude: fix.longitude, accuracyM: fix.accuracy?.si ?? null }
        : null
  const register = registerPosition(well)
  return offered && register && same(offered, register) ? null : offered
}

const same = (a: LatLon, b: LatLon) =>
  a.latitude.toFixed(5) === b.latitude.toFixed(5) && a.longitude.toFixed(5) === b.longitude.toFixed(5)

export type Adopted =
  | { kind: 'stored' }
  /** Nothing to take over any more: measured anew, withdrawn, or taken over already. */
  | { kind: 'nothing-new' }
  | { kind: 'changed-since' }
  | { kind: 'no-such-well' }

/**
 * Puts the measured coordinate into the register, reckoned anew here and never taken from a form, if nobody else has
 * changed the well since `version`. Throws NotAllowed unless the viewer may edit wells.
 */
export async function adoptPosition(
  db: Db,
  viewer: Viewer,
  wellId: string,
  version: number,
  source: PlaceSource,
  at: string,
): Promise<Adopted> {
  demandFleet(viewer, 'well.edit')
  return transaction(db, () => {
    const place = wellPlace(db, viewer, wellId)
    if (!place) return { kind: 'no-such-well' } as const
    if (place.well.version !== version) return { kind: 'changed-since' } as const
    const position = offeredPosition(place, source)
    if (!position) return { kind: 'nothing-new' } as const
    const latitude = Number(position.latitude.toFixed(7))
    const longitude = Number(position.longitude.toFixed(7))
    const typed: Record<string, string> = JSON.parse(place.well.typed)
    delete typed.latitude
    delete typed.longitude
    prepared(
      db.sqlite,
      'UPDATE "Well" SET "latitude" = ?, "longitude" = ?, "typed" = ?, "version" = "version" + 1 WHERE "id" = ? AND "version" = ?',
    ).run(latitude, longitude, JSON.stringify(typed), wellId, version)
    writeChange(db.sqlite, viewer, at, {
      action: 'well changed',
      targetKind: 'well',
      targetId: wellId,
      wellId,
      before: { latitude: place.well.latitude, longitude: place.well.longitude },
      after: { latitude, longitude },
    })
    refreshWell(db.sqlite, wellId)
    return { kind: 'stored' } as const
  })
}

/** The measurement of that line for its correction; null where it is none, or not for this viewer. */
export function measuredPlace(db: Db, viewer: Viewer, wellId: string, entryId: string): MeasuredPlace | null {
  if (!visibleWell(db, viewer, wellId)) return null
  const facts = currentFacts(entryRowsOfWell(db.sqlite, wellId).map(entryOf))
  return (
    measuredPlaces(facts).find((measured) => measured.id === entryId || measured.spokenBy === entryId) ?? null
  )
}
