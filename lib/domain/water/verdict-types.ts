/** The shapes of a verdict: by analyte (finding) and by sample. */
import type { Day } from '@/lib/domain/quantity/day'
import type { AppliedLimit, SchemeId } from './schemes'
import type { CombinationRow, LimitKind, Result, Seen, VerdictWord } from './types'

export type ReasonCode =
  | 'at-or-below'
  | 'above'
  | 'below-minimum'
  | 'not-found'
  | 'found'
  | 'reporting-limit-above-limit'
  | 'reporting-limit-unknown'
  | 'above-measuring-range'
  | 'presence-without-count'
  | 'trace'
  | 'form-not-said'
  | 'late'
  | 'warm'
  | 'suspect'
  | 'rejected'
  | 'open-question'
  | 'left-out'
  | 'no-result'
  | 'not-asked'
  | 'unread'
  | 'part-missing'
  | 'mixture-unsure'
  | 'no-limit'
  | 'outdated'
  | 'unconfirmed'
  | 'after-treatment'
  | 'chlorinated'

/** The limit a finding was judged by, as it is shown beside it. */
export type ShownLimit = {
  max: number
  min: number | null
  unit: string
  kind: LimitKind
  source: string
  section: string | null
  date: string
  seen: Seen
  via: string | null
  status: string | null
  basis: string | null
  from: Day | null
  until: Day | null
  local: boolean
}

export type Finding = {
  /** Analyte id, or the id of a sum rule. */
  analyte: string
  name: string
  verdict: VerdictWord | 'no-limit'
  reason: ReasonCode
  /** One sentence. */
  why: string
  /** Whether this finding counts for the verdict of the whole sample. */
  decides: boolean
  limit: ShownLimit | null
  /** In the home unit: what was measured, as bounds. Null where there is no number. */
  measured: { low: number; high: number | null; unit: string; typed: string } | null
  cautions: readonly string[]
  /** A stricter limit that comes into force later and would be exceeded. */
  later: { from: Day; max: number; unit: string } | null
}

export type SampleVerdict = {
  sampleId: string
  verdict: VerdictWord
  scheme: SchemeId
  edition: string
  asOf: Day
  findings: readonly Finding[]
  /** The water was treated before it was taken: what it says is not said of the well. */
  afterTreatment: boolean
  /** Analytes that must be tested for "meets" and were not, or not usably. */
  notTested: readonly string[]
}

/** A limit as shown beside a finding. */
export function showLimit(limit: AppliedLimit): ShownLimit {
  return { ...shownSource(limit.row), max: limit.row.max, min: limit.row.min ?? null, local: limit.local }
}

/** A sum rule as shown beside a finding. */
export function showCombination(row: CombinationRow): ShownLimit {
  return { ...shownSource(row), max: row.max, min: null, local: false }
}

function shownSource(row: AppliedLimit['row'] | CombinationRow): Omit<ShownLimit, 'max' | 'min' | 'local'> {
  return {
    unit: row.unit,
    kind: row.kind,
    source: row.source,
    section: row.section ?? null,
    date: row.date,
    seen: row.seen,
    via: row.via ?? null,
    status: row.status ?? null,
    basis: row.basis ?? null,
    from: row.from ?? null,
    until: row.until ?? null,
  }
}

/** The worse of two words; "exceeds" is worst, then "inconclusive", then "not-tested". */
export function worseWord(a: VerdictWord, b: VerdictWord): VerdictWord {
  return RANK[a] >= RANK[b] ? a : b
}

/** For ordering: 0 meets, 1 not tested, 2 inconclusive, 3 exceeds. */
export const RANK: Readonly<Record<VerdictWord, number>> = {
  meets: 0,
  'not-tested': 1,
  inconclusive: 2,
  exceeds: 3,
}

/** What was measured, for a finding: null where a result has neither number nor bound. */
export function shownMeasure(result: Result, low: number, high: number): Finding['measured'] {
  if (result.operator === 'none') return null
  const typed = [result.typed.result.trim(), result.typed.unit.trim()].filter((part) => part !== '').join(' ')
  return { low, high: Number.isFinite(high) ? high : null, unit: result.unit, typed }
}
