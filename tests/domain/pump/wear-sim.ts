import type { BrushQuestion, BrushReading, CartridgeQuestion, CartridgeReading } from '@/lib/domain/pump'
import { addDays, type Day, dayOfYear } from '@/lib/domain/quantity/day'
import { dice, normal } from '../yield/tests/simulate'

/** Use a day with a summer season of known size, as a running total by day. */
function dailyTotals(start: Day, days: number, perDay: number, season: number, roll: () => number): number[] {
  const totals = [0]
  for (let d = 0; d < days; d++) {
    const wave = 1 + season * Math.cos((2 * Math.PI * (dayOfYear(addDays(start, d)) - 200)) / 365.25)
    totals.push((totals.at(-1) ?? 0) + perDay * wave * Math.exp(0.5 * normal(roll) - 0.125))
  }
  return totals
}

export type Sim<Q> = { question: Q; truth: Day; lastReading: Day }

const LAWS = [
  (x: number, g: number) => 1 + (g - 1) * x,
  (x: number, g: number) => 1 + (g - 1) * x * x,
  (x: number, g: number) => g ** x,
]

/** Cartridges one after another on one well, the last of them read up to a part of its life. */
export function simulateCartridge(seed: number, earlier: number): Sim<CartridgeQuestion> {
  const roll = dice(seed)
  const start = addDays('2012-01-01', Math.floor(1500 * roll()))
  const terminalPa = 70_000
  const perDay = 0.5 + 2 * roll()
  const usualDays = 120 + 500 * roll()
  const totals = dailyTotals(start, 8000, perDay, 0.4 * roll(), roll)
  const law = LAWS[Math.floor(3 * roll())] ?? Math.exp
  const power = 1 + 0.8 * roll()
  const changes: Day[] = []
  const readings: CartridgeReading[] = []
  let day = 0
  let truthDay = 0
  let lastDay = 0
  for (let n = 0; n <= earlier; n++) {
    const clean = terminalPa * (0.12 + 0.15 * roll())
    const lifeM3 = perDay * usualDays * Math.exp(0.25 * normal(roll))
    const from = day
    const used = (d: number) => (totals[d] ?? 0) - (totals[from] ?? 0)
    truthDay = totals.findIndex((_, d) => d > from && used(d) >= lifeM3)
    const seenShare = n < earlier ? 0.95 : 0.45 + 0.45 * roll()
    const count = 3 + Math.floor(7 * roll())
    const until = from + Math.max(4, Math.floor((truthDay - from) * seenShare))
    changes.push(addDays(start, from))
    for (let i = 0; i <= count; i++) {
      const d = i === 0 ? from : from + 1 + Math.floor(((until - from - 1) * i) / count)
      const flowRatio = 0.7 + 0.5 * roll()
      const drop = clean * law(used(d) / lifeM3, terminalPa / clean) * flowRatio ** power
      readings.push({
        on: addDays(start, d),
        volumeM3: totals[d] ?? 0,
        flowM3PerS: 3e-4 * flowRatio,
        dropPa: Math.max(1000, Math.round((drop * Math.exp(0.07 * normal(roll))) / 1000) * 1000),
      })
      lastDay = d
    }
    day = until + 1
  }
  return {
    question: { terminalPa, referenceFlowM3PerS: 3e-4, changes, readings },
    truth: addDays(start, truthDay),
    lastReading: addDays(start, lastDay),
  }
}

/** One set of brushes, read a few times before its end, by a rule marked in half millimetres. */
export function simulateBrushes(seed: number): Sim<BrushQuestion> {
  const roll = dice(seed)
  const start = addDays('2010-03-01', Math.floor(2000 * roll()))
  const newM = 0.02
  const minimumM = 0.008
  const perDay = 1 + 5 * roll()
  const lifeH = 1500 + 5000 * roll()
  const totals = dailyTotals(start, 9000, perDay, 0.4 * roll(), roll)
  let wornM = -0.0003 * normal(roll)
  const worn = totals.map((total, d) => {
    const hours = total - (totals[d - 1] ?? 0)
    const rate = (newM - minimumM) / lifeH
    wornM += rate * hours * Math.max(0, 1 + 0.8 * normal(roll))
    return wornM
  })
  const truthDay = worn.findIndex((w) => newM - w <= minimumM)
  const count = 2 + Math.floor(8 * roll())
  const until = Math.floor(truthDay * (0.35 + 0.5 * roll()))
  const readings: BrushReading[] = Array.from({ length: count + 1 }, (_, i) => {
    const d = Math.floor((until * i) / count)
    const length = newM - (worn[d] ?? 0) + 0.0003 * normal(roll)
    return {
      on: addDays(start, d),
      hours: Math.round(totals[d] ?? 0),
      lengthsM: [Math.round(length * 2000) / 2000],
    }
  })
  return {
    question: { newM, minimumM, readings, replacedOn: [start] },
    truth: addDays(start, truthDay),
    lastReading: addDays(start, until),
  }
}
