/**
 * One row of a lab sheet, as written, to a result in the analyte's home unit, with the questions it leaves open.
 * What was typed is kept beside the reading; a blank is unknown, never zero.
 */
import type { NumberLocale } from '@/lib/domain/quantity/number-text'
import { findAnalyte, matchAnalyte } from './analytes'
import { type CellReading, readCell } from './lab-text'
import { type LabKey, readQualifiers } from './qualifiers'
import { openQuestions } from './result-questions'
import type { Analyte, Operator, QualifierReading, Result } from './types'
import { type Conversion, readUnit, tidyNumber, toHome, type UnitReading } from './units'

/** The cells of one row, as typed; an absent cell is ''. */
export type RowText = Result['typed']

export type ReadOptions = {
  /** How this sheet writes numbers: 'en' 1,200.5, 'comma' 1.200,5, null when nobody has said. */
  locale: NumberLocale
  /** The laboratory's own key to its letters, where it is known. */
  labKey?: LabKey | null
  /** The analyte, where a person has already said which it is. */
  analyteId?: string
}

export type RowProblem = { kind: 'problem'; column: keyof RowText; message: string }
export type ResultReading =
  | { kind: 'result'; result: Result }
  /** A name with more than one meaning: asked. */
  | { kind: 'which-analyte'; candidates: readonly string[]; ask: string }
  /** A name nobody knows here. The row is kept as typed and is not judged. */
  | { kind: 'unknown-analyte'; name: string }
  | RowProblem

type Cell = Exclude<CellReading, { kind: 'blank' | 'problem' }>

/**
 * Reads one row. Answers a result; or asks which analyte; or names the column that cannot be read and why.
 * A value is in the home unit of its analyte (mg/L; nitrate, nitrite, ammonia as N; hardness as CaCO3; per 100 mL; ...).
 */
export function readResult(row: RowText, options: ReadOptions): ResultReading {
  const match =
    options.analyteId === undefined
      ? matchAnalyte(row.analyte)
      : { kind: 'match' as const, id: options.analyteId, form: formOfTyped(row.analyte, options.analyteId) }
  if (match.kind === 'doubtful')
    return { kind: 'which-analyte', candidates: match.candidates, ask: match.ask }
  const analyte = match.kind === 'match' ? findAnalyte(match.id) : undefined
  if (match.kind === 'unknown' || !analyte) return { kind: 'unknown-analyte', name: row.analyte.trim() }
  const cell = readCell(row.result, options.locale)
  if (cell.kind === 'problem') return { kind: 'problem', column: 'result', message: cell.message }
  if (cell.kind === 'blank') return readBlank(analyte, row)
  const rest = readRest(cell.rest, options.labKey ?? null)
  if (rest === null)
    return {
      kind: 'problem',
      column: 'result',
      message: `"${cell.rest}" after the result is neither a unit nor a qualifier known here.`,
    }
  return build({ analyte, row, cell, rest, nameForm: match.form, options })
}

function formOfTyped(name: string, id: string): string | null {
  const match = matchAnalyte(name)
  return match.kind === 'match' && match.id === id ? match.form : null
}

/** An empty result cell is "no result", a fact of its own: it is neither a pass nor a zero. */
function readBlank(analyte: Analyte, row: RowText): ResultReading {
  return {
    kind: 'problem',
    column: 'result',
    message: `${analyte.name}: the result is blank${row.reportingLimit.trim() === '' ? '' : '; if the sheet says not detected, type ND'}.`,
  }
}

type Rest = { unit: string; qualifiers: string }

/** What followed the number: a unit, qualifiers, or a unit and then qualifiers. Null when a part is neither. */
function readRest(text: string, key: LabKey | null): Rest | null {
  const tidy = text.replace(/^\((.*)\)$/, '$1').trim()
  if (tidy === '' || /^(?:absent|present|not detected|detected|nd|\/ ?100 ?ml)$/i.test(tidy))
    return { unit: '', qualifiers: '' }
  if (readUnit(tidy).kind === 'unit') return { unit: tidy, qualifiers: '' }
  const words = tidy.split(/[\s,;]+/)
  for (let taken = words.length - 1; taken >= 0; taken -= 1) {
    const unit = words.slice(0, taken).join(' ')
    const codes = words.slice(taken).map((word) => word.replace(/^[([]|[)\]]$/g, ''))
    const unitReads = unit === '' || readUnit(unit).kind === 'unit'
    if (unitReads && codes.every((code) => isQualifier(code, key)))
      return { unit, qualifiers: codes.join(' ') }
  }
  return null
}

function isQualifier(code: string, key: LabKey | null): boolean {
  return readQualifiers(code, key).every((each) => each.class !== 'unknown' || each.conflict !== null)
}

type Parts = {
  analyte: Analyte
  row: RowText
  cell: Cell
  rest: Rest
  nameForm: string | null
  options: ReadOptions
}

function build(parts: Parts): ResultReading {
  const { analyte, row, cell, rest, options } = parts
  const unit = unitOf(analyte, rest.unit === '' ? row.unit : rest.unit, cell)
  const conversion = needsUnit(cell, row)
    ? toHome(analyte, unit, parts.nameForm)
    : { kind: 'factor' as const, factor: 1 }
  if (conversion.kind === 'problem') return { kind: 'problem', column: 'unit', message: conversion.message }
  const limit = readLimit(parts, conversion)
  if (limit.kind === 'problem') return limit
  const qualifiers = [
    ...readQualifiers(rest.qualifiers, options.labKey ?? null),
    ...readQualifiers(row.qualifier, options.labKey ?? null),
  ]
  const said = settle(analyte, cell, qualifiers, limit.typed)
  const result: Result = {
    analyte: analyte.id,
    operator: said.operator,
    value: said.value === null ? null : tidyNumber(said.value * scaleOf(conversion)),
    unit: analyte.home,
    reportingLimit: said.limit === null ? null : tidyNumber(said.limit * scaleOf(conversion)),
    qualifiers,
    countUnit:
      analyte.family === 'bacteria' && unit.kind === 'unit' && unit.written !== '' ? unit.written : null,
    formFactors:
      conversion.kind === 'which-form'
        ? conversion.factors.map((factor) => factor / scaleOf(conversion))
        : null,
    typed: row,
    questions: [],
  }
  return {
    kind: 'result',
    result: { ...result, questions: openQuestions(analyte, result, conversion, said.zero) },
  }
}

function scaleOf(conversion: Exclude<Conversion, { kind: 'problem' }>): number {
  return conversion.kind === 'factor' ? conversion.factor : (conversion.factors[0] ?? 1)
}

/** A word without a number needs no unit, unless a reporting limit stands beside it. */
function needsUnit(cell: Cell, row: RowText): boolean {
  return (
    cell.kind === 'number' ||
    cell.value !== null ||
    (row.reportingLimit.trim() !== '' && cell.operator !== 'absent' && cell.operator !== 'present')
  )
}

/** Coliform, E. coli and enterococci are counted in 100 mL in every scheme here; a blank unit means that. */
function unitOf(analyte: Analyte, text: string, cell: Cell): UnitReading {
  const reading = readUnit(text)
  const wordOnly = cell.kind === 'word' && cell.value === null
  if (reading.kind === 'blank' && analyte.home === 'per 100 mL' && (wordOnly || analyte.measure === 'count'))
    return { kind: 'unit', measure: 'count', factor: 1, form: null, written: '' }
  return reading
}

type LimitReading = { kind: 'limit'; typed: number | null } | RowProblem

function readLimit(parts: Parts, conversion: Exclude<Conversion, { kind: 'problem' }>): LimitReading {
  const text = parts.row.reportingLimit.trim()
  if (text === '' || /^(?:n\/?a|-+|none|nr)$/i.test(text)) return { kind: 'limit', typed: null }
  const cell = readCell(text, parts.options.locale)
  if (cell.kind !== 'number')
    return {
      kind: 'problem',
      column: 'reportingLimit',
      message: `"${text}" is not a reporting limit that can be read.`,
    }
  const own = readUnit(cell.rest)
  if (own.kind === 'unit') {
    const ownFactor = toHome(parts.analyte, own, parts.nameForm)
    if (ownFactor.kind !== 'factor' || conversion.kind !== 'factor')
      return {
        kind: 'problem',
        column: 'reportingLimit',
        message: `"${text}": the unit of the reporting limit does not fit the result.`,
      }
    return { kind: 'limit', typed: (cell.value * ownFactor.factor) / conversion.factor }
  }
  return { kind: 'limit', typed: cell.value }
}

type Said = { operator: Operator; value: number | null; limit: number | null; zero: boolean }

/** The operator after the qualifier has spoken: "0.05 U" is "<0.05"; a zero of a dissolved substance is no measurement. */
function settle(
  analyte: Analyte,
  cell: Cell,
  qualifiers: readonly QualifierReading[],
  limit: number | null,
): Said {
  if (cell.kind === 'word') {
    const overRange = cell.overRange ? 'present' : cell.operator
    return { operator: overRange, value: null, limit: cell.value ?? limit, zero: false }
  }
  const zero = cell.value === 0 && (analyte.measure === 'mass' || analyte.measure === 'activity')
  if (zero && cell.operator === '=')
    return { operator: 'not-detected', value: null, limit, zero: limit === null }
  const classes = new Set(qualifiers.map((each) => each.class))
  if (cell.operator === '=' && classes.has('non-detect'))
    return { operator: '<', value: cell.value, limit, zero: false }
  if (cell.operator === '=' && classes.has('over-detect'))
    return { operator: '>', value: cell.value, limit, zero: false }
  return { operator: cell.operator, value: cell.value, limit, zero: false }
}
