/**
 * The words and shapes of the water room: what an analyte, a limit, a result and a verdict are.
 * Amounts are held in one unit an analyte (its "home" unit, see tables/analytes-*); what was typed stays beside them.
 */
import type { Day } from '@/lib/domain/quantity/day'

/** 'seen': the value was read in the source named (or in the copy named in `via`); 'memory': it was recalled and must be confirmed. */
export type Seen = 'seen' | 'memory'

/** Where a value comes from. `date` is a year, a day, 'undated', or 'in force' for a consolidated regulation. */
export type Sourced = { source: string; section?: string; date: string; seen: Seen; via?: string }

export type Family =
  | 'bacteria'
  | 'nitrogen'
  | 'metal'
  | 'ion'
  | 'general'
  | 'organic'
  | 'pesticide'
  | 'pfas'
  | 'radionuclide'

/** One unit form an analyte is reported in: `factor` × value in that form = value in the home form. */
export type Form = { form: string; factor: number; marks: readonly string[] }

export type Analyte = {
  id: string
  name: string
  family: Family
  /** The unit amounts are held in. */
  home: string
  /** How amounts of this analyte may be written: mass in a volume, a count, an activity ... */
  measure: Measure
  /** The lowest and the highest value usual in well water, in the home unit: values 1000 times outside are asked about. House figures, no published source. */
  usual: readonly [number, number] | null
  cas: string | null
  casSeen?: Seen
  /** The characteristic name in the EPA WQX list (wqx 3.0 domain list), where there is one. */
  wqx: string | null
  /** Names on lab sheets that mean this analyte and nothing else. */
  synonyms: readonly string[]
  /** Forms, where a number means different amounts in different forms; the first is the home form. */
  forms?: readonly Form[]
}

export type Measure =
  | 'mass'
  | 'count'
  | 'activity'
  | 'conductance'
  | 'turbidity'
  | 'colour'
  | 'odour'
  | 'ph'
  | 'ratio'

export type LimitKind = 'health' | 'action' | 'advisory' | 'aesthetic'

/** One published limit. A value above `max` (or under `min`) is an exceedance; at the limit it is not. */
export type LimitRow = Sourced & {
  analyte: string
  kind: LimitKind
  max: number
  min?: number
  /** As published; `max` and `min` are in this unit. */
  unit: string
  basis?: string
  status?: string
  /** First day in force, and first day no longer in force. Absent: open. */
  from?: Day
  until?: Day
  /** Whether an exceedance makes the whole sample "exceeds". Absent: health and action limits do, others do not. */
  decides?: boolean
}

/** A limit on a sum of parts, each divided by its own value: Σ value/divisor ≤ max. */
export type CombinationRow = Sourced & {
  id: string
  name: string
  kind: LimitKind
  parts: readonly { analyte: string; divisor: number; unit: string }[]
  max: number
  unit: string
  /** The rule is about mixtures: it holds where at least this many parts are found. */
  mixtureOf?: number
  basis?: string
  status?: string
  from?: Day
  until?: Day
}

/** How a result reads. 'absent' and 'present' are words without a count; 'trace' is found but not measured. */
export type Operator = '=' | '<' | '>' | 'absent' | 'present' | 'not-detected' | 'trace' | 'none'

export type Question = {
  kind: 'form' | 'scale' | 'number' | 'zero' | 'unit' | 'analyte' | 'qualifier' | 'limit'
  /** One sentence for the person who has the sheet in hand. */
  ask: string
  options?: readonly string[]
}

export type QualifierClass =
  | 'pass'
  | 'non-detect'
  | 'over-detect'
  | 'suspect'
  | 'late'
  | 'warm'
  | 'rejected'
  | 'unknown'
export type QualifierReading = {
  code: string
  meaning: string
  class: QualifierClass
  conflict: string | null
}

/** A result as the lab wrote it, and what it says in the analyte's home unit. */
export type Result = {
  analyte: string
  operator: Operator
  /** In the home unit: the value, or the bound of '<' and '>'. Null for words without a number. */
  value: number | null
  unit: string
  /** In the home unit, where the sheet gives one. */
  reportingLimit: number | null
  qualifiers: readonly QualifierReading[]
  /** The count unit of a bacteria result as written (MPN and CFU are kept apart and judged alike). */
  countUnit: string | null
  /** When the form (as N, as NO3) is not on the sheet: the factors to the home unit that are possible. */
  formFactors: readonly number[] | null
  typed: {
    analyte: string
    result: string
    unit: string
    reportingLimit: string
    qualifier: string
    method: string
  }
  /** Open questions: until they are answered the result cannot help a sample to "meets". */
  questions: readonly Question[]
  /** Why the result is left out of judgment ("bottle broken"); a result left out is never a pass. */
  leftOut?: string
}

export type VerdictWord = 'meets' | 'exceeds' | 'inconclusive' | 'not-tested'

/** 'YYYY-MM-DD' or 'YYYY-MM-DDTHH:MM', local time as on the sheet. */
export type Moment = string

/** One bottle set from one point at one time, with its results. */
export type Sample = {
  id: string
  sampledAt: Moment
  receivedAt: Moment | null
  analysedAt: Moment | null
  receivedTempC: number | null
  lab: string
  point: string
  /** Chlorinated water has other holding times and hides bacteria. Null: not said. */
  chlorinated: boolean | null
  /** True where the owner entered the sheet and nobody of the outfit has confirmed it: it can warn, never clear. */
  unconfirmed?: boolean
  results: readonly Result[]
  /** What was ordered or stood on the sheet; each must have a result before the sample can be "meets". */
  asked: readonly string[]
  /** Rows of the sheet that could not be read, as typed, each with what is wrong and what to do. */
  unread: readonly { text: string; why: string }[]
}
