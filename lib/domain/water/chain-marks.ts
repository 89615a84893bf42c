/** What each sample says to each chain: positive, clear, or neither. */
import { findAnalyte } from './analytes'
import type { LabHolding } from './holding'
import { dayOfMoment } from './moment'
import { isAfterTreatment } from './point'
import type { AppliedLimit } from './schemes'
import type { Sample } from './types'
import { judgeResult } from './verdict-result'
import type { Finding } from './verdict-types'

/** A chain's key: 'bacteria', 'nitrate', or the id of another substance. */
export type ChainKey = string

export type Mark = {
  chain: ChainKey
  on: string
  sampleId: string
  state: 'positive' | 'clear'
  analytes: readonly string[]
  /** The sheet says that no chlorine was in the water. */
  chlorineFree: boolean
}

const NITROGEN_KEYS = new Set(['nitrate', 'nitrite', 'nitrate-nitrite', 'nitrate-nitrite-ratio'])
const FECAL_AND_COLIFORM = ['total-coliform', 'e-coli', 'fecal-coliform', 'enterococci']

/** None in 100 mL, whatever the scheme says: a household chain opens on any of these bacteria. */
const NONE_ALLOWED: AppliedLimit = {
  row: {
    analyte: 'total-coliform',
    kind: 'health',
    max: 0,
    unit: 'per 100 mL',
    source: 'house rule',
    date: 'undated',
    seen: 'seen',
  },
  maxHome: 0,
  minHome: null,
  decides: true,
  local: false,
}

/**
 * The marks of one judged sample. A late, warm or unclear sample gives a positive where bacteria were found, but never a
 * clear. E. coli alone is not clear for the whole: total coliform covers it, not the other way round. What was taken after
 * treatment, and bacteria of which nobody knows when the laboratory had them, can be positive and never clear.
 */
export function marksOf(sample: Sample, findings: readonly Finding[], lab: LabHolding): Mark[] {
  const marks = [...bacteriaMarks(sample, lab), ...substanceMarks(sample, findings)]
  return marks.filter((mark) => mark.state === 'positive' || whyNotClearing(sample, mark.chain) === null)
}

/** Why a clear result of this sample clears no chain of that kind; null where it may. One sentence's end. */
export function whyNotClearing(sample: Sample, chain: ChainKey): string | null {
  if (isAfterTreatment(sample.point))
    return 'it was taken after treatment, and says nothing of the well: take the next one before any treatment'
  if (chain !== 'bacteria') return null
  if (sample.chlorinated === true) return 'chlorine was in the water'
  if (sample.receivedAt === null && sample.analysedAt === null)
    return 'the sheet does not say when the laboratory received it: ask the laboratory and correct the sheet'
  return null
}

function bacteriaMarks(sample: Sample, lab: LabHolding): Mark[] {
  const judged = sample.results
    .filter((result) => FECAL_AND_COLIFORM.includes(result.analyte))
    .map((result) => ({
      analyte: result.analyte,
      verdict: judgeResult(result, NONE_ALLOWED, sample, lab).verdict,
    }))
  const positive = judged.filter((each) => each.verdict === 'exceeds').map((each) => each.analyte)
  const mark = {
    chain: 'bacteria',
    on: dayOfMoment(sample.sampledAt),
    sampleId: sample.id,
    chlorineFree: sample.chlorinated === false,
  }
  if (positive.length > 0) return [{ ...mark, state: 'positive', analytes: [...new Set(positive)] }]
  const total = judged.filter((each) => each.analyte === 'total-coliform')
  const clear = total.length > 0 && judged.every((each) => each.verdict === 'meets')
  return clear ? [{ ...mark, state: 'clear', analytes: ['total-coliform'] }] : []
}

function substanceMarks(sample: Sample, findings: readonly Finding[]): Mark[] {
  const deciding = findings.filter(
    (each) => each.decides && each.limit !== null && !FECAL_AND_COLIFORM.includes(each.analyte),
  )
  const keys = [...new Set(deciding.map((each) => keyOf(each.analyte)))]
  return keys.flatMap((chain): Mark[] => {
    const own = deciding.filter((each) => keyOf(each.analyte) === chain && each.reason !== 'part-missing')
    const above = own.filter((each) => each.verdict === 'exceeds')
    const mark = {
      chain,
      on: dayOfMoment(sample.sampledAt),
      sampleId: sample.id,
      chlorineFree: sample.chlorinated === false,
    }
    if (above.length > 0)
      return [
        { ...mark, state: 'positive' as const, analytes: [...new Set(above.map((each) => each.analyte))] },
      ]
    const clear = own.length > 0 && own.every((each) => each.verdict === 'meets')
    return clear ? [{ ...mark, state: 'clear' as const, analytes: own.map((each) => each.analyte) }] : []
  })
}

function keyOf(analyte: string): ChainKey {
  return NITROGEN_KEYS.has(analyte) ? 'nitrate' : analyte
}

/** A chain's name in plain words. */
export function chainName(key: ChainKey): string {
  if (key === 'bacteria') return 'Bacteria'
  return key === 'nitrate' ? 'Nitrate' : (findAnalyte(key)?.name ?? key)
}
