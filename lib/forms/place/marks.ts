import type { StoredQuantity } from '@/lib/domain/logbook/kinds'
import type { PlaceFact } from '@/lib/domain/logbook/place-kinds'
import type { Reader } from '../visit/reader'
import { MARK_ROWS, type MarkField, markField } from './rows'
import { bearingAt, handAt, positionAt, positive, signed } from './values'

type Tie = PlaceFact['ties'][number]
type Row = { row: number; name: string; about: string | undefined; tie: Tie | null }

/** The rows of the form that name a mark, in order. A row with anything but a name is refused. */
export function markRows(reader: Reader): Row[] {
  const rows: Row[] = []
  for (let row = 1; row <= MARK_ROWS; row += 1) {
    const field = (name: MarkField) => markField(row, name)
    const name = reader.optional(field('Name'), 'name of the mark', 60)
    const about = reader.optional(field('About'), 'words about the mark', 300)
    const tape = positive(reader, field('Tape'), 'distance')
    const slope = slopeAt(reader, field('Slope'))
    if (!name) {
      if (OTHERS.some((other) => reader.text(field(other)) !== ''))
        reader.refuse(
          field('Name'),
          `Name mark ${row}, as somebody will look for it: "barn corner, north-east"`,
        )
      continue
    }
    if (rows.some((other) => other.name === name))
      reader.refuse(field('Name'), `Two marks are called "${name}". Give each a name of its own`)
    if (slope && !tape) reader.refuse(field('Tape'), 'Enter the tape length that this slope belongs to')
    rows.push({ row, name, about, tie: tape ? { mark: name, tape, ...(slope ? { slope } : {}) } : null })
  }
  return rows
}

const OTHERS: readonly MarkField[] = [
  'Tape',
  'About',
  'Slope',
  'ToFirst',
  'ToSecond',
  'East',
  'North',
  'Lat',
  'Lon',
]

export const tiesOf = (rows: readonly Row[]): Tie[] => rows.flatMap(({ tie }) => (tie ? [tie] : []))

/** "10°" is an angle, "2 ft" the rise between the ends of the tape. */
function slopeAt(reader: Reader, field: string): Tie['slope'] {
  const text = reader.text(field)
  if (!/(°|deg|degrees)$/i.test(text)) {
    const rise = signed(reader, field)
    return rise && { rise }
  }
  const degrees = Number(text.replace(/ ?(°|deg|degrees)$/i, '').replace(/^[−–]/, '-'))
  if (Number.isFinite(degrees) && Math.abs(degrees) < 90) return { degrees, typed: text }
  reader.refuse(field, 'The slope must be a rise, like 2 ft, or an angle under 90°, like 8°')
  return undefined
}

/** Where the marks stand, in the one way that was filled in. */
export function marksOf(reader: Reader, rows: readonly Row[]): PlaceFact['marks'] {
  const filled = (names: readonly MarkField[]) =>
    rows
      .flatMap(({ row }) => names.map((name) => markField(row, name)))
      .filter((field) => reader.text(field) !== '')
  const ways = [
    { way: 'spans', fields: filled(['ToFirst', 'ToSecond']) },
    { way: 'local', fields: filled(['East', 'North']) },
    { way: 'geographic', fields: filled(['Lat', 'Lon', 'Accuracy']) },
  ] as const
  const used = ways.filter(({ fields }) => fields.length > 0)
  const [first, second] = used
  if (first && second?.fields[0]) {
    reader.refuse(
      second.fields[0],
      'The marks are placed in two ways. Keep one (distances between them, metres east and north, or a position of each) and clear the other',
    )
  }
  asideOf(reader, first?.way)
  switch (first?.way) {
    case 'spans':
      return spans(reader, rows)
    case 'local':
      return local(reader, rows)
    case 'geographic':
      return geographic(reader, rows)
    default:
      return { given: 'names', list: rows.map(plain) }
  }
}

/** What belongs to one way of placing the marks and was filled in without it must not be lost in silence. */
function asideOf(reader: Reader, way: 'spans' | 'local' | 'geographic' | undefined): void {
  if (way !== 'spans' && reader.text('firstToSecond') !== '')
    reader.refuse('firstToSecond', 'Enter the distance from mark 1 to mark 2 too, or clear this bearing')
  if (way !== 'local' && (reader.text('originLat') !== '' || reader.text('originLon') !== ''))
    reader.refuse(
      'originLat',
      'Enter how far east and north of the zero point each mark stands, or clear its position',
    )
}

const plain = ({ name, about }: Row) => ({ name, ...(about ? { about } : {}) })

function spans(reader: Reader, rows: readonly Row[]): PlaceFact['marks'] {
  const [first, second] = rows
  const measured = rows.flatMap(({ row, name }, i) =>
    (
      [
        [first, 'ToFirst', i > 0],
        [second, 'ToSecond', i > 1],
      ] as const
    ).flatMap(([to, field, sensible]) => {
      const at = markField(row, field)
      const tape = positive(reader, at, 'distance')
      if (tape && (!to || !sensible))
        reader.refuse(at, 'This is the distance of the mark to itself. Leave it blank')
      return to && tape && sensible ? [{ from: to.name, to: name, tape }] : []
    }),
  )
  const firstToSecond = bearingAt(reader, 'firstToSecond')
  const list = rows.map((one) => {
    const side = handAt(reader, markField(one.row, 'Side'))
    return { ...plain(one), ...(side ? { side } : {}) }
  })
  return { given: 'spans', list, spans: measured, ...(firstToSecond ? { firstToSecond } : {}) }
}

/** Each mark needs both numbers: a place by half is none. */
function local(reader: Reader, rows: readonly Row[]): PlaceFact['marks'] {
  const origin = positionAt(reader, 'originLat', 'originLon')
  const list = rows.flatMap((one) => {
    const east = whole(
      reader,
      one,
      'East',
      'How far east of the zero point does it stand? 0 where it is the zero point',
    )
    const north = whole(
      reader,
      one,
      'North',
      'How far north of the zero point does it stand? 0 where it is the zero point',
    )
    return east && north ? [{ ...plain(one), east, north }] : []
  })
  return { given: 'local', ...(origin ? { origin } : {}), list }
}

function whole(reader: Reader, { row }: Row, name: MarkField, says: string): StoredQuantity | undefined {
  const field = markField(row, name)
  if (reader.text(field) === '') reader.refuse(field, says)
  return signed(reader, field)
}

function geographic(reader: Reader, rows: readonly Row[]): PlaceFact['marks'] {
  const list = rows.flatMap((one) => {
    const field = (name: MarkField) => markField(one.row, name)
    const position = positionAt(reader, field('Lat'), field('Lon'))
    const accuracy = positive(reader, field('Accuracy'), 'distance')
    if (!position) {
      reader.refuse(field('Lat'), `Enter the position of "${one.name}" too, or clear those of the others`)
      return []
    }
    return [{ ...plain(one), ...position, ...(accuracy ? { accuracy } : {}) }]
  })
  return { given: 'geographic', list }
}
