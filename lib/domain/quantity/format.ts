/** Shows an SI value in the unit and with the digits that suit what it is used for. */

import { type Day, formatDay, isDay } from './day'
import { dimensionOf, fromSi, type UnitId, unitSymbol } from './units'

export type UnitSystem = 'us' | 'metric'

/** What a number on screen is about; it decides unit and digits. */
export type Use = keyof typeof USES

/** `least` decimals are always shown, `most` only where they are not zero. */
type Shown = { unit: UnitId; least: number; most: number }
const shown = (unit: UnitId, least: number, most: number): Shown => ({ unit, least, most })

/**
 * Units and digits by use and system. The digits follow what the trade can measure: a tape to 0.01 ft or 5 mm, a
 * caliper to 0.1 mm, a bucket and a watch to 0.1 gal/min (common practice, no published source).
 */
const USES = {
  depth: { us: shown('ft', 1, 2), metric: shown('m', 2, 2) },
  drawdown: { us: shown('ft', 1, 2), metric: shown('m', 2, 2) },
  lift: { us: shown('ft', 1, 2), metric: shown('m', 2, 2) },
  /** What is reckoned of a lift or a head, from readings and things taken for granted: no tape would see more. */
  margin: { us: shown('ft', 1, 1), metric: shown('m', 1, 1) },
  pumpHead: { us: shown('ft', 0, 0), metric: shown('m', 1, 1) },
  bore: { us: shown('in', 0, 2), metric: shown('mm', 0, 0) },
  brush: { us: shown('in', 2, 3), metric: shown('mm', 1, 1) },
  distance: { us: shown('ft', 1, 2), metric: shown('m', 2, 2) },
  route: { us: shown('mi', 1, 1), metric: shown('km', 1, 1) },
  altitude: { us: shown('ft', 0, 0), metric: shown('m', 0, 0) },
  area: { us: shown('ft2', 1, 2), metric: shown('m2', 2, 2) },
  flow: { us: shown('gal/min', 1, 1), metric: shown('L/min', 1, 1) },
  demand: { us: shown('gal/d', 0, 0), metric: shown('L/d', 0, 0) },
  capacity: { us: shown('gal/min/ft', 2, 2), metric: shown('L/min/m', 1, 1) },
  volume: { us: shown('gal', 0, 1), metric: shown('L', 0, 1) },
  tank: { us: shown('gal', 0, 0), metric: shown('L', 0, 0) },
  pressure: { us: shown('psi', 1, 1), metric: shown('kPa', 0, 1) },
  head: { us: shown('ftH2O', 1, 1), metric: shown('mH2O', 2, 2) },
  hours: { us: shown('h', 0, 1), metric: shown('h', 0, 1) },
  minutes: { us: shown('min', 0, 1), metric: shown('min', 0, 1) },
  days: { us: shown('d', 0, 1), metric: shown('d', 0, 1) },
  temperature: { us: shown('degF', 0, 1), metric: shown('degC', 1, 1) },
  current: { us: shown('A', 1, 2), metric: shown('A', 1, 2) },
  voltage: { us: shown('V', 0, 1), metric: shown('V', 0, 1) },
  power: { us: shown('W', 0, 0), metric: shown('W', 0, 0) },
  share: { us: shown('%', 0, 1), metric: shown('%', 0, 1) },
}

/** Reckoned from what is only roughly known: a small value has no more figures than a large one. */
const COARSE: ReadonlySet<Use> = new Set(['margin', 'pumpHead'])

const NO_BREAK_SPACE = '\u00a0'
/** A small value keeps this many figures, so that a trickle is never shown as no flow. */
const FIGURES_MIN = 2
const DECIMALS_MAX = 6

/** The unit in which `use` is shown in `system`. */
export function displayUnit(use: Use, system: UnitSystem): UnitId {
  return USES[use][system].unit
}

/** The symbols of the units of every use in `system`, for the labels of a form. */
export function unitSymbols(system: UnitSystem): Record<Use, string> {
  const pairs = Object.entries(USES).map(([use, units]) => [use, unitSymbol(units[system].unit)] as const)
  // Object.entries forgets that the keys are the uses.
  return Object.fromEntries(pairs) as Record<Use, string>
}

/** The unit taken for a typed number without one: the unit the same number would be shown in. */
export function defaultUnitFor(use: Use, system: UnitSystem): UnitId {
  return displayUnit(use, system)
}

/**
 * An SI value as text, "12.4 ft": unit and digits by use, thousands commas, a no-break space before the unit.
 * A value too small for the usual digits keeps two figures ("0.012 gal/min") down to a millionth of the unit.
 * Throws  RangeError on a value that is not finite: "cannot say" is said in words, not shown as a number.
 */
export function formatQuantity(si: number, use: Use, system: UnitSystem): string {
  const { unit, least, most } = USES[use][system]
  if (!Number.isFinite(si)) throw new RangeError(`${si} is not a quantity to show`)
  const value = fromSi(si, unit)
  const fixed = dimensionOf(unit) === 'temperature' || COARSE.has(use)
  const decimals = fixed ? most : Math.max(most, decimalsFor(value))
  const number = formatNumber(value, least, decimals)
  if (unit === '%') return `${number}%`
  return `${number}${NO_BREAK_SPACE}${unitSymbol(unit)}`
}

/**
 * A number with thousands commas, rounded to `most` decimals, of which trailing zeros beyond `least` are dropped.
 * Throws  RangeError on a value that is not finite.
 */
export function formatNumber(value: number, least: number, most: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`${value} is not a number to show`)
  const [whole = '0', all = ''] = Math.abs(value).toFixed(most).split('.')
  let end = all.length
  while (end > least && all[end - 1] === '0') end--
  const digits = all.slice(0, end)
  const text = whole.replace(/\B(?=(\d{3})+$)/g, ',') + (digits === '' ? '' : `.${digits}`)
  return value < 0 && /[1-9]/.test(text) ? `-${text}` : text
}

function decimalsFor(value: number): number {
  const size = Math.abs(value)
  if (size === 0 || size >= 1) return 0
  return Math.min(DECIMALS_MAX, FIGURES_MIN - 1 - Math.floor(Math.log10(size)))
}

const DAY_IN_TEXT =
  /\b(?:(\d{4}-\d{2}-\d{2})|(\d{1,2}) (Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)(?: (\d{4}))?)\b/g

/**
 * The days within a sentence of the reckoning ("2026-03-27", "27 Mar 2026", "27 Mar") as their reader writes them. Stored
 * sentences do not know their reader; what people typed is not to be sent through this.
 */
export function daysShown(sentence: string, system: UnitSystem): string {
  return sentence.replace(
    DAY_IN_TEXT,
    (text: string, plain?: string, day?: string, month?: string, year?: string) => {
      if (plain !== undefined) return isDay(plain) ? dayFor(plain, system) : text
      if (system !== 'us') return text
      return `${month} ${day}${year === undefined ? '' : `, ${year}`}`
    },
  )
}

/** A day in words, "Mar 27, 2026" or "27 Mar 2026": who reads feet reads the month first. */
export function dayFor(day: Day, system: UnitSystem): string {
  return formatDay(day, 'short', system === 'us' ? 'en-US' : 'en-GB')
}
