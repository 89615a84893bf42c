/** The lines of the command line reckoning: one JSON object a well, or a well and a day. */
import { type Reckoning, reckon } from '@/lib/domain/logbook/appraise'
import type { Entry } from '@/lib/domain/logbook/entries'
import type { WellRegister } from '@/lib/domain/logbook/register'
import { RECKON_SETTINGS } from '@/lib/domain/logbook/settings'
import { supplyItem } from '@/lib/domain/logbook/supply-standing'
import type { Day } from '@/lib/domain/quantity'
import type { WaterStanding } from '@/lib/domain/water/appraise'
import type { YieldStanding } from '@/lib/domain/yield/decline/types'
import type { FolderWell } from './folder'

export type ReckonOptions = {
  /** What is dated later is left aside; null takes everything. */
  asOf: Day | null
  /** A line for every day on which the well has an entry, each from what was recorded up to that day. */
  replay: boolean
}

/** The lines of a folder of wells, in the order of the wells and, with `replay`, of their days. */
export function* reckonLines(
  wells: readonly FolderWell[],
  { asOf, replay }: ReckonOptions,
): Generator<string> {
  for (const { label, register, entries } of wells) {
    const known = asOf === null ? entries : entries.slice(0, countUpTo(entries, asOf))
    if (!replay) yield lineOf(label, null, registerAsOf(register, asOf), known)
    else yield* replayLines(label, register, known)
  }
}

function* replayLines(label: string, register: WellRegister, entries: readonly Entry[]): Generator<string> {
  for (let end = 0; end < entries.length; ) {
    const day = entries[end]?.occurredOn ?? ''
    while (entries[end]?.occurredOn === day) end += 1
    yield lineOf(label, day, registerAsOf(register, day), entries.slice(0, end))
  }
}

/** The contract of the command: its keys and their order. */
function lineOf(label: string, asOf: Day | null, register: WellRegister, entries: readonly Entry[]): string {
  const standing = reckon(register, entries, RECKON_SETTINGS)
  return JSON.stringify({
    well: label,
    ...(asOf === null ? {} : { asOf }),
    duties: dueParts(standing),
    yield: yieldPart(standing.yield),
    water: waterPart(standing.water),
  })
}

/** The duties, and the first short day where the files say what drives the pump. */
function dueParts({ duties, supply }: Reckoning) {
  const item = supplyItem(supply)
  return [...duties, ...(item ? [item] : [])].map(({ name, due, basis, from, to }) => ({
    duty: name,
    due,
    basis,
    from,
    to,
  }))
}

/** Specific capacity is told in L/s for each metre of drawdown. */
const L_PER_M3 = 1000

function yieldPart(standing: YieldStanding) {
  const { capacity, baseline, trend, outlook } = standing
  const date = (at: YieldStanding['outlook']['to75Percent']) =>
    at && { date: at.on, low: at.low, high: at.high }
  return {
    tests: standing.tests,
    capacity: capacity && { value: rounded(capacity.m2PerS * L_PER_M3), unit: 'L/s/m', on: capacity.on },
    baseline: baseline && { value: rounded(baseline.m2PerS * L_PER_M3), since: baseline.since },
    trend:
      trend.kind === 'too-few'
        ? null
        : {
            perYear: rounded(trend.perYear),
            low: rounded(trend.low),
            high: rounded(trend.high),
            p: trend.p,
            method: trend.method,
          },
    suspicion: standing.suspicion,
    flag: standing.flag,
    cause: standing.cause,
    outlook: { to75Percent: date(outlook.to75Percent), belowDemand: date(outlook.belowDemand) },
  }
}

/**
 * A well whose files hold no sample is one whose water was not tested; that is said in full. A clear test from before a
 * flood or an opening says nothing of the water since: `next` says what to test and why.
 */
function waterPart(standing: WaterStanding) {
  const outrun = standing.verdict === 'meets' && standing.changed !== null
  return {
    verdict: outrun ? 'not-tested' : standing.verdict,
    scheme: standing.schemeName,
    asOf: standing.asOf,
    findings: standing.findings.map(({ analyte, verdict, why, sampledOn, measured, limit }) => ({
      analyte,
      verdict,
      why,
      sampledOn,
      result: measured?.typed || null,
      limit: limit && { max: limit.max, unit: limit.unit, source: limit.source, date: limit.date },
    })),
    next: standing.next.map(({ text }) => text),
  }
}

const rounded = (value: number) => Number(value.toPrecision(6))

/** The register as somebody could have known it on a day: later dates in it were not known yet. */
function registerAsOf(register: WellRegister, asOf: Day | null): WellRegister {
  if (asOf === null) return register
  const known = (day: Day | null) => (day !== null && day > asOf ? null : day)
  return {
    ...register,
    installedOn: known(register.installedOn),
    retiredOn: known(register.retiredOn),
    supplySide: register.supplySide && register.supplySide.facts.setOn <= asOf ? register.supplySide : null,
    duties: register.duties.map((duty) => ({ ...duty, lastDoneOn: known(duty.lastDoneOn) })),
  }
}

/** How many of the entries, which are in order of day, are of that day or before. */
function countUpTo(entries: readonly Entry[], day: Day): number {
  const later = entries.findIndex(({ occurredOn }) => occurredOn > day)
  return later < 0 ? entries.length : later
}
