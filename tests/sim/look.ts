import { appraiseYield } from '@/lib/domain/yield/decline/appraise'
import type { YieldStanding } from '@/lib/domain/yield/decline/types'
import type { SimulatedWell } from './fleet'
import type { Told } from './score'

export type Looked = Told & { last: YieldStanding }

/** Every well looked at once a visit, each look with only what was known then. */
export function lookAtFleet(fleet: readonly SimulatedWell[], falseAlarmShare: number): Looked[] {
  return fleet.flatMap(({ id, well, visits, events, truth }) => {
    const standings = visits.map((visit, i) => ({
      on: visit.on,
      standing: appraiseYield(
        well,
        visits.slice(0, i + 1),
        events.filter((event) => event.on <= visit.on),
        { falseAlarmShare },
      ),
    }))
    const last = standings[standings.length - 1]
    if (!last) return []
    const lines = standings.map(({ on, standing: { flag, cause, outlook } }) => ({
      on,
      flag,
      cause,
      to75Percent: outlook.to75Percent,
      belowDemand: outlook.belowDemand,
    }))
    return [{ well: id, truth, lines, last: last.standing }]
  })
}
