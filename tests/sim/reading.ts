import { type Day, yearsSince } from '@/lib/domain/quantity/day'
import type { YieldVisit } from '@/lib/domain/yield/decline/types'
import type { Dice } from './dice'
import type { Ground } from './ground'
import { throwsOf } from './noise'
import type { FleetSettings } from './settings'

/** What a technician writes down on a day: the true state, seen through noise, gaps and blunders. */
export function readAt(on: Day, first: Day, ground: Ground, settings: FleetSettings, dice: Dice): YieldVisit {
  const noise = throwsOf(settings, dice)
  const t = yearsSince(on, first)
  const yearPart = yearsSince(on, '2000-01-01') % 1
  const staticM = ground.staticM(t, yearPart)
  const minutes = dice.pick([30, 45, 60, 60, 60, 60, 90, 120])
  const { drawdownM, flowM3PerS } = ground.pumped(t, yearPart, staticM, minutes / 60)
  const misread = Math.exp(settings.flowNoise * Math.sqrt(1 - settings.flowNoiseReal) * noise())
  return withBlunder(settings, dice, {
    on,
    staticM:
      dice.uniform(0, 1) < settings.missingStatics
        ? null
        : round(staticM + settings.levelNoiseM * noise(), 0.01),
    pumpingM: round(staticM + drawdownM + settings.levelNoiseM * noise(), 0.01),
    flowM3PerS: round(flowM3PerS * misread * 60_000, 0.1) / 60_000,
    pumpedS: minutes * 60,
  })
}

/** Slips of the pen and of units, at the rate asked for. */
function withBlunder(settings: FleetSettings, dice: Dice, visit: YieldVisit): YieldVisit {
  if (dice.uniform(0, 1) >= settings.blunders) return visit
  const flow = visit.flowM3PerS ?? 0
  const pumping = visit.pumpingM ?? 0
  const kind = dice.pick(['gallons', 'a-second', 'feet-static', 'feet-pumping', 'swapped', 'digit'])
  if (kind === 'gallons') return { ...visit, flowM3PerS: flow / 3.785 }
  if (kind === 'a-second') return { ...visit, flowM3PerS: flow / 60 }
  if (kind === 'digit') return { ...visit, flowM3PerS: flow * dice.pick([10, 0.1]) }
  if (kind === 'feet-pumping') return { ...visit, pumpingM: pumping / 0.3048 }
  if (visit.staticM === null) return visit
  if (kind === 'feet-static') return { ...visit, staticM: visit.staticM / 0.3048 }
  return { ...visit, staticM: visit.pumpingM, pumpingM: visit.staticM }
}

function round(value: number, step: number): number {
  return Math.round(value / step) * step
}
