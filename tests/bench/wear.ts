import { type Forecast, forecastBrushes, forecastCartridge } from '@/lib/domain/pump'
import {
  bestFixedInterval,
  lineOfLengths,
  lineOfRawDrops,
  type Score,
  score,
} from '../domain/pump/wear-score'
import {
  BRUSH_WORLDS,
  CARTRIDGE_WORLDS,
  FOREIGN_BRUSHES,
  FOREIGN_WORLDS,
  type Sim,
  simulateBrushes,
  simulateCartridge,
} from '../domain/pump/wear-sim'
import type { Figure } from './stats'

const PARTS = 300
/** Parts that nobody looked at while the forecasts were made: their figures are out of sample. */
const HELD_OUT = 3_000_000
/** Cartridges of the same well followed before the one that is forecast. */
const EARLIER = [0, 3]
/** Sets of the same motor worn out before the one that is forecast. */
const EARLIER_SETS = [0, 2]

/**
 * How well the ends of cartridges and brushes are told in several invented worlds, against the best fixed interval
 * (found afterwards) and a straight line of raw readings, and what changing on the advised day saves.
 */
export async function benchWear(): Promise<Figure[]> {
  const figures: Figure[] = []
  let seed = HELD_OUT
  const cartridges = (worlds: typeof CARTRIDGE_WORLDS) => {
    for (const [world, settings] of Object.entries(worlds)) {
      for (const earlier of EARLIER) {
        seed += 1000
        const sims = Array.from({ length: PARTS }, (_, i) => simulateCartridge(seed + i, earlier, settings))
        const name = `cartridge, ${world}${earlier > 0 ? `, ${earlier} before it` : ''}`
        figures.push(...compared(name, sims, forecastCartridge, lineOfRawDrops))
      }
    }
  }
  const brushes = (worlds: typeof BRUSH_WORLDS) => {
    for (const [world, settings] of Object.entries(worlds)) {
      seed += 1000
      for (const earlier of EARLIER_SETS) {
        const sims = Array.from({ length: PARTS }, (_, i) => simulateBrushes(seed + i, settings, earlier))
        const name = `brushes, ${world}${earlier > 0 ? `, ${earlier} sets before` : ''}`
        figures.push(...compared(name, sims, forecastBrushes, lineOfLengths))
      }
    }
  }
  cartridges(CARTRIDGE_WORLDS)
  brushes(BRUSH_WORLDS)
  cartridges(FOREIGN_WORLDS)
  brushes(FOREIGN_BRUSHES)
  return figures
}

function compared<Q>(
  name: string,
  sims: Sim<Q>[],
  forecast: (question: Q) => Forecast,
  line: (question: Q) => Forecast,
): Figure[] {
  const fixed = bestFixedInterval(sims)
  const before = process.cpuUsage()
  const ours = score(sims, forecast, fixed.days)
  const { user, system } = process.cpuUsage(before)
  const ms = (user + system) / 1000 / sims.length
  const plain: Score = score(sims, line, fixed.days)
  return [
    { name, value: sims.length, unit: 'parts' },
    { name: '  given a date', value: ours.answered, unit: '' },
    { name: '  end within its 80 % interval', value: ours.covered, unit: '' },
    { name: '  width of the interval, median', value: ours.width, unit: 'years' },
    { name: '  error, median', value: ours.error, unit: 'years' },
    { name: '  error of the middle fixed interval', value: fixed.error, unit: 'years' },
    { name: '  error of a straight line', value: plain.error, unit: 'years' },
    { name: '  saved over the best fixed interval', value: 1 - ours.cost / fixed.cost, unit: 'of its cost' },
    { name: '  saved over a straight line', value: 1 - ours.cost / plain.cost, unit: 'of its cost' },
    { name: '  one forecast, mean processor time', value: ms, unit: 'ms' },
  ]
}
