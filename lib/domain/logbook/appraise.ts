import type { FittedByVisit } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import { appraiseDuty } from '@/lib/domain/upkeep/duty-due'
import { slug } from '@/lib/domain/upkeep/keys'
import type { ConditionKind, Duty, DutyStanding, MeterReading } from '@/lib/domain/upkeep/types'
import { trackUsage, type UsageTrack } from '@/lib/domain/upkeep/usage'
import type { WaterStanding } from '@/lib/domain/water/appraise'
import type { YieldStanding } from '@/lib/domain/yield/decline/types'
import { measuredCondition } from './conditions'
import { type CurrentFact, currentFacts, type Entry } from './entries'
import { fittedLines } from './fitted'
import { isOwners, type Matter, openMatters } from './owner-matters'
import type { WellRegister } from './register'
import type { ReckonSettings } from './settings'
import { type SupplyItem, type SupplySummary, supplyItem, supplyStanding } from './supply-standing'
import { testedOn, type WaterItem, waterItems, withWater } from './water-due'
import { waterStanding } from './water-record'
import { summarizeWater, type WaterSummary } from './water-summary'
import { yieldStanding } from './yield-record'
import { summarizeYield, type YieldSummary } from './yield-summary'

/**
 * Edition of the reckoning. Raise it whenever appraise would answer differently for the same
 * register and entries: standings made by an earlier edition are made anew at the next start.
 */
export const EDITION = 18

export type MeterStanding = {
  last: { on: Day; value: number } | null
  /** Readings that were not used, each with the reason. */
  setAside: readonly { id: string; on: Day; why: string }[]
}

type Upkeep = {
  lastVisitOn: Day | null
  duties: (DutyStanding & { id: string })[]
  meters: { hours: MeterStanding; volume: MeterStanding }
  /** Parts that the logbook says were put in: the shelf lost them. */
  fitted: FittedByVisit[]
}

/** Everything reckoned about a well, in full. No clock in it: dates are facts, pages compare them with today. */
export type Reckoning = Upkeep & {
  yield: YieldStanding
  water: WaterStanding
  /** Null where nobody stated what drives the pump. */
  supply: SupplySummary | null
}

/**
 * The part of it that is stored with the well, for lists and for the well's own page. Its duties have heard the water: a lab
 * sheet counts as a test that was done, and a test that is due earlier brings the duty forward.
 */
export type Standing = Upkeep & {
  yield: YieldSummary
  water: WaterSummary
  /** Health items of the water that are no duty of the register; `key` is unique on the well. */
  waterItems: WaterItem[]
  /** What is open between the household and the outfit. */
  matters: Matter[]
  supply: SupplySummary | null
  /** The first short day as something due. */
  supplyItem: SupplyItem | null
}

/** The standing of a well: what is stored of `reckon`. */
export function appraise(
  register: WellRegister,
  entries: readonly Entry[],
  settings: ReckonSettings,
): Standing {
  const facts = currentFacts(entries)
  const { water, ...whole } = reckonFacts(register, facts, settings, 'water too')
  const quiet = register.retiredOn !== null
  return {
    ...whole,
    duties: whole.duties.map((duty) => withWater(duty, water)),
    supplyItem: supplyItem(whole.supply),
    yield: summarizeYield(whole.yield),
    water: summarizeWater(water),
    waterItems: quiet ? [] : waterItems(water, register.duties, register.closed),
    matters: quiet ? [] : openMatters(facts),
  }
}

/**
 * What the register and the logbook together say of a well. Pure: the same input gives the
 * same answer on any day and machine, whatever the order of the entries. `counted`: what counts as a duty done: the work
 * written down, or lab sheets of the same test too.
 */
export function reckon(
  register: WellRegister,
  entries: readonly Entry[],
  settings: ReckonSettings,
  counted: 'work' | 'water too' = 'work',
): Reckoning {
  return reckonFacts(register, currentFacts(entries), settings, counted)
}

function reckonFacts(
  register: WellRegister,
  facts: readonly CurrentFact[],
  settings: ReckonSettings,
  counted: 'work' | 'water too',
): Reckoning {
  const water = waterStanding(facts, settings, register.installedOn)
  const yields = yieldStanding(register, facts, settings)
  const hours = trackUsage(meterReadings(facts, 'hours'))
  const volume = trackUsage(meterReadings(facts, 'volume'))
  const done = workDone(facts, register.duties)
  const duties =
    register.retiredOn === null
      ? register.duties.map((duty) => ({
          id: duty.id,
          ...appraiseDuty(
            duty,
            [...(done.get(duty.key) ?? []), ...(counted === 'work' ? [] : sheetDays(duty.key, water))],
            { hours, volume },
            register.closed,
            measuredCondition(duty, {
              register,
              facts,
              doneOn: done.get(duty.key) ?? [],
              capacityM2PerS: yields.capacity?.m2PerS ?? null,
            }),
            register.installedOn,
          ),
        }))
      : []
  return {
    lastVisitOn: lastVisit(facts),
    duties,
    meters: {
      hours: meterStanding(hours, keptReadings(facts, 'hours')),
      volume: meterStanding(volume, keptReadings(facts, 'volume')),
    },
    fitted: fittedLines(facts),
    yield: yields,
    supply: supplyStanding(register, facts, yields),
    water,
  }
}

function sheetDays(key: string, water: WaterStanding): Day[] {
  const on = testedOn(key, water)
  return on === null ? [] : [on]
}

/** Days on which each duty was done, by duty key, oldest first. Fitting events count as the work they are. */
export function workDone(facts: readonly CurrentFact[], duties: readonly Duty[]): Map<string, Day[]> {
  const fulfilled = fulfilledBy(duties)
  const done = new Map<string, Day[]>()
  const add = (key: string, on: Day) => {
    const days = done.get(key)
    if (!days) done.set(key, [on])
    else if (days.at(-1) !== on) days.push(on)
  }
  for (const { fact, on } of facts) {
    if (fact.kind === 'service-done') for (const duty of fact.duties) add(slug(duty), on)
    if (fact.kind === 'event') for (const key of fulfilled(fact.event)) add(key, on)
    if (fact.kind === 'valve-test') for (const key of fulfilled('valve-test')) add(key, on)
  }
  return done
}

/**
 * The duties that a fitting event fulfils: those that wait for the part's measured condition, and those whose
 * name says that the part is changed. A mere check of the brushes is not among them.
 */
function fulfilledBy(duties: readonly Duty[]): (event: string) => readonly string[] {
  const keys = (kind: ConditionKind, name: RegExp) =>
    duties.filter((duty) => duty.condition?.kind === kind || name.test(duty.key)).map((duty) => duty.key)
  const byEvent: Record<string, readonly string[]> = {
    'cartridge-changed': keys('pressure_drop', /cartridge/),
    'valve-test': duties.filter((duty) => /(test|check).*valve/.test(duty.key)).map((duty) => duty.key),
    'brushes-changed': keys('brush_length', /(replace|change|renew).*brush/),
  }
  return (event) => byEvent[event] ?? []
}

/** The readings of one meter in time order, with its replacements. */
export function meterReadings(facts: readonly CurrentFact[], meter: 'hours' | 'volume'): MeterReading[] {
  const readings: MeterReading[] = []
  for (const { fact, on, id } of facts) {
    // "Keep it as written, and do not reckon with it": the reader's own word; see keptReadings.
    if (fact.kind === 'meter-reading' && fact.meter === meter && fact.explained !== 'kept') {
      readings.push({ on, value: fact.reading.si, id, explained: fact.explained })
    }
    if (fact.kind === 'event' && fact.event === 'meter-replaced' && (fact.meter ?? meter) === meter) {
      readings.push({
        on,
        value: fact.newReading?.si ?? 0,
        id,
        explained: 'replaced',
        replacedFrom: fact.oldReading?.si ?? null,
        replacedTo: fact.newReading?.si ?? null,
      })
    }
  }
  return readings
}

function meterStanding(track: UsageTrack, kept: MeterStanding['setAside']): MeterStanding {
  return { last: track.last, setAside: [...track.setAside, ...kept] }
}

/** Odd readings that were looked at twice and kept as written: in the logbook, and not reckoned with. */
function keptReadings(facts: readonly CurrentFact[], meter: 'hours' | 'volume'): MeterStanding['setAside'] {
  return facts.flatMap(({ fact, on, id }) =>
    fact.kind === 'meter-reading' && fact.meter === meter && fact.explained === 'kept'
      ? [{ id, on, why: 'It was looked at twice, kept as written, and is not reckoned with.' }]
      : [],
  )
}

/**
 * Notes and inspections count as visits; so does anything else that somebody of the outfit went there to write. What a
 * household writes is no visit, and neither is an answer to it.
 */
function lastVisit(facts: readonly CurrentFact[]): Day | null {
  const visited = facts.findLast((line) => !isOwners(line) && !ANSWERS.includes(line.fact.kind))
  return visited?.on ?? null
}

const ANSWERS: readonly CurrentFact['fact']['kind'][] = [
  'visit-request',
  'visit-answer',
  'confirmation',
  'owner-answer',
]
