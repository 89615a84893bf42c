import { type EntryDraft, uuidSchema } from '@/lib/domain/logbook/kinds'
import { FIX_WAYS, type PlaceFact } from '@/lib/domain/logbook/place-kinds'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { lineId } from '../visit/lines'
import { Reader } from '../visit/reader'
import { visitDay, visitTime } from '../visit-form'
import { markRows, marksOf, tiesOf } from './marks'
import { bearingAt, handAt, numberAt, positionAt, positive } from './values'

export type PlaceReading =
  | { ok: true; on: Day; time: string | null; byName: string | null; fact: PlaceFact }
  | { ok: false; errors: Record<string, string> }

/**
 * Reads the form of a measured place: when, by whom, and what was measured. Blank fields write nothing; at least one
 * thing that says where the head lies must be there.
 */
export function readPlace(
  typed: Readonly<Record<string, string>>,
  system: UnitSystem,
  today: Day,
): PlaceReading {
  const reader = new Reader(typed, system)
  const on = visitDay(reader, today)
  const time = visitTime(reader)
  const byName = reader.optional('by', 'name', 120) ?? null
  const fix = fixOf(reader)
  const rows = markRows(reader)
  const marks = marksOf(reader, rows)
  const side = handAt(reader, 'side')
  const cover = positive(reader, 'cover', 'depth')
  const paced = pacedOf(reader)
  const declinationDeg = numberAt(reader, 'declination', DECLINATION)
  const note = reader.optional('note', 'note', 2000)
  const fact: PlaceFact = {
    kind: 'place-measured',
    ...(fix ? { fix } : {}),
    marks,
    ties: tiesOf(rows),
    ...(side ? { side } : {}),
    ...(cover ? { cover } : {}),
    ...(paced ? { paced } : {}),
    ...(declinationDeg === undefined ? {} : { declinationDeg }),
    ...(note ? { note } : {}),
  }
  if (Object.keys(reader.errors).length === 0 && saysNothing(fact))
    reader.refuse(
      'fixLat',
      'Nothing says where the head lies yet: take the position, or enter tapes, paces or cover',
    )
  return Object.keys(reader.errors).length > 0
    ? { ok: false, errors: reader.errors }
    : { ok: true, on, time, byName, fact }
}

const saysNothing = ({ fix, ties, paced, cover, note, marks }: PlaceFact) =>
  !fix && ties.length === 0 && !paced && !cover && !note && marks.list.length === 0

const DECLINATION = {
  min: -180,
  max: 180,
  says: 'The declination must be in degrees, east positive, like 12.5 or -3',
}

/** The line that a sent form writes; null where the form has lost its number. */
export function placeDraft(
  visitId: string | undefined,
  wellId: string,
  { on, time, byName, fact }: Extract<PlaceReading, { ok: true }>,
): EntryDraft | null {
  const id = uuidSchema.safeParse(visitId)
  if (!id.success) return null
  return {
    id: lineId(id.data, 'place'),
    wellId,
    visitId: id.data,
    occurredOn: on,
    occurredTime: time,
    byName,
    supersedes: null,
    withdraws: null,
    payload: fact,
  }
}

function fixOf(reader: Reader): PlaceFact['fix'] {
  const position = positionAt(reader, 'fixLat', 'fixLon')
  const accuracy = positive(reader, 'fixAccuracy', 'distance')
  const how = FIX_WAYS.find((way) => way === reader.text('fixHow')) ?? 'phone'
  if (!position) {
    if (accuracy) reader.refuse('fixLat', 'Enter the position that this accuracy belongs to')
    return undefined
  }
  return { ...position, ...(accuracy ? { accuracy } : {}), how }
}

function pacedOf(reader: Reader): PlaceFact['paced'] {
  const mark = reader.optional('pacedMark', 'mark', 60)
  const paces = numberAt(reader, 'paces', { min: 1, max: 5000, says: 'The paces must be a number, like 24' })
  const pace = positive(reader, 'pace', 'distance')
  const bearing = bearingAt(reader, 'pacedBearing')
  const said = paces !== undefined || bearing !== undefined
  if (said && !mark) reader.refuse('pacedMark', 'Name the mark from which you paced')
  if (!said && mark) reader.refuse('paces', 'Enter the paces from the mark, the bearing, or both')
  if (!said || !mark) return undefined
  return {
    mark,
    ...(paces === undefined ? {} : { paces }),
    ...(pace ? { pace } : {}),
    ...(bearing ? { bearing } : {}),
  }
}
