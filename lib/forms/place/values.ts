import type { StoredQuantity } from '@/lib/domain/logbook/kinds'
import { dimensionOf, displayUnit, parseQuantity, type Use } from '@/lib/domain/quantity'
import { readCoordinate } from '../coordinate'
import type { Reader } from '../visit/reader'

/** A length above zero; undefined where blank or refused. */
export function positive(reader: Reader, field: string, use: Use): StoredQuantity | undefined {
  const length = reader.quantity(field, use)
  if (length?.si !== 0) return length
  reader.refuse(field, 'A length of nothing cannot be right. Leave it blank where it was not measured')
  return undefined
}

/** A length that may lie either way of its beginning; undefined where blank or refused. */
export function signed(reader: Reader, field: string): StoredQuantity | undefined {
  const unit = displayUnit('distance', reader.system)
  const reading = parseQuantity(reader.text(field), {
    dimension: dimensionOf(unit),
    unit,
    locale: 'en',
    min: Number.NEGATIVE_INFINITY,
  })
  if (reading.kind === 'problem') reader.refuse(field, reading.message)
  return reading.kind === 'value' ? { si: reading.quantity.si, typed: reading.quantity.typed } : undefined
}

/** A plain number, where `says` is what to tell about any other text. */
export function numberAt(
  reader: Reader,
  field: string,
  { min, max, says }: { min: number; max: number; says: string },
): number | undefined {
  const text = reader.text(field).replace(/^[−–]/, '-').replace(/ ?°$/, '')
  if (text === '') return undefined
  const value = /^-?\d{1,6}(\.\d+)?$/.test(text) ? Number(text) : Number.NaN
  if (value >= min && value <= max) return value
  reader.refuse(field, says)
  return undefined
}

type Bearing = { degrees: number; north: 'true' | 'magnetic' }

/** A bearing, from true north unless `<field>North` says that a compass showed it. */
export function bearingAt(reader: Reader, field: string): Bearing | undefined {
  const says = 'The bearing must be in degrees from north, 0 to 360, like 135'
  const degrees = numberAt(reader, field, { min: 0, max: 360, says })
  if (degrees === undefined) return undefined
  return { degrees, north: reader.text(`${field}North`) === 'true' ? 'true' : 'magnetic' }
}

type Position = { latitude: number; longitude: number; typed: string }

/** A position from two fields; "44.26012, -72.57543" in the first alone is one too. Both or neither. */
export function positionAt(reader: Reader, latField: string, lonField: string): Position | undefined {
  const [lat = '', lon = ''] = textsAt(reader, latField, lonField)
  if (lat === '' && lon === '') return undefined
  const latitude = readCoordinate(lat, 'latitude')
  const longitude = readCoordinate(lon, 'longitude')
  if (latitude === null)
    reader.refuse(latField, 'The latitude must be in degrees, like 44.26012 or 44° 15′ 36″ N')
  if (longitude === null)
    reader.refuse(lonField, 'The longitude must be in degrees, like -72.57543 or 72° 34′ 32″ W')
  return latitude === null || longitude === null
    ? undefined
    : { latitude, longitude, typed: `${lat}, ${lon}` }
}

function textsAt(reader: Reader, latField: string, lonField: string): string[] {
  const lat = reader.text(latField)
  const lon = reader.text(lonField)
  const pair = lat.split(/[,;]/)
  return lon === '' && pair.length === 2 ? pair.map((text) => text.trim()) : [lat, lon]
}

export function handAt(reader: Reader, field: string): 'left' | 'right' | undefined {
  const text = reader.text(field)
  return text === 'left' || text === 'right' ? text : undefined
}
