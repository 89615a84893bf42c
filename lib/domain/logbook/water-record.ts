import type { Day } from '@/lib/domain/quantity/day'
import { appraiseWater, type WaterStanding } from '@/lib/domain/water/appraise'
import type { WaterEvent } from '@/lib/domain/water/events'
import type { InspectionRecord } from '@/lib/domain/water/inspection-record'
import type { Sample } from '@/lib/domain/water/types'
import type { CurrentFact } from './entries'
import type { Fact } from './kinds'
import type { ReckonSettings } from './settings'
import { sampleOf } from './water-sample'

/**
 * What the logbook says of a well's water, by the scheme and the local limits of the settings. `newOn`: the day the well was
 * built. Pure, like appraise.
 */
export function waterStanding(
  facts: readonly CurrentFact[],
  { water }: Pick<ReckonSettings, 'water'>,
  newOn: Day | null,
): WaterStanding {
  const samples = facts.flatMap(({ fact, id }) =>
    fact.kind === 'sample' ? [taken(sampleOf(fact, id), water)] : [],
  )
  return appraiseWater(samples, facts.flatMap(eventsOf), water, {
    inspections: facts.flatMap(inspectionsOf),
    newOn,
  })
}

/** A sheet of a household as the settings take it: where they trust it, it counts like one of the outfit. */
function taken(sample: Sample, { ownerSheetsCount }: ReckonSettings['water']): Sample {
  return ownerSheetsCount && sample.unconfirmed ? trusted(sample) : sample
}

/** Held as long as the sheet: verdicts are kept by sample. */
const TRUSTED = new WeakMap<Sample, Sample>()

function trusted(sample: Sample): Sample {
  const known = TRUSTED.get(sample)
  if (known) return known
  const made = { ...sample, unconfirmed: false }
  TRUSTED.set(sample, made)
  return made
}

/** The chains that a lab sheet alone would open. */
export function positiveFor(
  fact: Extract<Fact, { kind: 'sample' }>,
  id: string,
  { water }: Pick<ReckonSettings, 'water'>,
): string[] {
  return appraiseWater([sampleOf(fact, id)], [], water).chains.map(({ key }) => key)
}

function inspectionsOf({ fact, id, on }: CurrentFact): InspectionRecord[] {
  return fact.kind === 'sanitary-inspection' ? [{ id, on, form: fact.form, answers: fact.answers }] : []
}

/** What a line of the logbook means to the water: a step of a chain, or a reason to test again. */
function eventsOf({ fact, on, byName }: CurrentFact): WaterEvent[] {
  const by = byName ?? ''
  if (fact.kind === 'water-step') return stepEvents(fact, on, by)
  if (fact.kind === 'event') return happenings(fact.event, on, by)
  // Work done under that name counts; its dose is not written down in it.
  if (fact.kind === 'service-done' && fact.duties.some((key) => DISINFECTION.test(key)))
    return [{ kind: 'disinfected', on, by, targetMgL: null, contactHours: null }]
  return []
}

/** A duty that is the disinfection of the well, and not of a lamp or a tank. */
const DISINFECTION = /^(?:well-)?(?:shock-)?(?:disinfect|chlorinat)/

const S_PER_H = 3600
const CHLORINE_GONE = { yes: true, no: false, 'not-tested': null } as const

function stepEvents(fact: Extract<Fact, { kind: 'water-step' }>, on: Day, by: string): WaterEvent[] {
  switch (fact.step) {
    case 'notice':
      return [{ kind: 'notice', on, by, notice: fact.notice, ...about(fact.chain) }]
    case 'disinfected':
      return [
        {
          kind: 'disinfected',
          on,
          by,
          targetMgL: fact.targetMgL ?? null,
          contactHours: fact.contact ? fact.contact.si / S_PER_H : null,
        },
      ]
    case 'flushed':
      return [{ kind: 'flushed', on, by, chlorineGone: CHLORINE_GONE[fact.chlorineGone] }]
    case 'remedied':
      return [{ kind: 'remedied', on, by, what: fact.what, ...about(fact.chain) }]
    case 'well-repaired':
      return [
        { kind: 'well-repaired', on, by, what: fact.what },
        { kind: 'test-again', on, event: 'opened' },
      ]
    case 'chain-closed':
      return [{ kind: 'chain-closed', on, by: fact.by, reason: fact.reason, ...about(fact.chain) }]
    case 'test-again':
      return [{ kind: 'test-again', on, event: fact.event }]
  }
}

const about = (chain: string | undefined) => (chain === undefined ? {} : { chain })

/** Events of upkeep that the water feels: a flood, and everything that opened the well. */
function happenings(event: Extract<Fact, { kind: 'event' }>['event'], on: Day, by: string): WaterEvent[] {
  switch (event) {
    case 'flooded':
      return [{ kind: 'test-again', on, event: 'flooded' }]
    case 'pump-replaced':
    case 'rehabilitated':
      return [{ kind: 'test-again', on, event: 'opened' }]
    case 'rebuilt':
      return [
        { kind: 'well-repaired', on, by, what: 'rebuilt' },
        { kind: 'test-again', on, event: 'opened' },
      ]
    default:
      return []
  }
}
