/** What a row leaves open, asked in one sentence each, and how an answer settles it. */
import type { Analyte, Question, Result } from './types'
import { type Conversion, tidyNumber } from './units'

/** The questions a freshly read result leaves open. `zero`: the sheet gave a bare zero without a limit. */
export function openQuestions(
  analyte: Analyte,
  result: Result,
  conversion: Exclude<Conversion, { kind: 'problem' }>,
  zero: boolean,
): Question[] {
  const questions: Question[] = []
  if (conversion.kind === 'which-form')
    questions.push({
      kind: 'form',
      ask: `Is ${analyte.name.toLowerCase()} on this sheet given ${conversion.forms.map((form) => `as ${form}`).join(' or ')}?`,
      options: conversion.forms,
    })
  if (zero)
    questions.push({
      kind: 'zero',
      ask: `${analyte.name}: a laboratory cannot measure zero. What is its reporting limit?`,
    })
  const scale = scaleQuestion(analyte, result)
  if (scale) questions.push(scale)
  for (const qualifier of result.qualifiers)
    if (qualifier.class === 'unknown')
      questions.push({
        kind: 'qualifier',
        ask: `What does "${qualifier.code}" mean on this laboratory's sheets?`,
        options: ['estimated', 'not detected', 'above the range', 'suspect'],
      })
  if (
    result.operator === '<' &&
    result.value !== null &&
    result.reportingLimit !== null &&
    farApart(result.value, result.reportingLimit)
  )
    questions.push({
      kind: 'limit',
      ask: `The result says <${result.typed.result.replace(/[<≤ ]/g, '')} but the reporting limit is ${result.typed.reportingLimit}: which is right?`,
    })
  return questions
}

function farApart(a: number, b: number): boolean {
  return a > 0 && b > 0 && (a / b >= 100 || b / a >= 100)
}

/**
 * Asked when a value is outside its usual range and a thousandth, or a thousand times, of it would be inside: the wrong
 * one of mg/L and µg/L. On the low side only from a tenth of the range down, and neither for a '<' nor for a value the
 * laboratory itself calls a trace (marked J, or under its own reporting limit).
 */
function scaleQuestion(analyte: Analyte, result: Result): Question | null {
  const amount = result.value ?? result.reportingLimit
  if (analyte.usual === null || amount === null || analyte.measure === 'ph') return null
  const [low, high] = analyte.usual
  const factors = result.formFactors ?? [1]
  const fits = (value: number): boolean =>
    factors.some((factor) => value * factor >= low && value * factor <= high)
  if (fits(amount)) return null
  if (amount > high && fits(amount / 1000))
    return {
      kind: 'scale',
      ask: `${analyte.name} ${result.typed.result} ${result.typed.unit} is far above what wells hold: did you mean a thousandth of it${unitHint(result.typed.unit)}?`,
      options: ['as typed', 'a thousandth'],
    }
  if (amount < low / 10 && result.operator === '=' && !calledTrace(result) && fits(amount * 1000))
    return {
      kind: 'scale',
      ask: `${analyte.name} ${result.typed.result} ${result.typed.unit} is far below what wells hold: did you mean a thousand times it${unitHint(result.typed.unit)}?`,
      options: ['as typed', 'a thousandfold'],
    }
  return null
}

function calledTrace({ value, reportingLimit, qualifiers }: Result): boolean {
  return (
    qualifiers.some(({ code }) => code.toUpperCase() === 'J') ||
    (value !== null && reportingLimit !== null && value < reportingLimit)
  )
}

function unitHint(unit: string): string {
  if (/^(?:mg|ppm)/i.test(unit.trim())) return ' (µg/L instead of mg/L, or the other way round)'
  if (/^(?:u|µ|μ|ppb)/i.test(unit.trim())) return ' (mg/L instead of µg/L)'
  return ''
}

/**
 * The result with one question answered. Form: one of the forms asked about; scale: 'as typed', 'a thousandth', 'a
 * thousandfold'; qualifier: 'estimated', 'not detected', 'above the range', 'suspect'; zero and limit: the reporting limit
 * in the home unit, as text. An answer that is none of the options leaves the question open.
 */
export function answerQuestion(result: Result, kind: Question['kind'], answer: string): Result {
  const question = result.questions.find((each) => each.kind === kind)
  if (!question) return result
  const closed = { ...result, questions: result.questions.filter((each) => each !== question) }
  if (kind === 'form') return answerForm(result, closed, question, answer)
  if (kind === 'scale') return answerScale(result, closed, answer)
  if (kind === 'zero' || kind === 'limit') return answerLimit(result, closed, answer)
  if (kind === 'qualifier') return answerQualifier(result, closed, answer)
  return result
}

function answerForm(result: Result, closed: Result, question: Question, answer: string): Result {
  const factor = result.formFactors?.[question.options?.indexOf(answer) ?? -1]
  return factor === undefined ? result : scaled({ ...closed, formFactors: null }, factor)
}

function answerScale(result: Result, closed: Result, answer: string): Result {
  if (answer === 'as typed') return closed
  if (answer === 'a thousandth') return scaled(closed, 0.001)
  return answer === 'a thousandfold' ? scaled(closed, 1000) : result
}

function answerLimit(result: Result, closed: Result, answer: string): Result {
  const limit = Number(answer)
  if (answer.trim() === '' || !(limit > 0)) return result
  return { ...closed, reportingLimit: limit, value: closed.operator === '<' ? limit : closed.value }
}

function answerQualifier(result: Result, closed: Result, answer: string): Result {
  const classes = {
    estimated: 'pass',
    'not detected': 'non-detect',
    'above the range': 'over-detect',
    suspect: 'suspect',
  } as const
  const known = Object.entries(classes).find(([word]) => word === answer)?.[1]
  if (known === undefined) return result
  const qualifiers = closed.qualifiers.map((each) =>
    each.class === 'unknown' ? { ...each, class: known } : each,
  )
  const operator =
    closed.operator === '=' && known === 'non-detect'
      ? '<'
      : closed.operator === '=' && known === 'over-detect'
        ? '>'
        : closed.operator
  return {
    ...closed,
    qualifiers,
    operator,
    questions: closed.questions.filter((each) => each.kind !== 'qualifier'),
  }
}

function scaled(result: Result, factor: number): Result {
  const times = (value: number | null): number | null => (value === null ? null : tidyNumber(value * factor))
  return { ...result, value: times(result.value), reportingLimit: times(result.reportingLimit) }
}
