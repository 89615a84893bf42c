/** When the water is to be tested next, and what stands on the sampling sheet. Due dates are facts; pages compare them with today. */
import { addMonths, type Day } from '@/lib/domain/quantity/day'
import type { WaterEvent } from './events'
import { holdingRow, type LabHolding } from './holding'
import { addHours, dayOfMoment } from './moment'
import { AGAIN, FREQUENCIES, GROUP_ANALYTES, type TestGroup } from './tables/frequency'
import type { HoldingRow } from './tables/holding'
import type { Moment, Sample } from './types'

export type SampledGroup = Exclude<TestGroup, 'sanitary-inspection'>

/** Months between tests of each group; absent: not asked for. */
export type SamplingPlan = Partial<Record<SampledGroup, number>>

/** Bacteria twice a year (Health Canada), nitrate yearly (US EPA, CDC), metals every three years (New Hampshire DES). */
export const PLAN: SamplingPlan = { bacteria: 6, nitrate: 12, metals: 36 }

export type TestDuty = {
  group: SampledGroup
  analytes: readonly string[]
  lastOn: Day | null
  /** Null: never tested, so it is due now. */
  dueOn: Day | null
  why: string
  source: string
}

/**
 * What is to be tested next, one duty a group of the plan or of an event. A sample counts for a group when it has a usable
 * result of one of the group's leading analytes. An event after the last sample makes its groups due on the day of the event.
 */
export function testDuties(
  samples: readonly Sample[],
  events: readonly WaterEvent[],
  plan: SamplingPlan,
): TestDuty[] {
  const groups = (Object.keys(GROUP_ANALYTES) as SampledGroup[]).filter(
    (group) => plan[group] !== undefined || againAfter(group, null, events),
  )
  return groups.map((group) => dutyOf(group, samples, events, plan[group]))
}

function dutyOf(
  group: SampledGroup,
  samples: readonly Sample[],
  events: readonly WaterEvent[],
  months: number | undefined,
): TestDuty {
  const analytes = GROUP_ANALYTES[group]
  const lastOn = lastTested(group, samples)
  const base = { group, analytes, lastOn }
  const again = againAfter(group, lastOn, events)
  if (lastOn === null)
    return {
      ...base,
      dueOn: again?.on ?? null,
      why: 'no result is on record',
      source: sourceOf(group, months),
    }
  if (again && (months === undefined || again.on < addMonths(lastOn, months)))
    return { ...base, dueOn: again.on, why: `after ${again.words}`, source: again.source }
  return {
    ...base,
    dueOn: months === undefined ? lastOn : addMonths(lastOn, months),
    why: months === undefined ? 'tested since' : `every ${months} months`,
    source: sourceOf(group, months),
  }
}

function lastTested(group: SampledGroup, samples: readonly Sample[]): Day | null {
  const leading = LEADING[group]
  const days = samples
    .filter((sample) =>
      sample.results.some(
        (result) =>
          leading.includes(result.analyte) && result.operator !== 'none' && result.leftOut === undefined,
      ),
    )
    .map((sample) => dayOfMoment(sample.sampledAt))
    .sort()
  return days.at(-1) ?? null
}

/** A group counts as tested by these. */
const LEADING: Readonly<Record<SampledGroup, readonly string[]>> = {
  bacteria: ['total-coliform', 'e-coli'],
  nitrate: ['nitrate', 'nitrate-nitrite'],
  general: ['ph', 'total-dissolved-solids'],
  metals: ['arsenic', 'lead', 'manganese'],
  'radio-and-organics': ['uranium', 'radon', 'benzene', 'pfoa'],
}

function againAfter(
  group: SampledGroup,
  lastOn: Day | null,
  events: readonly WaterEvent[],
): { on: Day; words: string; source: string } | null {
  const found = events
    .filter((event) => event.kind === 'test-again')
    .filter((event) => lastOn === null || event.on > lastOn)
    .sort((a, b) => (a.on < b.on ? -1 : 1))
    .map((event) => ({
      on: event.on,
      row: AGAIN.find((row) => row.event === event.event && row.groups.includes(group)),
    }))
    .find((each) => each.row !== undefined)
  return found?.row ? { on: found.on, words: found.row.words, source: found.row.source } : null
}

function sourceOf(group: SampledGroup, months: number | undefined): string {
  const rows = FREQUENCIES.filter((row) => row.group === group)
  const row = rows.find((each) => each.months === months) ?? rows[0]
  return row
    ? `${row.source} (${row.date})${row.seen === 'memory' ? ', from memory' : ''}`
    : 'house rule, no published source'
}

export type Bottle = {
  bottle: string
  container: string
  preservation: string
  maxTempC: number | null
  holdText: string
  holdHours: number
  analytes: readonly string[]
  /** The last moment at which the laboratory can begin in time, less its set-up hours; null where no time of day is known. */
  latestDropOff: Moment | null
  notes: readonly string[]
  source: string
  seen: 'seen' | 'memory'
}

export type SamplingSheet = {
  bottles: readonly Bottle[]
  latestDropOff: Moment | null
  noRule: readonly string[]
}

/**
 * The bottles for a list of analytes and, with the moment of sampling, the latest drop-off. `setupHours`: what the laboratory
 * needs between the counter and the start of the test. Bottles whose clock no laboratory can meet (pH) set no drop-off.
 */
export function samplingSheet(
  analytes: readonly string[],
  sampledAt: Moment | null,
  options: { chlorinated: boolean; labHolding: LabHolding; setupHours: number },
): SamplingSheet {
  const rows = analytes.map((analyte) => ({ analyte, row: holdingRow(analyte, options.chlorinated) }))
  const groups = new Map<string, { row: HoldingRow; analytes: string[] }>()
  for (const { analyte, row } of rows) {
    if (!row) continue
    const key = `${row.bottle}|${row.preservation}|${row.holdText}`
    const group = groups.get(key) ?? { row, analytes: [] }
    groups.set(key, group)
    group.analytes.push(analyte)
  }
  const bottles = [...groups.values()].map((group) => bottleOf(group.row, group.analytes, sampledAt, options))
  const [first] = bottles.flatMap((bottle) => bottle.latestDropOff ?? []).sort()
  const noRule = rows.filter((each) => each.row === undefined).map((each) => each.analyte)
  return { bottles, latestDropOff: first ?? null, noRule }
}

function bottleOf(
  row: HoldingRow,
  analytes: readonly string[],
  sampledAt: Moment | null,
  options: { labHolding: LabHolding; setupHours: number },
): Bottle {
  const holdHours = Math.min(...analytes.map((analyte) => options.labHolding[analyte] ?? row.holdHours))
  const keeps = Math.max(0, holdHours - options.setupHours)
  return {
    bottle: row.bottle,
    container: row.container,
    preservation: row.preservation,
    maxTempC: row.maxTempC,
    holdText: row.holdText,
    holdHours,
    analytes,
    latestDropOff: sampledAt === null || row.flagOnly ? null : addHours(sampledAt, keeps),
    notes: row.note === undefined ? [] : [row.note],
    source: `${row.source}${row.section === undefined ? '' : `, ${row.section}`} (${row.date})`,
    seen: row.seen,
  }
}
