/** The sanitary inspection: score, class, and the combined reading with E. coli. All cut-offs from memory (tables/sanitary.ts). */
import { rangeOf } from './result-range'
import { COLI_CLASSES, type RiskClass, type SanitaryForm, SCORE_CLASSES } from './tables/sanitary'
import type { Result } from './types'

/** 'yes' is a risk present. 'not-applicable' leaves the form; 'not-sure' is not "no". */
export type InspectionAnswer = 'yes' | 'no' | 'not-applicable' | 'not-sure'

export type Inspection =
  | {
      kind: 'scored'
      yes: number
      asked: number
      /** The score as of ten questions, lowest and highest: each "not sure" could be a yes. */
      ofTen: { low: number; high: number }
      risk: { low: RiskClass; high: RiskClass }
      seen: 'memory'
    }
  | { kind: 'too-few'; have: number; need: number }

/** At least this share of the form must be answered. House rule, no published source. */
const NEEDED_SHARE = 0.75

/** Scores a form; `answers` in the order of its questions, null for one not answered. */
export function inspect(form: SanitaryForm, answers: readonly (InspectionAnswer | null)[]): Inspection {
  const given = form.questions.map((_, index) => answers[index] ?? null)
  const applicable = given.filter((answer) => answer !== 'not-applicable')
  const answered = applicable.filter((answer) => answer !== null).length
  const need = Math.ceil(applicable.length * NEEDED_SHARE)
  if (answered < need || answered === 0) return { kind: 'too-few', have: answered, need: Math.max(1, need) }
  const yes = applicable.filter((answer) => answer === 'yes').length
  const open = applicable.filter((answer) => answer === 'not-sure' || answer === null).length
  const ofTen = { low: (10 * yes) / applicable.length, high: (10 * (yes + open)) / applicable.length }
  return {
    kind: 'scored',
    yes,
    asked: applicable.length,
    ofTen,
    risk: { low: classOf(ofTen.low, SCORE_CLASSES), high: classOf(ofTen.high, SCORE_CLASSES) },
    seen: 'memory',
  }
}

/** The class of a score: rounded half up to whole points, as the form counts them. */
function classOf(value: number, classes: readonly { upTo: number; risk: RiskClass }[]): RiskClass {
  return classes.find((row) => Math.round(value) <= row.upTo)?.risk ?? 'very-high'
}

export type CombinedRisk =
  | {
      kind: 'risk'
      risk: RiskClass
      action: string
      because: 'inspection' | 'bacteria' | 'both'
      seen: 'memory'
    }
  | { kind: 'cannot-say'; why: string }

const RISK_ORDER: readonly RiskClass[] = ['low', 'intermediate', 'high', 'very-high']
const ACTIONS: Readonly<Record<RiskClass, string>> = {
  low: 'no action',
  intermediate: 'low priority for action',
  high: 'higher priority for action',
  'very-high': 'urgent action',
}

/** The worse of the two classes. Bacteria found without a count, or a test that could see too little, cannot be classed. */
export function combinedRisk(inspection: Inspection, coli: Result | null): CombinedRisk {
  if (inspection.kind !== 'scored')
    return { kind: 'cannot-say', why: `only ${inspection.have} of ${inspection.need} answers needed` }
  if (coli === null) return { kind: 'cannot-say', why: 'no E. coli result' }
  const byColi = coliClass(coli)
  if (byColi === null)
    return { kind: 'cannot-say', why: 'the E. coli result has no count that can be classed' }
  const byForm = inspection.risk.high
  const [a, b] = [RISK_ORDER.indexOf(byForm), RISK_ORDER.indexOf(byColi)]
  const risk = a >= b ? byForm : byColi
  return {
    kind: 'risk',
    risk,
    action: ACTIONS[risk],
    because: a === b ? 'both' : a > b ? 'inspection' : 'bacteria',
    seen: 'memory',
  }
}

/** The class of an E. coli result; null where the bounds of the result fall into different classes. */
export function coliClass(coli: Result): RiskClass | null {
  const { low, high, found } = rangeOf(coli)
  if (!found) return high <= 1.1 ? 'low' : null
  if (coli.operator === 'present' || coli.operator === 'trace') return null
  const at = (value: number): RiskClass => COLI_CLASSES.find((row) => value <= row.upTo)?.risk ?? 'very-high'
  return at(low) === at(high) ? at(low) : null
}
