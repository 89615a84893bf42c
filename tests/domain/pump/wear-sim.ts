import type { BrushQuestion, BrushReading, CartridgeQuestion, CartridgeReading } from '@/lib/domain/pump'
import { addDays, type Day, dayOfYear } from '@/lib/domain/quantity/day'
import { dice, normal } from '../yield/tests/simulate'

/** A part with readings up to some day, and the day on which it truly reached its limit. */
export type Sim<Q> = { question: Q; putInOn: Day; truth: Day; lastReading: Day }

type Range = readonly [low: number, high: number]
type Roll = () => number
const within = ([low, high]: Range, roll: Roll): number => low + (high - low) * roll()

/** Growth of the drop with use as a share of life, to `g` times the clean drop. */
const LAWS = {
  line: (x: number, g: number) => 1 + (g - 1) * x,
  square: (x: number, g: number) => 1 + (g - 1) * x * x,
  exponential: (x: number, g: number) => g ** x,
  /** Unlike the named blocking laws: a quiet start, an early rise, a steep end. The forecast carries kin of all three. */
  quiet: (x: number, g: number) => 1 + (g - 1) * x ** 2.5,
  early: (x: number, g: number) => 1 + (g - 1) * x ** 0.85,
  steep: (x: number, g: number) => 1 + ((g - 1) * (Math.exp(4 * x) - 1)) / (Math.exp(4) - 1),
  /** Quite foreign to the forecast, with a bend half way: four times steeper after it, or not half as steep. */
  bend: (x: number, g: number) => 1 + (g - 1) * (x < 0.5 ? 0.4 * x : 0.2 + 1.6 * (x - 0.5)),
  wane: (x: number, g: number) => 1 + (g - 1) * (x < 0.4 ? 1.5 * x : 0.6 + (2 / 3) * (x - 0.4)),
  'early rise': bent(0.25, 3),
  'late rise': bent(0.65, 3),
  'early rest': bent(0.25, 1 / 3),
  'late rest': bent(0.65, 1 / 3),
}

/** Straight to a bend at a share of life, and so many times as steep after it. */
function bent(at: number, times: number): (x: number, g: number) => number {
  const before = 1 / (at + times * (1 - at))
  return (x, g) => 1 + (g - 1) * before * (x < at ? x : at + times * (x - at))
}

export type CartridgeWorld = {
  laws: readonly (keyof typeof LAWS)[]
  usualDays: Range
  season: Range
  /** Deviation of the logarithm of a reading, and the step of the gauge. */
  scatter: number
  gaugePa: number
  /** Deviation of the logarithm of life between cartridges of one well. */
  between: number
  readings: Range
  /** Share of its life that the last cartridge was followed. */
  seen: Range
  /** Share of readings without a flow, and of wells without a volume meter. */
  flowMissing: number
  meterMissing: number
  /** Share of readings with a digit slipped. */
  slips: number
  /** Dirt in lumps: 0 is even, 1 lets a day bring twenty times the usual. */
  lumps: number
}

const PLAIN: CartridgeWorld = {
  laws: ['line', 'square', 'exponential'],
  usualDays: [120, 620],
  season: [0, 0.4],
  scatter: 0.07,
  gaugePa: 1000,
  between: 0.25,
  readings: [3, 10],
  seen: [0.45, 0.9],
  flowMissing: 0,
  meterMissing: 0,
  slips: 0,
  lumps: 0,
}

/** Worlds that differ in what makes forecasting hard; nothing in the forecast was set from their seeds. */
export const CARTRIDGE_WORLDS: Readonly<Record<string, CartridgeWorld>> = {
  plain: PLAIN,
  'strong season': { ...PLAIN, season: [0.5, 0.8], usualDays: [200, 500] },
  'few and rough readings': { ...PLAIN, scatter: 0.14, gaugePa: 5000, readings: [3, 5], flowMissing: 0.3 },
  'no volume meter': { ...PLAIN, meterMissing: 1 },
  'other laws': { ...PLAIN, laws: ['quiet', 'early', 'steep'] },
  'slips and lumps': { ...PLAIN, slips: 0.06, lumps: 0.5 },
}

/** Worlds that grow by laws with a bend, which the forecast carries no kin of. */
export const FOREIGN_WORLDS: Readonly<Record<string, CartridgeWorld>> = {
  'a bend upwards': { ...PLAIN, laws: ['bend'] },
  'a bend downwards': { ...PLAIN, laws: ['wane'] },
  'bends early and late': { ...PLAIN, laws: ['early rise', 'late rise', 'early rest', 'late rest'] },
}

/** Use a day with a summer season of known size, as a running total by day. */
function dailyTotals(start: Day, days: number, perDay: number, season: number, roll: Roll): number[] {
  const totals = [0]
  for (let d = 0; d < days; d++) {
    const wave = 1 + season * Math.cos((2 * Math.PI * (dayOfYear(addDays(start, d)) - 200)) / 365.25)
    totals.push((totals.at(-1) ?? 0) + perDay * wave * Math.exp(0.5 * normal(roll) - 0.125))
  }
  return totals
}

/** Dirt by day: use, with lumps where the world has them, brought to the same sum. */
function dirtOf(totals: readonly number[], lumps: number, roll: Roll): number[] {
  if (lumps === 0) return [...totals]
  let dirt = 0
  return totals.map((total, d) => {
    const use = total - (totals[d - 1] ?? 0)
    const lump = roll() < 0.02 ? 20 * lumps : 1
    dirt += (use * lump) / (1 + 0.02 * (20 * lumps - 1))
    return dirt
  })
}

/** Cartridges one after another on one well, the last of them read up to a part of its life. */
export function simulateCartridge(seed: number, earlier: number, world = PLAIN): Sim<CartridgeQuestion> {
  const roll = dice(seed)
  const start = addDays('2012-01-01', Math.floor(1500 * roll()))
  const terminalPa = 70_000
  const perDay = 0.5 + 2 * roll()
  const usualDays = within(world.usualDays, roll)
  const totals = dailyTotals(start, 9000, perDay, within(world.season, roll), roll)
  const dirt = dirtOf(totals, world.lumps, roll)
  const law = LAWS[world.laws[Math.floor(world.laws.length * roll())] ?? 'line']
  const power = 1 + 0.8 * roll()
  const metered = roll() >= world.meterMissing
  const changes: Day[] = []
  const readings: CartridgeReading[] = []
  let [from, truthDay, lastDay] = [0, 0, 0]
  for (let n = 0; n <= earlier; n++) {
    const clean = terminalPa * (0.12 + 0.15 * roll())
    const life = perDay * usualDays * Math.exp(world.between * normal(roll))
    const began = from
    const used = (d: number) => (dirt[d] ?? 0) - (dirt[began] ?? 0)
    truthDay = dirt.findIndex((_, d) => d > began && used(d) >= life)
    const share = n < earlier ? 0.95 : within(world.seen, roll)
    const until = began + Math.max(4, Math.floor((truthDay - began) * share))
    const count = Math.floor(within(world.readings, roll))
    changes.push(addDays(start, began))
    for (let i = 0; i <= count; i++) {
      const d = i === 0 ? began : began + 1 + Math.floor(((until - began - 1) * i) / count)
      const flowRatio = 0.7 + 0.5 * roll()
      const drop = clean * law(used(d) / life, terminalPa / clean) * flowRatio ** power
      const slip = roll() < world.slips ? (roll() < 0.5 ? 10 : 0.1) : 1
      const read = slip * drop * Math.exp(world.scatter * normal(roll))
      const flowRead = roll() >= world.flowMissing
      readings.push({
        on: addDays(start, d),
        volumeM3: metered ? (totals[d] ?? 0) : null,
        flowM3PerS: flowRead ? 3e-4 * flowRatio : null,
        dropPa: Math.max(world.gaugePa, Math.round(read / world.gaugePa) * world.gaugePa),
      })
      lastDay = d
    }
    from = until + 1
  }
  return {
    question: { terminalPa, referenceFlowM3PerS: 3e-4, changes, readings },
    putInOn: changes.at(-1) ?? start,
    truth: addDays(start, truthDay),
    lastReading: addDays(start, lastDay),
  }
}

export type BrushWorld = {
  lifeH: Range
  season: Range
  /** Error of the hand, and the marks of the rule, m. */
  errorM: number
  markM: number
  /** Straying of the wear from day to day, and its change over a life as a share. */
  unevenness: number
  drift: Range
  /** What the rate is multiplied by from some day in the middle half of the life on; left out for none. */
  step?: Range
  readings: Range
  seen: Range
  /** What is read of the running: an hour meter, or nothing. */
  metered: boolean
}

const PLAIN_BRUSHES: BrushWorld = {
  lifeH: [1500, 6500],
  season: [0, 0.4],
  errorM: 0.0003,
  markM: 0.0005,
  unevenness: 0.8,
  drift: [0, 0],
  readings: [2, 10],
  seen: [0.35, 0.85],
  metered: true,
}

export const BRUSH_WORLDS: Readonly<Record<string, BrushWorld>> = {
  plain: PLAIN_BRUSHES,
  'strong season': { ...PLAIN_BRUSHES, season: [0.5, 0.8], lifeH: [1000, 3000] },
  'coarse rule': { ...PLAIN_BRUSHES, errorM: 0.0006, markM: 0.001 },
  'two or three readings': { ...PLAIN_BRUSHES, readings: [2, 4] },
  'no hour meter': { ...PLAIN_BRUSHES, metered: false },
  'wear that changes': { ...PLAIN_BRUSHES, drift: [-0.3, 0.3] },
}

/** Wear that the forecast carries no kin of. */
export const FOREIGN_BRUSHES: Readonly<Record<string, BrushWorld>> = {
  'wear that steps': { ...PLAIN_BRUSHES, step: [0.65, 1.5] },
}

/**
 * Sets of brushes one after another on one motor, which wears them all in its own way; the last read a few times before
 * its end, the earlier ones nearly to it.
 */
export function simulateBrushes(seed: number, world = PLAIN_BRUSHES, earlier = 0): Sim<BrushQuestion> {
  const roll = dice(seed)
  const start = addDays('2010-03-01', Math.floor(2000 * roll()))
  const newM = 0.02
  const minimumM = 0.008
  const perDay = 1 + 5 * roll()
  const lifeH = within(world.lifeH, roll)
  const totals = dailyTotals(start, 10_000 * (1 + earlier), perDay, within(world.season, roll), roll)
  const drift = within(world.drift, roll)
  const readings: BrushReading[] = []
  const replacedOn: Day[] = []
  let [from, truthDay, until] = [0, 0, 0]
  for (let n = 0; n <= earlier; n++) {
    const life = earlier === 0 ? lifeH : lifeH * Math.exp(0.2 * normal(roll))
    const worn = wornM(totals.slice(from), { roomM: newM - minimumM, life, drift }, world, roll)
    truthDay = from + worn.findIndex((w) => newM - w <= minimumM)
    const count = Math.floor(within(world.readings, roll))
    const seen = n < earlier ? 0.96 : within(world.seen, roll)
    until = from + Math.floor((truthDay - from) * seen)
    replacedOn.push(addDays(start, from))
    for (let i = 0; i <= count; i++) {
      const d = Math.floor(((until - from) * i) / count)
      const length = newM - (worn[d] ?? 0) + world.errorM * normal(roll)
      readings.push({
        on: addDays(start, from + d),
        hours: world.metered ? Math.round(totals[from + d] ?? 0) : null,
        lengthsM: [Math.round(length / world.markM) * world.markM],
      })
    }
    from = until + 1
  }
  return {
    question: { newM, minimumM, readings, replacedOn },
    putInOn: replacedOn.at(-1) ?? start,
    truth: addDays(start, truthDay),
    lastReading: addDays(start, until),
  }
}

type Wearing = { roomM: number; life: number; drift: number }

/** What is worn by day of a set put in on the first, m. */
function wornM(
  totals: readonly number[],
  { roomM, life, drift }: Wearing,
  world: BrushWorld,
  roll: Roll,
): number[] {
  const zero = totals[0] ?? 0
  const step = world.step ? { at: life * (0.25 + 0.5 * roll()), times: within(world.step, roll) } : null
  let sum = -0.0003 * normal(roll)
  return totals.map((total, d) => {
    const used = total - zero
    const hours = total - (totals[d - 1] ?? total)
    const rate = (roomM / life) * Math.max(0.2, 1 + drift * ((2 * used) / life - 1))
    const times = step && used > step.at ? step.times : 1
    sum += times * rate * hours * Math.max(0, 1 + world.unevenness * normal(roll))
    return sum
  })
}
