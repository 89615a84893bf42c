import type { YieldVisit } from './types'
import { medianOf } from './vector'

/** A visit's readings after slips were mended or left out; `note` says which, `mended` whether it is still used. */
export type Reading = {
  on: string
  staticM: number | null
  pumpingM: number | null
  flowM3PerS: number | null
  pumpedS: number | null
  fittedM2PerS: number | null
  note: string | null
  mended: boolean
  leftOut: boolean
}

type Levels = { staticM: number | null; pumpingM: number | null; flowM3PerS: number | null }
type Slip = { note: string; apply: (v: Levels) => Levels | null }
/** What the well's other visits lead one to expect: a middle and a spread, or nothing yet. */
type Expected = { middle: number; spread: number } | null
type Expectation = { staticM: Expected; logDrawdown: Expected; logFlow: Expected; deepestM: number | null }

const FOOT_M = 0.3048
const GALLON_L = 3.785411784
const SECONDS_PER_MINUTE = 60
/** Neighbours on each side in time that say what a visit should look like. */
const NEIGHBOURS = 4
/** Beyond this many spreads a reading is looked at more closely. */
const ODD = 4
/** A slip is this much rarer than a plain reading, in log. */
const LOG_SLIP = Math.log(0.003)
/** A reading this unlikely (in log) that no slip explains is left out. */
const HOPELESS = -18

const SLIPS: readonly Slip[] = [
  flowSlip('flow taken as gallons a minute', GALLON_L),
  flowSlip('flow taken as litres a second', SECONDS_PER_MINUTE),
  flowSlip('flow taken as litres where gallons were meant', 1 / GALLON_L),
  flowSlip('a digit slipped in the flow', 10),
  flowSlip('a digit slipped in the flow', 0.1),
  levelSlip('static level taken as feet', FOOT_M, 1),
  levelSlip('pumping level taken as feet', 1, FOOT_M),
  levelSlip('both levels taken as feet', FOOT_M, FOOT_M),
  levelSlip('a digit slipped in the static level', 10, 1),
  levelSlip('a digit slipped in the static level', 0.1, 1),
  levelSlip('a digit slipped in the pumping level', 1, 10),
  levelSlip('a digit slipped in the pumping level', 1, 0.1),
  {
    note: 'static and pumping level swapped',
    apply: (v) =>
      v.staticM === null || v.pumpingM === null ? null : { ...v, staticM: v.pumpingM, pumpingM: v.staticM },
  },
]

/**
 * Finds slips of unit, digit and order by comparing each visit with the well's other visits, and mends those with
 * one plain explanation; what stays unlikely without one is left out, with a sentence.
 *
 * Shape   visits in time order; `era` counts pump replacements and rehabilitations, across which flow and
 *         drawdown may jump.
 * Answer  as many readings as visits, in the same order. With fewer than three neighbours little is questioned.
 * Source  common practice, no published source.
 */
export function mendReadings(
  visits: readonly YieldVisit[],
  era: readonly number[],
  deepestM: number | null,
): Reading[] {
  const logDrawdowns = visits.map((v) =>
    v.staticM !== null && v.pumpingM !== null && v.pumpingM > v.staticM
      ? Math.log(v.pumpingM - v.staticM)
      : null,
  )
  const logFlows = visits.map((v) =>
    v.flowM3PerS !== null && v.flowM3PerS > 0 ? Math.log(v.flowM3PerS) : null,
  )
  const statics = visits.flatMap((v) => (v.staticM === null ? [] : [v.staticM]))
  const usualStatic = expectFrom(statics, 0.5)
  return visits.map((visit, i) => {
    const expected: Expectation = {
      staticM: usualStatic,
      logDrawdown: expectFrom(neighbours(logDrawdowns, era, i), 0.15),
      logFlow: expectFrom(neighbours(logFlows, era, i), 0.12),
      deepestM,
    }
    return mendOne(visit, expected)
  })
}

function mendOne(visit: YieldVisit, expected: Expectation): Reading {
  const { on, staticM, pumpingM } = visit
  const flowM3PerS = positive(visit.flowM3PerS)
  const pumpedS = positive(visit.pumpedS)
  const fittedM2PerS = positive(visit.capacityM2PerS ?? null)
  const as = { staticM, pumpingM, flowM3PerS }
  const plain = likelihood(as, expected)
  if (plain > (-ODD * ODD) / 2) {
    const note = null
    return { on, staticM, pumpingM, flowM3PerS, pumpedS, fittedM2PerS, note, mended: false, leftOut: false }
  }
  const base = { on, pumpedS, fittedM2PerS }
  let best: { slip: Slip; levels: Levels; score: number } | null = null
  let second = Number.NEGATIVE_INFINITY
  for (const slip of SLIPS) {
    const levels = slip.apply(as)
    if (levels === null) continue
    const score = likelihood(levels, expected) + LOG_SLIP
    if (best === null || score > best.score) {
      second = best?.score ?? second
      best = { slip, levels, score }
    } else if (score > second) second = score
  }
  const rival = Math.max(second, plain)
  if (best && best.score > rival + 1.5 && best.score > HOPELESS) {
    return { ...base, ...best.levels, note: `mended: ${best.slip.note}`, mended: true, leftOut: false }
  }
  if (plain > HOPELESS && possible(as)) return { ...base, ...as, note: null, mended: false, leftOut: false }
  return { ...base, ...withoutTheOdd(as, expected), mended: false, leftOut: true }
}

/** Keeps what still fits: the flow where only the levels are odd, the levels where only the flow is. */
function withoutTheOdd(as: Levels, expected: Expectation): Levels & { note: string } {
  const levels = likelihood({ ...as, flowM3PerS: null }, expected)
  const flow = likelihood({ staticM: null, pumpingM: null, flowM3PerS: as.flowM3PerS }, expected)
  const levelsOdd = levels < HOPELESS / 2 || !possible(as)
  const flowOdd = flow < HOPELESS / 2
  const what = levelsOdd && flowOdd ? 'levels and flow' : levelsOdd ? 'levels' : 'flow'
  return {
    staticM: levelsOdd ? null : as.staticM,
    pumpingM: levelsOdd ? null : as.pumpingM,
    flowM3PerS: flowOdd ? null : as.flowM3PerS,
    note: `left out: the ${what} cannot be right beside the well's other visits; read again`,
  }
}

function possible(v: Levels): boolean {
  return v.staticM === null || v.pumpingM === null || v.pumpingM > v.staticM
}

/** How likely (log) readings are beside what is expected; heavy tails, so that no single one decides alone. */
function likelihood(v: Levels, expected: Expectation): number {
  let log = 0
  if (v.staticM !== null) log += closeness(v.staticM, expected.staticM)
  if (v.flowM3PerS !== null) log += closeness(Math.log(v.flowM3PerS), expected.logFlow)
  if (v.staticM !== null && v.pumpingM !== null) {
    if (v.pumpingM <= v.staticM) log -= 40
    else log += closeness(Math.log(v.pumpingM - v.staticM), expected.logDrawdown)
  } else if (v.pumpingM !== null && expected.staticM && expected.logDrawdown) {
    const middle = expected.staticM.middle + Math.exp(expected.logDrawdown.middle)
    log += closeness(v.pumpingM, { middle, spread: expected.staticM.spread + 0.3 })
  }
  const deepest = Math.max(v.staticM ?? 0, v.pumpingM ?? 0)
  if (expected.deepestM !== null && deepest > expected.deepestM) log -= 12
  return log
}

function closeness(value: number, expected: Expected): number {
  if (expected === null) return 0
  const z = (value - expected.middle) / expected.spread
  return -0.5 * z * z
}

function neighbours(values: readonly (number | null)[], era: readonly number[], at: number): number[] {
  const found: number[] = []
  for (const step of [-1, 1]) {
    let taken = 0
    for (let i = at + step; i >= 0 && i < values.length && taken < NEIGHBOURS; i += step) {
      if (era[i] !== era[at]) break
      const value = values[i]
      if (value === null || value === undefined) continue
      found.push(value)
      taken++
    }
  }
  return found
}

/** Middle and spread of at least two values, the spread never under `least` and wide while values are few. */
function expectFrom(values: readonly number[], least: number): Expected {
  const middle = medianOf(values)
  if (middle === null || values.length < 2) return null
  const away = medianOf(values.map((value) => Math.abs(value - middle))) ?? 0
  return { middle, spread: Math.max(least, 1.5 * away) * (1 + 2 / values.length) }
}

function positive(value: number | null): number | null {
  return value !== null && value > 0 ? value : null
}

function flowSlip(note: string, factor: number): Slip {
  return {
    note,
    apply: (v) => (v.flowM3PerS === null ? null : { ...v, flowM3PerS: v.flowM3PerS * factor }),
  }
}

function levelSlip(note: string, staticFactor: number, pumpingFactor: number): Slip {
  return {
    note,
    apply: (v) => {
      if (staticFactor !== 1 && v.staticM === null) return null
      if (pumpingFactor !== 1 && v.pumpingM === null) return null
      return {
        ...v,
        staticM: v.staticM === null ? null : v.staticM * staticFactor,
        pumpingM: v.pumpingM === null ? null : v.pumpingM * pumpingFactor,
      }
    },
  }
}
