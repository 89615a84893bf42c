import { compareDays, type Day, dayFor, formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { CurrentFact } from './entries'

/** One dot of a chart. `value` in SI; `used` false where the reckoning set the reading aside. */
export type SeriesPoint = { id: string; on: Day; value: number; used: boolean }

export type LevelSeries = { rest: SeriesPoint[]; pumping: SeriesPoint[] }

/** Water levels in m below the measuring point, by state, oldest first. The static level of a test is one at rest. */
export function levelSeries(facts: readonly CurrentFact[]): LevelSeries {
  const series: LevelSeries = { rest: [], pumping: [] }
  for (const { id, on, fact } of facts) {
    if (fact.kind === 'level-reading') series[fact.state].push({ id, on, value: fact.level.si, used: true })
    const test = fact.kind === 'recovery-test' || fact.kind === 'drawdown-test' || fact.kind === 'step-test'
    if (test && fact.static) series.rest.push({ id, on, value: fact.static.si, used: true })
  }
  return series
}

/**
 * A meter's readings (s or m³), oldest first, in stretches: a new stretch begins with each meter replaced, and no
 * line may be drawn across. A replacement's own readings end the one stretch and begin the next.
 */
export function meterSeries(
  facts: readonly CurrentFact[],
  meter: 'hours' | 'volume',
  setAside: ReadonlySet<string>,
): SeriesPoint[][] {
  const stretches: SeriesPoint[][] = [[]]
  const add = (point: SeriesPoint) => stretches.at(-1)?.push(point)
  for (const { id, on, fact } of facts) {
    if (fact.kind === 'meter-reading' && fact.meter === meter) {
      if (fact.explained === 'replaced' || fact.explained === 'rolled-over') stretches.push([])
      add({ id, on, value: fact.reading.si, used: !setAside.has(id) })
    }
    if (fact.kind === 'event' && fact.event === 'meter-replaced' && (fact.meter ?? meter) === meter) {
      if (fact.oldReading) add({ id, on, value: fact.oldReading.si, used: true })
      stretches.push([])
      if (fact.newReading) add({ id, on, value: fact.newReading.si, used: true })
    }
  }
  return stretches.filter((stretch) => stretch.length > 0)
}

/** The chart of levels in one plain sentence. Says what was seen, never a trend. */
export function sayLevels({ rest, pumping }: LevelSeries, system: UnitSystem): string {
  const show = (m: number) => formatQuantity(m, 'depth', system)
  const last = rest.at(-1)
  const deepest = extreme(rest, (a, b) => a > b)
  const highest = extreme(rest, (a, b) => a < b)
  if (!last || !deepest || !highest) {
    return pumping.length === 0
      ? 'No water level has been read yet.'
      : `${count(pumping.length, 'level')} while pumping; no level at rest yet, so nothing shows how the water itself moves.`
  }
  const range =
    rest.length === 1
      ? ''
      : ` Between ${show(highest.value)} (${dayFor(highest.on, system)}) and ${show(deepest.value)} (${dayFor(deepest.on, system)}) in ${count(rest.length, 'reading')} at rest.`
  return `Last at rest ${show(last.value)} below the measuring point on ${dayFor(last.on, system)}.${range}`
}

/** The chart of a meter in one plain sentence. */
export function sayMeter(
  stretches: readonly SeriesPoint[][],
  meter: 'hours' | 'volume',
  system: UnitSystem,
): string {
  const all = stretches.flat()
  const used = all.filter((point) => point.used)
  const last = [...used].sort((a, b) => compareDays(a.on, b.on)).at(-1)
  const aside = all.length - used.length
  const words = aside === 0 ? '' : ` ${count(aside, 'reading')} set aside and not used.`
  if (!last) return `No reading that can be used yet.${words}`
  const value = formatQuantity(last.value, meter === 'hours' ? 'hours' : 'tank', system)
  const meters = stretches.length > 1 ? `, on ${stretches.length} counts one after the other` : ''
  return `Last read ${value} on ${dayFor(last.on, system)}; ${count(used.length, 'reading')}${meters}.${words}`
}

function extreme(
  points: readonly SeriesPoint[],
  beats: (a: number, b: number) => boolean,
): SeriesPoint | null {
  return points.reduce<SeriesPoint | null>(
    (best, point) => (best === null || beats(point.value, best.value) ? point : best),
    null,
  )
}

const count = (n: number, what: string) => `${n} ${what}${n === 1 ? '' : 's'}`
