/** What a column of a plain file is, and those that several files share. */
import { type Dimension, dimensionOf, type UnitId } from '@/lib/domain/quantity'

/** The five plain files, and `entries`: logbook entries that the five have no columns for, one JSON text each. */
export const TABLE_KINDS = ['wells', 'duties', 'visits', 'recovery', 'samples', 'entries'] as const
export type TableKind = (typeof TABLE_KINDS)[number]

export type Column = {
  /** The heading without its unit; also the name of the field in a mapping. */
  name: string
  /** What a person calls it. */
  title: string
  reads: 'text' | 'day' | 'day-time' | 'time' | 'month-day' | 'number' | 'months' | 'quantity' | 'limit'
  /** The row is a problem without it. */
  needed?: true
  /** Most characters of a text. */
  max?: number
  dimension?: Dimension
  /** The unit of a heading that has no suffix: amperes, hours. */
  plainUnit?: UnitId
  /** SI bounds, both allowed; `min` is 0 where it is not given. */
  min?: number
  most?: number
  /** The suffixes that the plain files name first, US and metric, for the export. */
  units?: { us: UnitId; metric: UnitId }
  /** Headings of other people's sheets that suggest this column, on lower-case words. */
  words?: RegExp
}

/** A column of text, of at most `max` characters. */
export const text = (name: string, title: string, max: number, words?: RegExp): Column => ({
  name,
  title,
  reads: 'text',
  max,
  words,
})
/** A column of days. */
export const day = (name: string, title: string, words?: RegExp): Column => ({
  name,
  title,
  reads: 'day',
  words,
})

/** A column of a quantity, with its units and its SI bounds. */
export function measured(
  name: string,
  title: string,
  units: { us: UnitId; metric: UnitId },
  words?: RegExp,
  bounds: { min?: number; most?: number } = {},
): Column {
  return { name, title, reads: 'quantity', dimension: dimensionOf(units.us), units, words, ...bounds }
}

/** Units of heights and depths, of bores, of pressures. */
export const LENGTH = { us: 'ft', metric: 'm' } as const
export const BORE = { us: 'in', metric: 'mm' } as const
export const PRESSURE = { us: 'psi', metric: 'kPa' } as const
/** Deeper than any dug or shallow drilled well; a greater number is in another unit. */
export const DEPTH_M_MAX = 1000

/** The columns that every file of readings begins with. */
export const WELL: Column = {
  name: 'well',
  title: 'Well (its label)',
  reads: 'text',
  needed: true,
  max: 80,
  words:
    /^(?:well|site|bore|borehole|hole|location|point|monitoring ?location ?identifier)(?: (?:id|no|number|nr|label|name|code|tag|ref(?:erence)?))?$|^(?:label|tag|id)$/,
}
export const BY = text(
  'by',
  'Who was there',
  120,
  /^(?:by|who|tech(?:nician)?|crew|visited by|done by|initials|recorder)$/,
)
export const DATE: Column = {
  ...day(
    'date',
    'Date',
    /^(?:date|day|when|(?:visit|service|test|measure(?:d|ment)?|sample|reading)(?: date| day)?|date (?:of )?\w+)$/,
  ),
  needed: true,
}
export const TIME: Column = { name: 'time', title: 'Time of day', reads: 'time', words: /^(?:time|hour|at)$/ }
