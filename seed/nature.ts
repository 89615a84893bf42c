import type { Day } from '@/lib/domain/quantity/day'
import { dayOfYear, yearsSince } from '@/lib/domain/quantity/day'
import { between, type Dice, wobble } from './dice'
import type { Story } from './valley'

/** How one invented well behaves, in the valley's units (feet, gallons, minutes). */
export type Nature = {
  staticFt: number
  swingFt: number
  depthFt: number
  /** Specific capacity when new, gal/min per ft of drawdown. */
  capacity: number
  pumpGpm: number
  hoursPerDay: number
  /** Share of the year's pumping that follows the garden season. */
  summer: number
  /** Pressure drop of a new cartridge, psi, and gallons that double it. */
  cleanDropPsi: number
  doublingGal: number
  /** Brush wear, inch per 1000 h. */
  brushWear: number
  amps: number
}

export function natureFrom(dice: Dice, solar: boolean): Nature {
  const staticFt = between(dice, 4.5, 9.5)
  return {
    staticFt,
    swingFt: between(dice, 0.8, 2.4),
    depthFt: staticFt + between(dice, 9, 15),
    capacity: between(dice, 2.2, 5.2),
    pumpGpm: solar ? between(dice, 4.2, 7.5) : between(dice, 7, 10.5),
    hoursPerDay: between(dice, 0.7, 2.6),
    summer: between(dice, 0.2, 0.8),
    cleanDropPsi: between(dice, 1.2, 2.6),
    doublingGal: between(dice, 26_000, 70_000),
    brushWear: between(dice, 0.045, 0.11),
    amps: solar ? between(dice, 6.5, 11) : between(dice, 4, 9),
  }
}

/** Every well of the valley shares the weather: the dry year is the third before the end. */
export type Weather = (on: Day) => number

export function weatherOf(dice: Dice, end: Day): Weather {
  const months = Array.from({ length: 12 * 9 }, () => wobble(dice) * 0.22)
  return (on) => {
    const yearsBefore = -yearsSince(on, end)
    const month = Math.max(0, Math.floor(yearsBefore * 12))
    const memory = (months[month] ?? 0) + 0.6 * (months[month + 1] ?? 0) + 0.3 * (months[month + 2] ?? 0)
    const dry =
      yearsBefore > 2.1 && yearsBefore < 3.0 ? 1.7 * Math.sin(((yearsBefore - 2.1) / 0.9) * Math.PI) : 0
    return memory + dry
  }
}

/** Depth to water at rest, ft: lowest in late September, with the weather and a falling table where told. */
export function staticAt(
  nature: Nature,
  story: Story | undefined,
  on: Day,
  end: Day,
  weather: Weather,
): number {
  const season = -Math.cos(((dayOfYear(on) - 265) / 365.25) * 2 * Math.PI) * -nature.swingFt * 0.5
  const fall = story === 'falling-table' ? Math.max(0, 5 + yearsSince(on, end)) * 0.75 : 0
  return nature.staticFt + season + weather(on) + fall
}

/** Specific capacity on a day, gal/min per ft. */
export function capacityAt(
  nature: Nature,
  story: Story | undefined,
  on: Day,
  end: Day,
  rehabilitatedOn: Day | null,
): number {
  if (story !== 'clogging' && story !== 'clogging-then-rehabilitated') return nature.capacity
  const onsetYearsBefore = 4.5
  const since =
    rehabilitatedOn && on >= rehabilitatedOn
      ? yearsSince(on, rehabilitatedOn)
      : onsetYearsBefore + yearsSince(on, end)
  const start = rehabilitatedOn && on >= rehabilitatedOn ? 0.95 : 1
  return nature.capacity * start * Math.exp(-0.13 * Math.max(0, since))
}

/** Flow on a day, gal/min: a tired pump gives less. */
export function flowAt(nature: Nature, story: Story | undefined, on: Day, end: Day): number {
  const tired = story === 'tired-pump' ? Math.exp(-0.16 * Math.max(0, 2.6 + yearsSince(on, end))) : 1
  return nature.pumpGpm * tired
}

/** Run hours from one day to a later one, more of them in the garden season. */
export function hoursBetween(nature: Nature, from: Day, days: number): number {
  let hours = 0
  const start = dayOfYear(from)
  for (let d = 0; d < days; d += 7) {
    const season = 1 - nature.summer * Math.cos((((start + d - 15) % 365) / 365) * 2 * Math.PI)
    hours += nature.hoursPerDay * season * Math.min(7, days - d)
  }
  return hours
}
