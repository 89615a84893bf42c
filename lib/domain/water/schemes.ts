/**
 * Which published limits are in force for a sample on its day, and which wins. Schemes are data (tables/); a limit typed in
 * by the installer with its source replaces the published ones of the same kind for that analyte.
 */
import type { Day } from '@/lib/domain/quantity/day'
import { ANALYTES, findAnalyte } from './analytes'
import {
  EU_COMBINATIONS,
  NEW_YORK_COMBINATIONS,
  US_COMBINATIONS,
  WHO_COMBINATIONS,
} from './tables/combinations'
import { EUROPEAN_UNION } from './tables/limits-eu'
import { NEW_YORK } from './tables/limits-new-york'
import { US_ADVISORIES } from './tables/limits-us-advisories'
import { US_PRIMARY } from './tables/limits-us-primary'
import { US_SCREENING } from './tables/limits-us-screening'
import { US_SECONDARY } from './tables/limits-us-secondary'
import { WHO } from './tables/limits-who'
import type { CombinationRow, LimitKind, LimitRow } from './types'
import { limitInHome } from './units'

export type SchemeId = 'us' | 'us-ny' | 'who' | 'eu'

type Scheme = {
  name: string
  /** The edition a verdict names. */
  edition: string
  /** Rows that replace others of the same kind for their analyte. */
  first: readonly LimitRow[]
  rows: readonly LimitRow[]
  combinations: readonly CombinationRow[]
}

const US_ROWS = [...US_PRIMARY, ...US_SECONDARY, ...US_ADVISORIES, ...US_SCREENING]
const US_EDITION =
  '40 CFR 141 with 89 FR 32532 (2024) and 89 FR 86418 (2024); 40 CFR 143.3 (1991); EPA advisories; USGS screening levels (2023)'

const SCHEMES: Readonly<Record<SchemeId, Scheme>> = {
  us: { name: 'US EPA', edition: US_EDITION, first: [], rows: US_ROWS, combinations: US_COMBINATIONS },
  'us-ny': {
    name: 'New York private wells, over US EPA',
    edition: `NYS DOH Fact Sheet #3 (undated); ${US_EDITION}`,
    first: NEW_YORK,
    rows: US_ROWS,
    combinations: [...US_COMBINATIONS, ...NEW_YORK_COMBINATIONS],
  },
  who: {
    name: 'WHO guideline values',
    edition: 'Guidelines for drinking-water quality, 4th edition with addenda, 2022',
    first: [],
    rows: WHO,
    combinations: WHO_COMBINATIONS,
  },
  eu: {
    name: 'European Union',
    edition: 'Directive (EU) 2020/2184 of 16 December 2020',
    first: [],
    rows: EUROPEAN_UNION,
    combinations: EU_COMBINATIONS,
  },
}

export const SCHEME_IDS: readonly SchemeId[] = ['us', 'us-ny', 'who', 'eu']

/** A scheme's name and edition, as a verdict names them. */
export function schemeTitle(scheme: SchemeId): { name: string; edition: string } {
  const { name, edition } = SCHEMES[scheme]
  return { name, edition }
}

/** A scheme's name as a verdict says it: with a word that limits of the outfit's own took part, where they decided. */
export function schemeWords(
  scheme: SchemeId,
  findings: readonly { decides: boolean; limit: { local: boolean } | null }[],
): string {
  const own = findings.some(({ decides, limit }) => decides && limit?.local === true)
  return own ? `${SCHEMES[scheme].name} with limits of the outfit’s own` : SCHEMES[scheme].name
}

/** A limit the installer typed in, with where it comes from. `unit` as for results ("mg/L as N"). */
export type LocalLimit = {
  analyte: string
  kind: LimitKind
  max: number
  min?: number
  unit: string
  source: string
  date: string
  from?: Day
  until?: Day
}

/** A limit in force, with its bounds in the home unit of the analyte. */
export type AppliedLimit = {
  row: LimitRow
  maxHome: number
  minHome: number | null
  decides: boolean
  local: boolean
}

const toApplied = (row: LimitRow, local: boolean): AppliedLimit => ({
  row,
  maxHome: limitInHome(row.analyte, row.max, row.unit),
  minHome: row.min === undefined ? null : limitInHome(row.analyte, row.min, row.unit),
  decides: row.decides ?? (row.kind === 'health' || row.kind === 'action'),
  local,
})

const isFor = (row: LimitRow, analyteId: string): boolean =>
  row.analyte === analyteId ||
  (row.analyte === 'pesticide-each' &&
    findAnalyte(analyteId)?.family === 'pesticide' &&
    analyteId !== 'pesticides-total')

const inForce = (row: { from?: Day; until?: Day }, on: Day): boolean =>
  (row.from === undefined || row.from <= on) && (row.until === undefined || on < row.until)

/** Health and action limits replace each other; advisories and aesthetic levels stand apart. */
const classOf = (kind: LimitKind): string => (kind === 'action' ? 'health' : kind)

type Layers = { first: readonly AppliedLimit[]; rows: readonly AppliedLimit[] }

/** Every published limit by scheme and analyte, with its bounds in home units, made once. */
const PUBLISHED: Readonly<Record<SchemeId, ReadonlyMap<string, Layers>>> = {
  us: layersOf(SCHEMES.us),
  'us-ny': layersOf(SCHEMES['us-ny']),
  who: layersOf(SCHEMES.who),
  eu: layersOf(SCHEMES.eu),
}

function layersOf(scheme: Scheme): ReadonlyMap<string, Layers> {
  const applied = (rows: readonly LimitRow[], id: string): AppliedLimit[] =>
    rows.filter((row) => isFor(row, id)).map((row) => toApplied({ ...row, analyte: id }, false))
  return new Map(
    ANALYTES.map(({ id }) => [id, { first: applied(scheme.first, id), rows: applied(scheme.rows, id) }]),
  )
}

/**
 * The limits in force for an analyte on a day. Of one kind (health or action; advisory; aesthetic) the first layer that has
 * any counts: local values, then the scheme's own over-riding list, then its base lists.
 * Throws  Error where a local limit has a unit that cannot be read for its analyte (checkLocalLimit says so beforehand).
 */
export function limitsOn(
  scheme: SchemeId,
  analyteId: string,
  on: Day,
  local: readonly LocalLimit[],
): AppliedLimit[] {
  const published = PUBLISHED[scheme].get(analyteId)
  const own = local
    .filter((limit) => limit.analyte === analyteId)
    .map((limit) => toApplied(asRow(limit), true))
  const answers: AppliedLimit[] = []
  for (const layer of [own, published?.first ?? [], published?.rows ?? []]) {
    const taken = new Set(answers.map((each) => classOf(each.row.kind)))
    answers.push(...layer.filter((limit) => inForce(limit.row, on) && !taken.has(classOf(limit.row.kind))))
  }
  return answers
}

/** Published limits of the scheme that come into force after `on`, soonest first. */
export function limitsAfter(scheme: SchemeId, analyteId: string, on: Day): AppliedLimit[] {
  const published = PUBLISHED[scheme].get(analyteId)
  return [...(published?.first ?? []), ...(published?.rows ?? [])]
    .filter((limit) => limit.row.from !== undefined && limit.row.from > on)
    .sort((a, b) => ((a.row.from ?? '') < (b.row.from ?? '') ? -1 : 1))
}

/** The sum rules of a scheme in force on a day. */
export function combinationsOn(scheme: SchemeId, on: Day): CombinationRow[] {
  return SCHEMES[scheme].combinations.filter((row) => inForce(row, on))
}

/** Whether a scheme has any deciding limit for an analyte, on a day. */
export function hasLimit(scheme: SchemeId, analyteId: string, on: Day): boolean {
  return limitsOn(scheme, analyteId, on, []).some((limit) => limit.decides)
}

/** Null when a local limit can be used, or one sentence saying why not. */
export function checkLocalLimit(limit: LocalLimit): string | null {
  if (!findAnalyte(limit.analyte)) return `"${limit.analyte}" is not an analyte known here.`
  if (!(limit.max >= 0)) return 'A limit is a number of zero or more.'
  if (limit.source.trim() === '') return 'Type where the value comes from: a verdict names its source.'
  try {
    limitInHome(limit.analyte, limit.max, limit.unit)
    return null
  } catch (error) {
    if (error instanceof Error) return `${error.message}.`
    throw error
  }
}

function asRow(limit: LocalLimit): LimitRow {
  return { ...limit, seen: 'seen' }
}
