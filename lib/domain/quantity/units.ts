/**
 * The units people use around a well, with their factors to SI.
 *
 * Source  NIST SP 811 (2008), Appendix B.8 and B.9, and the definitions it rests on. Factors here are exact where
 *         the unit is defined exactly: ft 0.3048 m; US gallon 231 in³; imperial gallon 4.546 09 L; pound-force
 *         0.453 592 37 kg × 9.806 65 m/s²; horsepower 550 ft·lbf/s; metre, foot of water and inch of mercury
 *         "conventional": water of 1000 kg/m³, mercury of 13 595.1 kg/m³, at 9.806 65 m/s².
 * Note    a plain "gal" is the US gallon; the imperial gallon has to be named ("imp gal", "uk gal").
 *         A temperature is a point on its scale, not a difference: 0 °C is 273.15 K.
 */
import { NAMES } from './unit-names'

/** 'capacity' is specific capacity, flow per drawdown, m²/s. */
export type Dimension =
  | 'length'
  | 'area'
  | 'volume'
  | 'flow'
  | 'capacity'
  | 'pressure'
  | 'duration'
  | 'temperature'
  | 'current'
  | 'voltage'
  | 'power'
  | 'ratio'

export type UnitId = keyof typeof UNITS

const FOOT_M = 0.3048
const INCH_M = 0.0254
const GALLON_M3 = 231 * INCH_M ** 3
const IMPERIAL_GALLON_M3 = 0.004_546_09
const CUBIC_FOOT_M3 = FOOT_M ** 3
const GRAVITY_M_PER_S2 = 9.806_65
const POUND_FORCE_N = 0.453_592_37 * GRAVITY_M_PER_S2
const DAY_S = 86_400

type Row = { dimension: Dimension; factor: number; offset?: number; symbol: string }
const row = (dimension: Dimension, factor: number, symbol: string, offset = 0): Row => ({
  dimension,
  factor,
  offset,
  symbol,
})

/** SI value = (value + offset) × factor. The order within a dimension is the order in which units are suggested. */
const UNITS = {
  m: row('length', 1, 'm'),
  ft: row('length', FOOT_M, 'ft'),
  in: row('length', INCH_M, 'in'),
  cm: row('length', 0.01, 'cm'),
  mm: row('length', 0.001, 'mm'),
  yd: row('length', 3 * FOOT_M, 'yd'),
  km: row('length', 1000, 'km'),
  mi: row('length', 5280 * FOOT_M, 'mi'),
  m2: row('area', 1, 'm²'),
  ft2: row('area', FOOT_M ** 2, 'ft²'),
  L: row('volume', 0.001, 'L'),
  gal: row('volume', GALLON_M3, 'gal'),
  m3: row('volume', 1, 'm³'),
  ft3: row('volume', CUBIC_FOOT_M3, 'ft³'),
  mL: row('volume', 0.000_001, 'mL'),
  impgal: row('volume', IMPERIAL_GALLON_M3, 'imp gal'),
  'L/min': row('flow', 0.001 / 60, 'L/min'),
  'gal/min': row('flow', GALLON_M3 / 60, 'gal/min'),
  'L/s': row('flow', 0.001, 'L/s'),
  'm3/h': row('flow', 1 / 3600, 'm³/h'),
  'L/d': row('flow', 0.001 / DAY_S, 'L/day'),
  'gal/d': row('flow', GALLON_M3 / DAY_S, 'gal/day'),
  'L/h': row('flow', 0.001 / 3600, 'L/h'),
  'gal/h': row('flow', GALLON_M3 / 3600, 'gal/h'),
  'm3/d': row('flow', 1 / DAY_S, 'm³/day'),
  'm3/s': row('flow', 1, 'm³/s'),
  'ft3/s': row('flow', CUBIC_FOOT_M3, 'ft³/s'),
  'impgal/min': row('flow', IMPERIAL_GALLON_M3 / 60, 'imp gal/min'),
  'L/min/m': row('capacity', 0.001 / 60, 'L/min per m'),
  'gal/min/ft': row('capacity', GALLON_M3 / 60 / FOOT_M, 'gal/min per ft'),
  'L/s/m': row('capacity', 0.001, 'L/s per m'),
  'm2/s': row('capacity', 1, 'm²/s'),
  kPa: row('pressure', 1000, 'kPa'),
  psi: row('pressure', POUND_FORCE_N / INCH_M ** 2, 'psi'),
  bar: row('pressure', 100_000, 'bar'),
  Pa: row('pressure', 1, 'Pa'),
  mH2O: row('pressure', 1000 * GRAVITY_M_PER_S2, 'mH₂O'),
  ftH2O: row('pressure', 1000 * GRAVITY_M_PER_S2 * FOOT_M, 'ftH₂O'),
  inHg: row('pressure', 13_595.1 * GRAVITY_M_PER_S2 * INCH_M, 'inHg'),
  h: row('duration', 3600, 'h'),
  min: row('duration', 60, 'min'),
  s: row('duration', 1, 's'),
  d: row('duration', DAY_S, 'd'),
  degC: row('temperature', 1, '°C', 273.15),
  degF: row('temperature', 5 / 9, '°F', 459.67),
  K: row('temperature', 1, 'K'),
  A: row('current', 1, 'A'),
  mA: row('current', 0.001, 'mA'),
  V: row('voltage', 1, 'V'),
  W: row('power', 1, 'W'),
  kW: row('power', 1000, 'kW'),
  hp: row('power', 550 * FOOT_M * POUND_FORCE_N, 'hp'),
  '1': row('ratio', 1, ''),
  '%': row('ratio', 0.01, '%'),
}

/** `value` in `unit`, as SI (m, m², m³, m³/s, m²/s, Pa, s, K, A, V, W, 1). */
export function toSi(value: number, unit: UnitId): number {
  const { factor, offset = 0 } = UNITS[unit]
  return (value + offset) * factor
}

/** An SI value, in `unit`. The inverse of toSi up to rounding in the last places. */
export function fromSi(si: number, unit: UnitId): number {
  const { factor, offset = 0 } = UNITS[unit]
  return si / factor - offset
}

/** What `unit` measures. */
export function dimensionOf(unit: UnitId): Dimension {
  return UNITS[unit].dimension
}

/** The unit as shown on screen ('gal/min', 'm³', '°F'); '' for a plain ratio. */
export function unitSymbol(unit: UnitId): string {
  return UNITS[unit].symbol
}

/** True for the id of a unit in the table; for units that come from storage or a heading. */
export function isUnitId(text: string): text is UnitId {
  return Object.hasOwn(UNITS, text)
}

/** Every unit of a dimension, in the order of the table. */
export function unitsOf(dimension: Dimension): UnitId[] {
  return Object.keys(UNITS).filter((id): id is UnitId => isUnitId(id) && UNITS[id].dimension === dimension)
}

/**
 * The unit that a typed text names within a dimension ("gpm", "gallons per minute", "l/min", "ft.", "m³/h"), or null.
 * With `dimension` null any unit is found. Letter case, spaces and a final full stop do not matter. A flow is also
 * read as volume / time and a capacity as flow / length, so "litres per day" and "gpm/ft" need no entry of their own.
 */
export function findUnit(text: string, dimension: Dimension | null): UnitId | null {
  const key = unitKey(text)
  const fits = (id: UnitId) => dimension === null || dimensionOf(id) === dimension
  const named = unitsNamed(key).find(fits)
  if (named !== undefined) return named
  const slash = key.lastIndexOf('/')
  if (slash < 1) return null
  const top = findUnit(key.slice(0, slash), dimension === 'capacity' ? 'flow' : 'volume')
  const bottom = findUnit(key.slice(slash + 1), dimension === 'capacity' ? 'length' : 'duration')
  const id = `${top}/${bottom}`
  if (isUnitId(id) && fits(id)) return id
  return dimension === null ? findUnit(text, 'capacity') : null
}

/** One spelling for many: lower case, "per" and "a" as "/", raised digits as plain ones, no stray marks. */
function unitKey(text: string): string {
  return text
    .toLowerCase()
    .replace(/[\s\u00a0\u2000-\u200b\u202f\u205f\u3000]+/g, ' ')
    .replace(/²|\^2/g, '2')
    .replace(/³|\^3/g, '3')
    .replace(/₂/g, '2')
    .replace(/[′’‘ʹ]/g, "'")
    .replace(/[″”“ʺ]|''/g, '"')
    .replace(/º/g, '°')
    .replace(/ ?\/ ?| (?:per|a) /g, '/')
    .replace(/([a-z])\.(?=\/| |$)/g, '$1')
    .trim()
}

const BY_NAME: ReadonlyMap<string, readonly UnitId[]> = collectNames()

function unitsNamed(key: string): readonly UnitId[] {
  return BY_NAME.get(key) ?? []
}

function collectNames(): Map<string, UnitId[]> {
  const found = new Map<string, UnitId[]>()
  for (const id of Object.keys(UNITS).filter(isUnitId)) {
    const names = new Set([id, UNITS[id].symbol, ...(NAMES[id] ?? [])].map(unitKey))
    names.delete('')
    for (const name of names) found.set(name, [...(found.get(name) ?? []), id])
  }
  return found
}
