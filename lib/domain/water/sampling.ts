/** When the water is to be tested next, and what stands on the sampling sheet. Due dates are facts; pages compare them with today. */
import { addMonths, type Day } from '@/lib/domain/quantity/day'
import type { WaterEvent } from './events'
import { holdingRow, type LabHolding } from './holding'
import { addHours, dayOfMoment } from './moment'
import { isAfterTreatment } from './point'
import { rangeOf } from './result-range'
import { AGAIN, FREQUENCIES, GROUP_ANALYTES, type TestGroup } from './tables/frequency'
import type { HoldingRow } from './tables/holding'
import type { Moment, Result, Sample } from './types'
import { isSound } from './verdict-result'

export type SampledGroup = Exclude<TestGroup, 'sanitary-inspection'>

/** Months between tests of each group; absent: not asked for. */
export type SamplingPlan = Partial<Record<SampledGroup, number>>

/**
 * Bacteria and nitrate yearly (US EPA, CDC), metals every three years (New Hampshire DES). An outfit may choose oftener: Health
 * Canada asks for bacteria every six months, Lambton Public Health for dug wells every four.
 */
export const PLAN: SamplingPlan = { bacteria: 12, nitrate: 12, metals: 36 }

export type TestDuty = {
  group: SampledGroup
  analytes: readonly string[]
  lastOn: Day | null
  /** Null: never tested, and nobody knows since when the well is there: due now. */
  dueOn: Day | null
  /** What sets the date. */
  basis: 'interval' | 'event' | 'never-tested'
  why: string
  source: string
}

/** What the duties rest on beside samples and events. */
export type DutyContext = {
  /** The day the well was built; null where nobody knows. */
  newOn: Day | null
  /** Holding hours by analyte id, by the laboratory's name. */
  labHolding: Readonly<Record<string, LabHolding>>
}

/**
 * What is to be tested next, one duty a group of the plan or of an event. A sample counts for a group when it has a usable
 * result of one of the group's leading analytes: late, warm or unconfirmed ones count only where they found something. An
 * event after the last sample makes its groups due on the day of the event. A well never tested is due since it was built
 * (New York DOH: the full list when the well is new).
 */
export function testDuties(
  samples: readonly Sample[],
  events: readonly WaterEvent[],
  plan: SamplingPlan,
  context: DutyContext = { newOn: null, labHolding: {} },
): TestDuty[] {
  return (Object.keys(GROUP_ANALYTES) as SampledGroup[]).flatMap((group) => {
    const lastOn = lastTested(group, samples, context)
    const again = againAfter(group, lastOn, events)
    return plan[group] === undefined && again === null
      ? []
      : [dutyOf(group, lastOn, again, plan[group], context.newOn)]
  })
}

type Again = { on: Day; words: string; source: string }

function dutyOf(
  group: SampledGroup,
  lastOn: Day | null,
  again: Again | null,
  months: number | undefined,
  newOn: Day | null,
): TestDuty {
  const base = { group, analytes: GROUP_ANALYTES[group], lastOn }
  const byPlan = lastOn === null || months === undefined ? null : addMonths(lastOn, months)
  if (again && (byPlan === null || again.on < byPlan) && !(lastOn === null && newOn !== null))
    return { ...base, dueOn: again.on, basis: 'event', why: `after ${again.words}`, source: again.source }
  if (byPlan === null)
    return {
      ...base,
      dueOn: newOn,
      basis: 'never-tested',
      why: 'no usable result is on record',
      source: sourceOf(group, months),
    }
  return {
    ...base,
    dueOn: byPlan,
    basis: 'interval',
    why: `every ${months} months`,
    source: sourceOf(group, months),
  }
}

function lastTested(
  group: SampledGroup,
  samples: readonly Sample[],
  { labHolding }: DutyContext,
): Day | null {
  const days = samples
    .filter((sample) =>
      sample.results.some(
        (result) =>
          LEADING[group].includes(result.analyte) && isUsable(result, sample, labHolding[sample.lab] ?? {}),
      ),
    )
    .map((sample) => dayOfMoment(sample.sampledAt))
    .sort()
  return days.at(-1) ?? null
}

/** A result that says something of the well: nothing stands against it, or it found what it looked for. */
function isUsable(result: Result, sample: Sample, lab: LabHolding): boolean {
  if (result.operator === 'none' || result.leftOut !== undefined) return false
  if (isAfterTreatment(sample.point)) return false
  if (rangeOf(result).found) return true
  return !(sample.chlorinated === true && result.analyte.includes('coli')) && isSound(result, sample, lab)
}

/** A group counts as tested by these. */
const LEADING: Readonly<Record<SampledGroup, readonly string[]>> = {
  bacteria: ['total-coliform', 'e-coli'],
  nitrate: ['nitrate', 'nitrate-nitrite'],
  general: ['ph', 'total-dissolved-solids'],
  metals: ['arsenic', 'lead', 'manganese'],
  'radio-and-organics': ['uranium', 'radon', 'benzene', 'pfoa'],
}

/**
 * The first event after the last usable bacteria or nitrate result that can have changed the water; null where there is
 * none, or nothing was ever tested. Older clear results do not speak for the water since.
 */
export function changedSince(
  samples: readonly Sample[],
  events: readonly WaterEvent[],
  context: DutyContext,
): { on: Day; words: string } | null {
  const found = (['bacteria', 'nitrate'] as const).flatMap((group) => {
    const lastOn = lastTested(group, samples, context)
    const again = lastOn === null ? null : againAfter(group, lastOn, events.filter(touchesWater))
    return again ? [{ on: again.on, words: again.words }] : []
  })
  return found.sort((a, b) => (a.on < b.on ? -1 : 1))[0] ?? null
}

/** A sale or a baby asks for a test; the water is the same. */
function touchesWater(event: WaterEvent): boolean {
  return event.kind !== 'test-again' || !(event.event === 'sold' || event.event === 'infant')
}

function againAfter(group: SampledGroup, lastOn: Day | null, events: readonly WaterEvent[]): Again | null {
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
