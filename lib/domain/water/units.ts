/**
 * Concentration units as labs write them, converted to the home unit of an analyte.
 *
 * Source  mass: powers of ten (1 ppm is taken as 1 mg/L, 1 ppb as 1 µg/L: fresh water of about 1 kg/L).
 *         Hardness: 1 gpg 17.12, 1 °dH 17.85, 1 °fH 10, 1 °Clark 14.25 mg/L CaCO3 (from 1 grain 64.798 91 mg and the US
 *         and imperial gallons; 10 mg/L CaO; 10 mg/L CaCO3). Activity: 1 Bq = 27.027 pCi (1 Ci = 3.7e10 Bq).
 * Note    CFU and MPN are never converted into each other: both are counts and are judged alike against zero.
 */
import { findAnalyte, formOf } from './analytes'
import { MG_PER_MMOL_CACO3, UNITS, type UnitRow } from './tables/units'
import type { Analyte } from './types'

const BY_NAME = new Map<string, UnitRow>()
for (const row of UNITS) for (const name of row.names) BY_NAME.set(name, row)

/** Forms written in the unit cell: "mg/L as N", "mg/L-N", "mg/l asNO3", "mg/l CaCO3", "mg N/L". */
const FORM_IN_UNIT =
  /^(.*?[lL])[\s-]*(?:as\s*)?\(?(N|NO3|NO2|NH4|NH3|CaCO3|HCO3|SO4|S|F|Cr|Cl|Ca|Mg|B|As|Fe|Mn|Na|K|SiO2|PO4|P)[-+]?\)?$/
const FORM_BEFORE_VOLUME = /^(mg|ug|µg|μg)[\s-]*(N|NO3|NO2|NH4|CaCO3)\s*\/\s*[lL]$/

/** A unit read: the factor to the base unit of its measure, the form it carries, and the count unit as written. */
export type UnitReading =
  | { kind: 'unit'; measure: UnitRow['measure']; factor: number; form: string | null; written: string }
  | { kind: 'blank' }
  | { kind: 'unknown'; written: string }

/** Reads a unit cell. Case matters to nobody; µ and μ and u are the same; "mS/m" and "MS/M" are not told apart from each other. */
export function readUnit(text: string): UnitReading {
  const written = text.trim()
  if (written === '') return { kind: 'blank' }
  const { unit, form } = splitUnitForm(written)
  const row = BY_NAME.get(unit)
  if (row) return { kind: 'unit', measure: row.measure, factor: row.factor, form, written }
  return { kind: 'unknown', written }
}

function splitUnitForm(written: string): { unit: string; form: string | null } {
  const before = FORM_BEFORE_VOLUME.exec(written)
  if (before) return { unit: tidyUnit(`${before[1] ?? ''}/L`), form: before[2] ?? null }
  const plain = tidyUnit(written)
  if (BY_NAME.has(plain)) return { unit: plain, form: null }
  const after = FORM_IN_UNIT.exec(written) ?? FORM_IN_UNIT.exec(written.replace(/ as nitrogen$/i, ' as N'))
  if (after) return { unit: tidyUnit(after[1] ?? ''), form: after[2] ?? null }
  const loose =
    /^(ppm|ppb|mg\/l|ug\/l|mg\/L|ug\/L|µg\/L)[\s,]*\(?(?:as )?(N|NO3|NO2|NH4|NH3|CaCO3|HCO3|SO4|S)\)?$/i.exec(
      written,
    )
  return loose ? { unit: tidyUnit(loose[1] ?? ''), form: loose[2] ?? null } : { unit: plain, form: null }
}

function tidyUnit(text: string): string {
  return text
    .replace(/[µμ]/g, 'u')
    .toLowerCase()
    .replace(/[°º]\s*c\b/g, 'c')
    .replace(/[°º]\s*/g, 'deg ')
    .replace(/\s*\/\s*/g, '/')
    .replace(/100\s*ml/g, '100ml')
    .replace(/\s+/g, ' ')
    .replace(/\.$/, '')
    .trim()
}

/** What a value in a unit is in the home unit of an analyte. */
export type Conversion =
  | { kind: 'factor'; factor: number }
  /** The number means different amounts in different forms and the sheet does not say which. */
  | { kind: 'which-form'; factors: readonly number[]; forms: readonly string[] }
  | { kind: 'problem'; message: string }

/**
 * The factor from a unit to the home unit of `analyte`. `nameForm` is the form the analyte's name carries ("Nitrate-N");
 * a form in the unit must agree with it. A blank unit is taken only where an analyte has one natural unit (pH, counts of
 * present/absent are handled by the caller); otherwise it is a problem.
 */
export function toHome(analyte: Analyte, reading: UnitReading, nameForm: string | null): Conversion {
  if (reading.kind === 'unknown')
    return {
      kind: 'problem',
      message: `"${reading.written}" is not a unit known here: choose the unit on the sheet.`,
    }
  if (reading.kind === 'blank') {
    if (analyte.measure === 'ph' || analyte.measure === 'ratio' || analyte.measure === 'odour')
      return { kind: 'factor', factor: 1 }
    return { kind: 'problem', message: `${analyte.name}: the unit is missing; type it as on the sheet.` }
  }
  const base = baseFactor(analyte, reading)
  if (base === null)
    return {
      kind: 'problem',
      message: `${analyte.name} is not measured in "${reading.written}": check the unit.`,
    }
  return withForm(analyte, reading, nameForm, base)
}

function baseFactor(analyte: Analyte, reading: Extract<UnitReading, { kind: 'unit' }>): number | null {
  if (reading.measure === 'hardness') {
    const hard =
      analyte.id === 'hardness' || (analyte.id === 'alkalinity' && reading.factor === MG_PER_MMOL_CACO3 / 2)
    return hard ? reading.factor : null
  }
  if (reading.measure !== analyte.measure) return null
  if (analyte.home === 'ng/L') return reading.factor * 1e6
  if (analyte.home === 'per mL')
    return /\bml\b|\/ ?l\b/i.test(reading.written) || /\d ?ml/i.test(reading.written)
      ? reading.factor / 100
      : null
  return reading.factor
}

function withForm(
  analyte: Analyte,
  reading: Extract<UnitReading, { kind: 'unit' }>,
  nameForm: string | null,
  base: number,
): Conversion {
  const forms = analyte.forms
  if (!forms) return { kind: 'factor', factor: base }
  const unitForm = reading.form === null ? null : formOf(analyte.id, reading.form)
  if (reading.form !== null && unitForm === null)
    return { kind: 'problem', message: `${analyte.name} is not reported as ${reading.form}: check the unit.` }
  if (unitForm !== null && nameForm !== null && unitForm !== nameForm)
    return {
      kind: 'problem',
      message: `The name says ${analyte.name} as ${nameForm}, the unit says as ${unitForm}: which does the sheet mean?`,
    }
  const form = unitForm ?? nameForm ?? (hasOneReading(analyte) ? (forms[0]?.form ?? null) : null)
  if (form === null)
    return {
      kind: 'which-form',
      factors: forms.map((row) => base * row.factor),
      forms: forms.map((row) => row.form),
    }
  const row = forms.find((each) => each.form === form)
  return { kind: 'factor', factor: base * (row?.factor ?? 1) }
}

/** Ions and hardness have a form nobody needs to say; nitrate, nitrite and ammonia do not. */
function hasOneReading(analyte: Analyte): boolean {
  return analyte.family !== 'nitrogen' || (analyte.forms?.length ?? 0) < 2
}

/** Twelve figures: takes the noise of a factor off, so that 50 mg/L as NO3 meets a limit of 50 mg/L as NO3. */
export function tidyNumber(value: number): number {
  return Number(value.toPrecision(12))
}

/**
 * A published limit or rule value in the home unit of its analyte. The tables name their units in full, so a unit that
 * cannot be read is a broken table.
 * Throws  Error naming the analyte and the unit.
 */
export function limitInHome(analyteId: string, value: number, unit: string): number {
  const analyte = findAnalyte(analyteId)
  if (!analyte) throw new Error(`a limit names an analyte nobody knows: ${analyteId}`)
  if (unit === analyte.home) return value
  const conversion = toHome(analyte, readUnit(unit), null)
  if (conversion.kind === 'factor') return tidyNumber(value * conversion.factor)
  if (conversion.kind === 'which-form' && analyteId === 'ammonia')
    return tidyNumber(value * ammoniaAsNh4(conversion))
  throw new Error(`the limit for ${analyteId} has a unit that cannot be read: ${unit}`)
}

/** Where a source gives ammonia without its form, NH4 is taken, the stricter reading of a limit. */
function ammoniaAsNh4(conversion: Extract<Conversion, { kind: 'which-form' }>): number {
  return conversion.factors[conversion.forms.indexOf('NH4')] ?? 1
}
