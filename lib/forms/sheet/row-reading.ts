import type { NumberLocale } from '@/lib/domain/quantity/number-text'
import { ANALYTES, analyteName, findAnalyte } from '@/lib/domain/water/analytes'
import { answerQuestion } from '@/lib/domain/water/result-questions'
import { type ResultReading, type RowText, readResult } from '@/lib/domain/water/results'
import type { Result, Question as RowQuestion } from '@/lib/domain/water/types'
import type { Question } from '../visit/reader'
import { rowKey } from '../visit/sample-line'

/** A question about a row, the field that answers it, and whether it was answered. */
export type RowAsk = Question & { field: string; answered: boolean }

/** How a row was read: in words, and what is to be asked about it. */
export type RowView = { words: string; asks: RowAsk[] }

/** The answer "nobody can say yet": the row is kept as it stands on the sheet and is never a pass. */
export const OPEN = 'open'

type Typed = Readonly<Record<string, string>>

/** Reads one row with the answers given so far. Nothing is guessed: what is doubtful comes back as a question. */
export function readRow(row: RowText, typed: Typed, locale: NumberLocale): RowView {
  const key = rowKey(row)
  const analyteId = findAnalyte((typed[`${key}:analyte`] ?? '').trim())?.id
  const reading = readResult(row, { locale, ...(analyteId ? { analyteId } : {}) })
  const named = analyteId ? whichAnalyte(row, key, typed) : []
  if (reading.kind !== 'result') return { words: '', asks: [...named, ...notRead(reading, row, key, typed)] }
  const { result, asks } = withAnswers(reading.result, key, typed)
  return { words: `Read as ${sayResult(result)}.`, asks: [...named, ...asks] }
}

/** The question about the name stays in sight after it was answered, with the answer chosen. */
function whichAnalyte(row: RowText, key: string, typed: Typed): RowAsk[] {
  const reading = readResult(row, { locale: 'en' })
  return reading.kind === 'which-analyte' || reading.kind === 'unknown-analyte'
    ? notRead(reading, row, key, typed)
    : []
}

function notRead(
  reading: Exclude<ResultReading, { kind: 'result' }>,
  row: RowText,
  key: string,
  typed: Typed,
): RowAsk[] {
  switch (reading.kind) {
    case 'which-analyte':
      return [
        ask(typed, `${key}:analyte`, reading.ask, [
          ...reading.candidates.map((id) => ({ value: id, label: analyteName(id) })),
          LEAVE_OPEN,
        ]),
      ]
    case 'unknown-analyte':
      return [
        ask(typed, `${key}:analyte`, `"${row.analyte}" is not a name known here: which is it?`, [
          { value: OPEN, label: 'None of these: keep it as typed' },
          ...ANALYTES.map(({ id, name }) => ({ value: id, label: name })),
        ]),
      ]
    case 'problem':
      return [ask(typed, `${key}:unread`, reading.message, [KEEP])]
  }
}

const LEAVE_OPEN = { value: OPEN, label: 'The sheet does not say: leave it open; it is then inconclusive' }
const KEEP = { value: OPEN, label: 'It stands so on the sheet: keep it as typed; it is not judged' }

function ask(typed: Typed, field: string, message: string, choices: Question['choices']): RowAsk {
  const answer = typed[field] ?? ''
  return { field, message, choices, answered: choices.some(({ value }) => value === answer) }
}

/** The questions of a result, each settled by its answer where there is one. */
function withAnswers(first: Result, key: string, typed: Typed): { result: Result; asks: RowAsk[] } {
  let result = first
  const asks: RowAsk[] = []
  for (const question of first.questions) {
    const field = `${key}:${question.kind}`
    if (asks.some((each) => each.field === field)) {
      result = answerQuestion(result, question.kind, typed[field] ?? '')
      continue
    }
    asks.push(ask(typed, field, question.ask, [...choicesOf(question, result), LEAVE_OPEN]))
    result = answerQuestion(result, question.kind, typed[field] ?? '')
  }
  return { result, asks }
}

function choicesOf(question: RowQuestion, result: Result): Question['choices'] {
  switch (question.kind) {
    case 'form':
      return (question.options ?? []).map((value) => ({ value, label: `as ${value}` }))
    case 'scale':
      return (question.options ?? []).map((value) => ({ value, label: scaleWords(value) }))
    case 'limit':
      return [result.value, result.reportingLimit].flatMap((limit) =>
        limit === null ? [] : [{ value: String(limit), label: `${limit} ${result.unit}` }],
      )
    case 'zero':
      // The limit belongs into its own cell of the row; once it stands there, nothing is asked.
      return []
    default:
      return (question.options ?? []).map((value) => ({ value, label: value }))
  }
}

function scaleWords(option: string): string {
  if (option === 'a thousandth') return 'a thousandth of it: the unit was the smaller one (µg/L)'
  if (option === 'a thousandfold') return 'a thousand times it: the unit was the larger one (mg/L)'
  return 'as typed: the unit is right'
}

/** A result in words: its analyte and what was found, in the unit in which it is judged. */
export function sayResult(result: Result): string {
  return `${analyteName(result.analyte)}: ${amountWords(result)}`
}

function amountWords(result: Result): string {
  const { operator, value, unit, reportingLimit } = result
  const limit = reportingLimit === null ? '' : ` (reporting limit ${reportingLimit} ${unit})`
  const form = result.formFactors === null ? '' : ', in a form the sheet does not name'
  switch (operator) {
    case '=':
      return `${value} ${unit}${form}`
    case '<':
      return `less than ${value} ${unit}${form}`
    case '>':
      return `more than ${value} ${unit}${form}`
    case 'absent':
      return 'absent'
    case 'present':
      return 'present, not counted'
    case 'not-detected':
      return `not detected${limit}`
    case 'trace':
      return `found, too little to measure${limit}`
    case 'none':
      return 'no result on the sheet'
  }
}
