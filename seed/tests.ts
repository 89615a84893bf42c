import type { Fact } from '@/lib/domain/logbook/kinds'
import { fromSi } from '@/lib/domain/quantity'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import { effectiveArea } from '@/lib/domain/yield/tests'
import type { WellFields } from '@/lib/records/well-fields'
import { capacityAt } from './nature'
import { typed } from './quantities'
import type { Visit, WellLife } from './visits'

const MINUTES = [1, 2, 3, 5, 8, 12, 16, 20, 30, 45]
const GALLONS_PER_FT3 = 7.48052

/**
 * Puts a recovery test on the visit nearest to each day: the levels of a well whose water rises the slower the less
 * of its drawdown is left, read to a hundredth of a foot.
 */
export function withRecoveryTests(
  life: WellLife,
  visits: readonly Visit[],
  fields: WellFields,
  days: readonly Day[],
): Visit[] {
  const chosen = new Set(days.map((day) => nearest(visits, day)))
  return visits.map((visit) =>
    chosen.has(visit) ? { ...visit, facts: [...visit.facts, recovery(life, visit, fields)] } : visit,
  )
}

function recovery(life: WellLife, visit: Visit, fields: WellFields): Fact {
  const restFt = levelFt(visit, 'rest')
  const drawnFt = levelFt(visit, 'pumping') - restFt
  const gpmPerFt = capacityAt(life.nature, life.story, visit.on, life.end, life.rehabilitatedOn)
  const minutesToFall = (fillingFt2(fields) * GALLONS_PER_FT3) / gpmPerFt
  return {
    kind: 'recovery-test',
    static: typed(restFt, 'ft', 2),
    readings: MINUTES.map((minute) => ({
      elapsed: typed(minute, 'min', 0),
      level: typed(restFt + drawnFt * Math.exp(-minute / minutesToFall), 'ft', 2),
    })),
  }
}

/** Open area of casing and gravel, ft². */
function fillingFt2({ casingBoreM, casingOutsideM, pitDiameterM, gravelPorosity }: WellFields): number {
  const area = effectiveArea({
    casingBoreM: casingBoreM ?? 0,
    casingOutsideM,
    pit: pitDiameterM === null ? null : { shape: 'round', diameterM: pitDiameterM },
    gravelPorosity,
  })
  if (area.kind !== 'area') throw new Error(`the demo well has no filling area: ${area.message}`)
  return fromSi(area.areaM2, 'ft2')
}

function levelFt(visit: Visit, state: 'rest' | 'pumping'): number {
  const fact = visit.facts.find((one) => one.kind === 'level-reading' && one.state === state)
  if (fact?.kind !== 'level-reading') throw new Error(`the demo visit of ${visit.on} has no level ${state}`)
  return fromSi(fact.level.si, 'ft')
}

/** The first visit on or after a day, or the last of all. */
function nearest(visits: readonly Visit[], day: Day): Visit | undefined {
  return visits.find((visit) => visit.on >= day) ?? visits.at(-1)
}

/** Days of the recovery tests of a clogging well: early, and each of the last two years. */
export function testDays(end: Day): Day[] {
  return [-2100, -760, -400, -60].map((days) => addDays(end, days))
}
