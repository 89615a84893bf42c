import type { PlaceFact } from '@/lib/domain/logbook/place-kinds'
import type { UnitSystem } from '@/lib/domain/quantity'
import { typedFor } from '../correction-field'
import { markField } from './rows'

type Texts = Record<string, string>
type Quantity = { si: number; typed: string } | undefined

/** A measured place as the fields of its form, each with what was typed, for its correction. */
export function placeTexts(fact: PlaceFact, system: UnitSystem): Texts {
  const length = (quantity: Quantity) => (quantity ? typedFor(quantity, 'distance', system) : '')
  const { fix, paced, cover, side, declinationDeg, note } = fact
  return {
    ...(fix ? positionTexts(fix.typed, 'fixLat', 'fixLon') : {}),
    fixAccuracy: length(fix?.accuracy),
    fixHow: fix?.how ?? 'phone',
    ...markTexts(fact, length),
    side: side ?? '',
    cover: cover ? typedFor(cover, 'depth', system) : '',
    pacedMark: paced?.mark ?? '',
    paces: paced?.paces === undefined ? '' : String(paced.paces),
    pace: length(paced?.pace),
    ...bearingTexts('pacedBearing', paced?.bearing),
    declination: declinationDeg === undefined ? '' : String(declinationDeg),
    note: note ?? '',
  }
}

function markTexts({ marks, ties }: PlaceFact, length: (quantity: Quantity) => string): Texts {
  const texts: Texts = {}
  const names = marks.list.map(({ name }) => name)
  marks.list.forEach(({ name, about }, i) => {
    const tie = ties.find((one) => one.mark === name)
    texts[markField(i + 1, 'Name')] = name
    texts[markField(i + 1, 'About')] = about ?? ''
    texts[markField(i + 1, 'Tape')] = length(tie?.tape)
    texts[markField(i + 1, 'Slope')] = slopeText(tie?.slope, length)
  })
  return { ...texts, ...placeOfMarks(marks, names, length) }
}

function slopeText(
  slope: PlaceFact['ties'][number]['slope'],
  length: (quantity: Quantity) => string,
): string {
  if (!slope) return ''
  return 'rise' in slope ? length(slope.rise) : slope.typed
}

function placeOfMarks(
  marks: PlaceFact['marks'],
  names: readonly string[],
  length: (quantity: Quantity) => string,
): Texts {
  const texts: Texts = {}
  switch (marks.given) {
    case 'names':
      return {}
    case 'local':
      marks.list.forEach(({ east, north }, i) => {
        texts[markField(i + 1, 'East')] = length(east)
        texts[markField(i + 1, 'North')] = length(north)
      })
      return {
        ...texts,
        ...(marks.origin ? positionTexts(marks.origin.typed, 'originLat', 'originLon') : {}),
      }
    case 'geographic':
      marks.list.forEach(({ typed, accuracy }, i) => {
        Object.assign(texts, positionTexts(typed, markField(i + 1, 'Lat'), markField(i + 1, 'Lon')))
        texts[markField(i + 1, 'Accuracy')] = length(accuracy)
      })
      return texts
    case 'spans':
      marks.list.forEach(({ side }, i) => {
        texts[markField(i + 1, 'Side')] = side ?? ''
      })
      for (const { from, to, tape } of marks.spans)
        texts[markField(names.indexOf(to) + 1, from === names[0] ? 'ToFirst' : 'ToSecond')] = length(tape)
      return { ...texts, ...bearingTexts('firstToSecond', marks.firstToSecond) }
  }
}

function positionTexts(typed: string, latField: string, lonField: string): Texts {
  const [lat = '', lon = ''] = typed.split(',').map((text) => text.trim())
  return { [latField]: lat, [lonField]: lon }
}

function bearingTexts(field: string, bearing: { degrees: number; north: string } | undefined): Texts {
  return bearing ? { [field]: String(bearing.degrees), [`${field}North`]: bearing.north } : {}
}
