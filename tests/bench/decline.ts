import { performance } from 'node:perf_hooks'
import { appraiseYield } from '@/lib/domain/yield/decline/appraise'
import { simulateFleet, WORLD } from '../sim/fleet'
import { asOfPoints, causeFigures, flagFigures, lookAtFleet, outlookFigures } from '../sim/score'
import type { Figure } from './stats'

const SHARE = 0.05
const SEEDS = [101, 202, 303]

/** How well declines are told on invented fleets with known truth, one look a visit, and what an appraisal costs. */
export async function benchDecline(): Promise<Figure[]> {
  const fleet = SEEDS.flatMap((seed) => simulateFleet({ ...WORLD, wells: 300, seed }))
  const looked = lookAtFleet(fleet, SHARE)
  const flags = flagFigures(looked)
  const causes = causeFigures(looked)
  const outlook = outlookFigures(asOfPoints(fleet), SHARE)
  const share = (name: string, value: number): Figure => ({ name, value, unit: '' })
  return [
    share('ever falsely flagged, steady and falling-table wells', flags.falseAlarms.steadyAndTable),
    share('ever falsely flagged, wells with a worn pump', flags.falseAlarms.pump),
    share('clear declines flagged', flags.sensitivity.clear),
    share('clear declines flagged before three quarters', flags.before75.clear),
    { name: 'delay of a clear decline, median', value: flags.delayYears, unit: 'years' },
    share('cause named rightly, balanced over causes', causes.balanced),
    share('75 % date within its 80 % interval', outlook.coverage),
    { name: 'width of that interval, median', value: outlook.widthYears, unit: 'years' },
    { name: 'error of that date, median', value: outlook.errorYears, unit: 'years' },
    { name: 'one appraisal of a well with its whole record, mean', value: appraisalMs(fleet), unit: 'ms' },
  ]
}

function appraisalMs(fleet: ReturnType<typeof simulateFleet>): number {
  const started = performance.now()
  for (const { well, visits, events } of fleet)
    appraiseYield(well, visits, events, { falseAlarmShare: SHARE })
  return (performance.now() - started) / fleet.length
}
