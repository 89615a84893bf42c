import type { Day } from '@/lib/domain/quantity/day'
import { appraiseYield } from '@/lib/domain/yield/decline/appraise'
import type { YieldEvent, YieldStanding, YieldVisit } from '@/lib/domain/yield/decline/types'
import { fitRecovery } from '@/lib/domain/yield/tests'
import type { CurrentFact } from './entries'
import { NO_EQUIPMENT } from './equipment'
import { evidenceOf, pumpStanding } from './pump-standing'
import type { WellRegister } from './register'
import type { ReckonSettings } from './settings'
import { fillingArea } from './well-section'

/** What the logbook says of a well's yield, in full. Pure, like appraise. */
export function yieldStanding(
  register: WellRegister,
  facts: readonly CurrentFact[],
  { falseAlarmShare }: Pick<ReckonSettings, 'falseAlarmShare'>,
): YieldStanding {
  const visits = yieldVisits(register, facts)
  return appraiseYield(
    register,
    visits,
    yieldEvents(facts),
    { falseAlarmShare },
    pumpLogOdds(register, facts),
  )
}

/** What the pump's own readings say of wear; null where they say nothing. */
function pumpLogOdds(register: WellRegister, facts: readonly CurrentFact[]): number | null {
  const standing = pumpStanding(facts, register.equipment ?? NO_EQUIPMENT, register.installedOn)
  const evidence = evidenceOf(standing)
  return evidence?.kind === 'evidence' ? evidence.logOdds : null
}

/** Levels, flow and tests of each visit, put side by side: lines of one visit on one day belong together. */
function yieldVisits(register: WellRegister, facts: readonly CurrentFact[]): YieldVisit[] {
  const visits = new Map<string, YieldVisit>()
  const of = (fact: CurrentFact): YieldVisit => {
    const key = `${fact.on} ${fact.visitId}`
    const known = visits.get(key)
    if (known) return known
    const fresh: YieldVisit = { on: fact.on, staticM: null, pumpingM: null, flowM3PerS: null, pumpedS: null }
    visits.set(key, fresh)
    return fresh
  }
  for (const current of facts) {
    const { fact } = current
    switch (fact.kind) {
      case 'level-reading':
        if (fact.state === 'rest') of(current).staticM = fact.level.si
        else of(current).pumpingM = fact.level.si
        break
      case 'flow-reading': {
        const visit = of(current)
        visit.flowM3PerS = fact.flow.si
        visit.pumpedS = fact.pumped?.si ?? null
        break
      }
      case 'recovery-test': {
        const visit = of(current)
        visit.staticM ??= fact.static?.si ?? null
        const capacity = recoveryCapacity(register, fact)
        if (capacity !== null) visit.capacityM2PerS = capacity
        break
      }
    }
  }
  return [...visits.values()]
}

/** Specific capacity by a recovery test, m²/s; null where the test is refused or the filling area is not known. */
function recoveryCapacity(
  register: WellRegister,
  test: Extract<CurrentFact['fact'], { kind: 'recovery-test' }>,
): number | null {
  const area = fillingArea(register)
  if (area.kind === 'cannot-say') return null
  const readings = test.readings.map(({ elapsed, level }) => ({ elapsedS: elapsed.si, levelM: level.si }))
  const fit = fitRecovery(readings, {
    staticM: test.static?.si ?? null,
    effectiveAreaM2: area.areaM2,
    wellDepthM: register.wellDepthM,
  })
  return fit.kind === 'fit' ? (fit.specificCapacityM2PerS?.value ?? null) : null
}

function yieldEvents(facts: readonly CurrentFact[]): YieldEvent[] {
  return facts.flatMap(({ fact, on }): { on: Day; kind: YieldEvent['kind'] }[] => {
    if (fact.kind !== 'event') return []
    switch (fact.event) {
      case 'rehabilitated':
      case 'rebuilt':
      case 'pump-replaced':
      case 'flooded':
      case 'ran-dry':
        return [{ on, kind: fact.event }]
      default:
        return [{ on, kind: 'other' }]
    }
  })
}
