/**
 * The columns of the plain files, one table a file. The importer, the export and the command line read and write
 * by it. A heading is the name alone or, where a unit belongs to it, the name with the unit's suffix.
 */
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

const text = (name: string, title: string, max: number, words?: RegExp): Column => ({
  name,
  title,
  reads: 'text',
  max,
  words,
})
const day = (name: string, title: string, words?: RegExp): Column => ({ name, title, reads: 'day', words })

function measured(
  name: string,
  title: string,
  units: { us: UnitId; metric: UnitId },
  words?: RegExp,
  bounds: { min?: number; most?: number } = {},
): Column {
  return { name, title, reads: 'quantity', dimension: dimensionOf(units.us), units, words, ...bounds }
}

const LENGTH = { us: 'ft', metric: 'm' } as const
const BORE = { us: 'in', metric: 'mm' } as const
const PRESSURE = { us: 'psi', metric: 'kPa' } as const
/** Deeper than any dug or shallow drilled well; a greater number is in another unit. */
const DEPTH_M_MAX = 1000

const WELL: Column = {
  name: 'well',
  title: 'Well (its label)',
  reads: 'text',
  needed: true,
  max: 80,
  words:
    /^(?:well|site|bore|borehole|hole|location|point|monitoring ?location ?identifier)(?: (?:id|no|number|nr|label|name|code|tag|ref(?:erence)?))?$|^(?:label|tag|id)$/,
}
const BY = text(
  'by',
  'Who was there',
  120,
  /^(?:by|who|tech(?:nician)?|crew|visited by|done by|initials|recorder)$/,
)
const DATE: Column = {
  ...day(
    'date',
    'Date',
    /^(?:date|day|when|(?:visit|service|test|measure(?:d|ment)?|sample|reading)(?: date| day)?|date (?:of )?\w+)$/,
  ),
  needed: true,
}
const TIME: Column = { name: 'time', title: 'Time of day', reads: 'time', words: /^(?:time|hour|at)$/ }

const WELLS: Column[] = [
  { ...WELL },
  text(
    'name',
    'Name of the place',
    200,
    /^(?:(?:place|property|farm|site) ?name|name|place|property|address)$/,
  ),
  text('owner', 'Owner', 200, /^(?:owner|customer|client|household|landowner)(?: name)?$/),
  text('phone', 'Phone', 60, /^(?:owner )?(?:phone|telephone|tel|mobile|cell)(?: (?:no|number))?$/),
  text('email', 'Email', 200, /^(?:owner )?e ?mail(?: address)?$/),
  text('area', 'Area', 120, /^(?:area|region|district|zone|valley|route)$/),
  {
    name: 'latitude',
    title: 'Latitude',
    reads: 'number',
    min: -90,
    most: 90,
    words: /^lat(?:itude)?(?: deg(?:rees)?)?$/,
  },
  {
    name: 'longitude',
    title: 'Longitude',
    reads: 'number',
    min: -180,
    most: 180,
    words: /^(?:lon|long|lng|longitude)(?: deg(?:rees)?)?$/,
  },
  day(
    'installed',
    'Installed on',
    /^(?:installed|built|completed|constructed|dug|drilled)(?: on| date)?$|^(?:install(?:ation)?|completion|construction) date$/,
  ),
  measured(
    'well_depth',
    'Depth of the well',
    LENGTH,
    /^(?:(?:total |well )?depth|depth of well|well depth measure.*value)$/,
    { most: DEPTH_M_MAX },
  ),
  measured('casing_bore', 'Casing, inside', BORE, /^casing (?:bore|inside|id|inner)(?: diameter)?$/, {
    most: 10,
  }),
  measured('casing_outside', 'Casing, outside', BORE, /^casing (?:outside|od|outer)(?: diameter)?$/, {
    most: 10,
  }),
  measured('pit_diameter', 'Pit, diameter', LENGTH, /^(?:pit|hole|gravel) (?:diameter|dia)$/, { most: 100 }),
  measured('pit_length', 'Pit, length', LENGTH, /^pit length$/, { most: 100 }),
  measured('pit_width', 'Pit, width', LENGTH, /^pit width$/, { most: 100 }),
  {
    name: 'gravel_porosity',
    title: 'Open share of the gravel',
    reads: 'quantity',
    dimension: 'ratio',
    plainUnit: '1',
    most: 1,
    words: /^(?:gravel )?porosity$/,
  },
  measured('intake_depth', 'Depth of the intake', LENGTH, /^(?:intake|pump|suction)(?: setting)? depth$/, {
    most: DEPTH_M_MAX,
  }),
  measured('lift', 'Lift from level ground to the pump', LENGTH, /^lift$/, { min: -100, most: DEPTH_M_MAX }),
  measured('altitude', 'Altitude', LENGTH, /^(?:altitude|elevation|elev|height above sea level)$/, {
    min: -500,
    most: 9000,
  }),
  measured('demand', 'Demand', { us: 'gal/d', metric: 'L/d' }, /^(?:demand|daily (?:use|demand)|water use)$/),
  measured(
    'storage',
    'Storage',
    { us: 'gal', metric: 'L' },
    /^(?:storage|tank)(?: (?:size|volume|capacity))?$/,
  ),
  text('pump_model', 'Pump model', 120, /^pump(?: (?:model|make|type))?$/),
  text('cartridge_model', 'Cartridge model', 120, /^(?:cartridge|filter)(?: (?:model|type))?$/),
  measured('suction_bore', 'Suction pipe, inside', BORE, undefined, { most: 1 }),
  measured('suction_length', 'Suction pipe, length', LENGTH, undefined, { most: DEPTH_M_MAX }),
  text('suction_material', 'Suction pipe, made of', 20),
  text('suction_fittings', 'Suction line, fittings', 200),
  measured('outlet_depth', 'Depth of the buried outlet', LENGTH, undefined, { most: 20 }),
  measured('frost_depth', 'Depth of frost there', LENGTH, /^frost(?: depth| line)?$/, { most: 20 }),
  day('pump_ref_date', 'Pump when new: day'),
  measured('pump_ref_flow', 'Pump when new: flow', { us: 'gal/min', metric: 'L/min' }, undefined, {
    most: 10,
  }),
  measured('pump_ref_head', 'Pump when new: head', LENGTH, undefined, { most: DEPTH_M_MAX }),
  {
    name: 'pump_ref_amps',
    title: 'Pump when new: current',
    reads: 'quantity',
    dimension: 'current',
    plainUnit: 'A',
  },
  {
    name: 'pump_ref_volts',
    title: 'Pump when new: voltage',
    reads: 'quantity',
    dimension: 'voltage',
    plainUnit: 'V',
  },
  { name: 'closed_from', title: 'Closed season from', reads: 'month-day' },
  { name: 'closed_to', title: 'Closed season to', reads: 'month-day' },
  text('closed_why', 'Why it is closed then', 200),
  text(
    'access',
    'How to find and reach it',
    2000,
    /^(?:access|directions|how to find|way in|location notes?)$/,
  ),
  { name: 'visit_from', title: 'Come not before', reads: 'time' },
  { name: 'visit_until', title: 'Be done by', reads: 'time' },
  text('visit_days', 'Come only on', 120, /^(?:visit days|days of the week)$/),
  text('gate_code', 'Gate code', 60, /^gate ?code$/),
  text('hazards', 'Beware of', 500, /^(?:hazards?|dogs?)$/),
  text('notes', 'Notes', 4000, /^(?:notes?|comments?|remarks?|memo)$/),
  day('retired', 'Out of use since', /^(?:retired|abandoned|out of use)(?: on| since| date)?$/),
  text('supply_facts', 'Supply, as our own export writes it', 8000),
]

const DUTIES: Column[] = [
  { ...WELL },
  { ...text('duty', 'Duty', 120, /^(?:duty|task|job|service|work|what)$/), needed: true },
  {
    name: 'every_months',
    title: 'Every … months',
    reads: 'months',
    words: /^(?:every|interval|frequency)(?: in)?(?: \(?months?\)?)?$|^months$/,
  },
  {
    name: 'every_hours',
    title: 'Every … run hours',
    reads: 'quantity',
    dimension: 'duration',
    plainUnit: 'h',
    words: /^(?:every|interval)(?: in)? (?:run )?hours$/,
  },
  measured(
    'every',
    'Every … pumped',
    { us: 'gal', metric: 'm3' },
    /^(?:every|interval)(?: in)? (?:volume|gallons|litres)$/,
  ),
  text('condition', 'Measured condition', 40, /^condition$/),
  {
    name: 'condition_limit',
    title: 'Limit of the condition',
    reads: 'limit',
    words: /^(?:condition )?limit$/,
  },
  day('last_done', 'Last done on', /^last(?: done| date| service| time)?(?: on)?$/),
  text('consequence', 'What suffers', 40, /^(?:consequence|priority)$/),
]

const VISITS: Column[] = [
  { ...WELL },
  DATE,
  TIME,
  BY,
  text('done', 'Duties done', 4000, /^(?:done|work done|service done|tasks?|work|service performed)$/),
  measured(
    'static_level',
    'Level at rest',
    LENGTH,
    /^(?:static|rest|standing|resting)(?: water)?(?: level| depth)?$|^(?:swl|(?:static )?water level|depth to water.*)$/,
    { min: -100, most: DEPTH_M_MAX },
  ),
  measured(
    'pumping_level',
    'Level while pumping',
    LENGTH,
    /^(?:pumping|dynamic)(?: water)?(?: level| depth)?$|^pwl$/,
    { min: -100, most: DEPTH_M_MAX },
  ),
  measured(
    'flow',
    'Flow',
    { us: 'gal/min', metric: 'L/min' },
    /^(?:flow|yield|discharge|pump(?:ing)? rate)(?: rate)?$/,
    { most: 10 },
  ),
  {
    name: 'pumped',
    title: 'Pumped for',
    reads: 'quantity',
    dimension: 'duration',
    units: { us: 'min', metric: 'min' },
    words: /^(?:pumped|pumping time|run time)$/,
  },
  {
    name: 'hour_meter',
    title: 'Hour meter',
    reads: 'quantity',
    dimension: 'duration',
    units: { us: 'h', metric: 'h' },
    words: /^(?:hour ?meter|(?:run|pump|engine) hours|hours)(?: reading)?$/,
  },
  measured(
    'volume_meter',
    'Volume meter',
    { us: 'gal', metric: 'm3' },
    /^(?:volume|water|flow|totali[sz]er) ?(?:meter)?(?: reading)?$/,
  ),
  measured(
    'pressure_in',
    'Pressure before the filter',
    PRESSURE,
    /^(?:pressure (?:in|before)|(?:inlet|upstream) pressure)$/,
    { min: -101_325, most: 1e8 },
  ),
  measured(
    'pressure_out',
    'Pressure after the filter',
    PRESSURE,
    /^(?:pressure (?:out|after)|(?:outlet|downstream) pressure)$/,
    { min: -101_325, most: 1e8 },
  ),
  measured('brush_length', 'Brush length', BORE, /^brush(?:es)?(?: length)?$/, { most: 1 }),
  {
    name: 'amps',
    title: 'Current',
    reads: 'quantity',
    dimension: 'current',
    plainUnit: 'A',
    words: /^(?:amps?|current|amperes)$/,
  },
  {
    name: 'volts',
    title: 'Voltage',
    reads: 'quantity',
    dimension: 'voltage',
    plainUnit: 'V',
    words: /^(?:volts?|voltage)$/,
  },
  text('event', 'Event', 200, /^events?$/),
  text('note', 'Note', 4000, /^(?:notes?|comments?|remarks?|memo|observations?)$/),
]

const RECOVERY: Column[] = [
  { ...WELL },
  DATE,
  { ...TIME },
  BY,
  {
    ...measured(
      'elapsed',
      'Time since the pump stopped',
      { us: 'min', metric: 'min' },
      /^(?:elapsed|time)(?: time)?(?: since.*)?$/,
    ),
    needed: true,
  },
  {
    ...measured('level', 'Level', LENGTH, /^(?:water )?level$|^depth to water.*$/, {
      min: -100,
      most: DEPTH_M_MAX,
    }),
    needed: true,
  },
  measured('static_level', 'Level at rest', LENGTH, /^(?:static|rest)(?: water)?(?: level)?$|^swl$/, {
    min: -100,
    most: DEPTH_M_MAX,
  }),
]

const SAMPLES: Column[] = [
  { ...WELL },
  {
    name: 'sampled_at',
    title: 'Sampled at',
    reads: 'day-time',
    needed: true,
    words:
      /^(?:sampled?|collected|collection|activity start)(?: at| on)?(?: date| dt| time)*$|^(?:date|sample ?(?:date|dt))$/,
  },
  {
    name: 'received_at',
    title: 'Received by the laboratory',
    reads: 'day-time',
    words: /^received(?: at| on)?(?: date)?$/,
  },
  text('lab', 'Laboratory', 200, /^lab(?:oratory)?(?: name)?$/),
  text('sample_id', 'Sample number', 120, /^(?:lab |sample )(?:id|no|number)$|^activity ?identifier$/),
  text('point', 'Where it was taken', 200, /^(?:(?:sampling )?point|tap|where|taken at)$/),
  {
    ...text(
      'analyte',
      'Analyte',
      200,
      /^(?:analyte|parameter|test|characteristic(?: ?name)?|parm.*|constituent)$/,
    ),
    needed: true,
  },
  text('result', 'Result', 120, /^(?:result|value|concentration|result ?va|result ?measure ?value)$/),
  text('qualifier', 'Mark beside the result', 40, /^(?:qualifier|flag|remark ?cd|remark code|qual)$/),
  text(
    'detection',
    'Words in place of a result',
    120,
    /^(?:detection|result ?detection ?condition ?text|detection condition)$/,
  ),
  text('unit', 'Unit', 60, /^units?$|^unit ?cd$|^result ?measure ?measure ?unit ?code$|^result unit$/),
  text(
    'reporting_limit',
    'Reporting limit',
    60,
    /^(?:reporting limit|rl|mrl|rpt ?lev(?: va)?|detection limit|pql|loq|detection ?quantitation ?limit ?measure ?measure ?value)$/,
  ),
  text('method', 'Method', 120, /^(?:analytical )?method$/),
  BY,
]

const ENTRIES: Column[] = [
  { ...WELL },
  DATE,
  TIME,
  BY,
  { ...text('entry', 'The entry as JSON', 200_000), needed: true },
]

/** The columns of a plain file, in the order in which they are written. */
export const COLUMNS: Readonly<Record<TableKind, readonly Column[]>> = {
  wells: WELLS,
  duties: DUTIES,
  visits: VISITS,
  recovery: RECOVERY,
  samples: SAMPLES,
  entries: ENTRIES,
}

/** The column of that name in a file; undefined where there is none. */
export function columnNamed(kind: TableKind, name: string): Column | undefined {
  return COLUMNS[kind].find((column) => column.name === name)
}

/** Units as the plain files write them at the end of a heading. */
const SUFFIXES: Readonly<Record<string, UnitId>> = {
  m: 'm',
  cm: 'cm',
  mm: 'mm',
  ft: 'ft',
  in: 'in',
  l: 'L',
  gal: 'gal',
  m3: 'm3',
  ft3: 'ft3',
  l_per_min: 'L/min',
  gal_per_min: 'gal/min',
  l_per_s: 'L/s',
  m3_per_h: 'm3/h',
  l_per_day: 'L/d',
  gal_per_day: 'gal/d',
  m3_per_day: 'm3/d',
  kpa: 'kPa',
  psi: 'psi',
  bar: 'bar',
  s: 's',
  min: 'min',
  h: 'h',
  percent: '%',
}

/** A column known by its heading; `unit` is null where a unit belongs to it and the heading has none. */
export type Recognised = { column: Column; unit: UnitId | null }

/** The column that a heading names exactly, whatever its case; null for any other heading. */
export function recognise(heading: string, kind: TableKind): Recognised | null {
  const key = heading.trim().toLowerCase()
  const exact = columnNamed(kind, key)
  if (exact) return { column: exact, unit: exact.plainUnit ?? null }
  for (const column of COLUMNS[kind]) {
    if (!key.startsWith(`${column.name}_`) || (column.reads !== 'quantity' && column.reads !== 'limit'))
      continue
    const unit = SUFFIXES[key.slice(column.name.length + 1)]
    if (unit !== undefined && measures(column, dimensionOf(unit))) return { column, unit }
  }
  return null
}

const LIMITS: readonly Dimension[] = ['length', 'pressure', 'ratio', 'flow']

/** Whether a column can hold that kind of quantity. A limit is a length, pressure, share or flow, as its condition says. */
export function measures(column: Column, dimension: Dimension): boolean {
  if (column.reads === 'limit') return LIMITS.includes(dimension)
  return column.dimension === dimension
}

/** The heading of a column with a unit, as the plain files write it. */
export function headingWith(column: Column, unit: UnitId | null): string {
  if (unit === null || unit === column.plainUnit) return column.name
  const suffix = Object.keys(SUFFIXES).find((key) => SUFFIXES[key] === unit)
  if (suffix === undefined) throw new RangeError(`no heading has the unit ${unit}`)
  return `${column.name}_${suffix === 'kpa' ? 'kPa' : suffix}`
}
