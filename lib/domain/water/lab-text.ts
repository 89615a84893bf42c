/** Reads the result cell of a lab sheet: a number with its mark, or a word. Nothing is guessed. */
import { type NumberLocale, readNumber } from '@/lib/domain/quantity/number-text'
import type { Operator } from './types'

/** What stands in a result cell. `rest` is what followed the number: a unit, a qualifier, or both. */
export type CellReading =
  | { kind: 'number'; operator: '=' | '<' | '>'; value: number; orEqual: boolean; rest: string }
  | {
      kind: 'word'
      operator: Exclude<Operator, '=' | '<' | '>'>
      overRange: boolean
      value: number | null
      rest: string
    }
  | { kind: 'blank' }
  | { kind: 'problem'; message: string }

const NOT_DETECTED =
  /^(?:n\.? ?d\.?|b\.? ?d\.? ?l\.?|b\.? ?r\.? ?l\.?|b\.? ?q\.? ?l\.?|u|not[- ]detected|non[- ]?detect(?:ed)?|none detected|not found|undetected|below (?:the )?(?:method )?(?:detection|reporting|quantitation) (?:limit|level)|bmdl|<? ?(?:mdl|rl|mrl|pql|loq|lod|dl))(?=$|[\s,;(@<])/i
const ABSENT =
  /^(?:absent|absence|neg(?:ative)?\.?|not present|a(?=$|[ ,;(]|\/100)|no (?:growth|coliforms?|bacteria)(?: (?:found|detected))?|satisfactory(?: - absent)?)(?=$|[\s,;(/])/i
const PRESENT = /^(?:present|presence|pos(?:itive)?\.?|detected|p(?=$|[ ,;(]|\/100)|found)(?=$|[\s,;(/])/i
const TOO_MANY =
  /^(?:tntc|too numerous to count|confluent(?: growth)?(?: with(?:out)? coliforms?)?|cg|over ?range)(?=$|[\s,;(])/i
const TRACE =
  /^(?:trace|tr\.?|traces|detected[, ]+not quantified|detected[, ]+below (?:quantitation|reporting) (?:limit|level)|dnq|present below quantification limit)(?=$|[\s,;(])/i
const NO_RESULT =
  /^(?:n\/?a|not (?:analy[sz]ed|tested|reported|requested|run|performed)|na|nt|nr|pending|see (?:note|comment|attached)s?.*|void|rejected|broken|insufficient(?: sample)?|lost|error|unable to measure|invalid|-+|–|—|\*+)$/i
const MARK =
  /^(<=|>=|≤|≥|<|>|≦|≧|less than|greater than|more than|under|over|lt|gt|=|~|≈|about|approx\.?|ca\.?)\s*/i
const RUN = /^(?:\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?![\d.,])|[\d.,]*\d(?:[.,](?!\d))?|[.,]\d+)/

/**
 * Reads a result cell. `locale` says what a comma means on this sheet; where it decides and is null, the cell is a problem
 * that asks. A sign (−0.5), a range (3-5), two numbers, or anything else is a problem with one sentence.
 */
export function readCell(text: string, locale: NumberLocale): CellReading {
  const tidy = text
    .replace(/[\u00a0\u2007\u202f\u2009]/g, ' ')
    .replace(/＜/g, '<')
    .replace(/＞/g, '>')
    .replace(/ +/g, ' ')
    .trim()
  if (tidy === '') return { kind: 'blank' }
  return readWord(tidy, locale) ?? readMarkedNumber(tidy, locale)
}

function readWord(tidy: string, locale: NumberLocale): CellReading | null {
  if (NO_RESULT.test(tidy)) return word('none', '', null)
  const rules: readonly [RegExp, Exclude<Operator, '=' | '<' | '>'>][] = [
    [TRACE, 'trace'],
    [NOT_DETECTED, 'not-detected'],
    [ABSENT, 'absent'],
    [TOO_MANY, 'present'],
    [PRESENT, 'present'],
  ]
  for (const [pattern, operator] of rules) {
    const match = pattern.exec(tidy)
    if (!match) continue
    const rest = tidy.slice(match[0].length).trim()
    const reading = word(operator, rest, operator === 'not-detected' ? numberAfter(rest, locale) : null)
    return pattern === TOO_MANY ? { ...reading, overRange: true } : reading
  }
  return null
}

function word(operator: Exclude<Operator, '=' | '<' | '>'>, rest: string, value: number | null) {
  return { kind: 'word' as const, operator, overRange: false, value, rest: value === null ? rest : '' }
}

/** "ND (0.5)", "ND @ 0.5", "ND <0.5": the limit the lab gives with the word. */
function numberAfter(rest: string, locale: NumberLocale): number | null {
  const match = /^(?:\(|@|at|<|\(<)? ?(?:(?:rl|mdl|mrl|pql|loq|lod|dl) ?[=:]? ?)?([\d.,]*\d)/i.exec(rest)
  if (!match?.[1]) return null
  const reading = readNumber(match[1], locale)
  return reading.kind === 'number' ? reading.value : null
}

function readMarkedNumber(tidy: string, locale: NumberLocale): CellReading {
  const mark = MARK.exec(tidy)
  const operator = operatorOf(mark?.[1] ?? '')
  const body = tidy.slice(mark?.[0].length ?? 0)
  if (/^[-−+]\s*[\d.,]/.test(body))
    return { kind: 'problem', message: `"${tidy}" has a sign; a result has none. Type it as on the sheet.` }
  const run = RUN.exec(body)?.[0]
  if (run === undefined)
    return {
      kind: 'problem',
      message: `"${tidy}" is not a result that can be read: type the number or the word on the sheet.`,
    }
  const after = body.slice(run.length)
  if (
    /^\s*(?:[-–—]|to|\.\.)\s*\d/.test(after) ||
    /^\s*\/\s*\d+(?!\s*0*\s*ml)/i.test(after) ||
    /^\s*(?:±|\+\/-)\s*\d/.test(after)
  )
    return rangeOrUncertainty(tidy, after, run, operator, locale)
  return numberOf(tidy, run, after, operator, locale)
}

function rangeOrUncertainty(
  tidy: string,
  after: string,
  run: string,
  operator: '=' | '<' | '>',
  locale: NumberLocale,
): CellReading {
  const uncertainty = /^\s*(?:±|\+\/-)\s*[\d.,]+/.exec(after)
  if (uncertainty) return numberOf(tidy, run, after.slice(uncertainty[0].length), operator, locale)
  return { kind: 'problem', message: `"${tidy}" holds two numbers: type the one result.` }
}

function numberOf(
  tidy: string,
  run: string,
  after: string,
  operator: '=' | '<' | '>',
  locale: NumberLocale,
): CellReading {
  const reading = readNumber(run, locale)
  if (reading.kind === 'which-comma')
    return {
      kind: 'problem',
      message: `"${tidy}": does the comma or point in ${run} mark decimals or thousands? Choose how this sheet writes numbers.`,
    }
  if (reading.kind !== 'number' || reading.length < run.replace(/[.,]$/, '').length)
    return { kind: 'problem', message: `"${tidy}" is not a number that can be read.` }
  const power = /^\s*(?:[x×*]\s*10\s*\^?\s*([-−+]?\d{1,2})(?![\d.])|e([-+]?\d{1,2})(?![\d.a-z]))/i.exec(after)
  const exponent = power ? Number((power[1] ?? power[2] ?? '0').replace('−', '-')) : 0
  return {
    kind: 'number',
    operator,
    value: exponent === 0 ? reading.value : Number((reading.value * 10 ** exponent).toPrecision(12)),
    orEqual: /[=≤≥≦≧]/.test(MARK.exec(tidy)?.[1] ?? ''),
    rest: after.slice(power?.[0].length ?? 0).trim(),
  }
}

function operatorOf(mark: string): '=' | '<' | '>' {
  if (/^(?:<|≤|≦|less|under|lt)/i.test(mark)) return '<'
  if (/^(?:>|≥|≧|greater|more|over|gt)/i.test(mark)) return '>'
  return '='
}
