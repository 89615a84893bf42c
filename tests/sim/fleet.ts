/**
 * Invented fleets of wells with known truth, for measuring how well declines are told from seasons.
 *
 * The world: a static level that swings with the season and wanders with the weather (with memory), a capacity that
 * falls with the saturated thickness to some power, a pump whose flow sags a little with lift, readings with noise,
 * gaps and blunders, and one thing that goes wrong (or nothing). Every number comes from the seed.
 */
import { addDays, type Day, yearsSince } from '@/lib/domain/quantity/day'
import type { YieldEvent, YieldVisit, YieldWell } from '@/lib/domain/yield/decline/types'
import { type Dice, diceFrom } from './dice'

export type TrueCause = 'steady' | 'clogging' | 'watertable' | 'pump' | 'rehabilitated'

export type FleetSettings = {
  wells: number
  seed: number
  years: [number, number]
  visitsPerYear: [number, number]
  shares: Record<TrueCause, number>
  ratePerYear: [number, number]
  tableFallMPerYear: [number, number]
  exponent: [number, number]
  swingM: [number, number]
  weatherSdM: [number, number]
  weatherMemoryYears: [number, number]
  flowNoise: number
  /** Share of the variance of flow that is real (a pump that varies) rather than a misread bucket. */
  flowNoiseReal: number
  levelNoiseM: number
  /** Noise of capacity itself from visit to visit, relative. */
  capacityNoise: number
  missingStatics: number
  blunders: number
  durationEffect: number
}

export type SimulatedWell = {
  id: string
  well: YieldWell
  visits: YieldVisit[]
  events: YieldEvent[]
  truth: {
    cause: TrueCause
    onset: Day | null
    ratePerYear: number
    shape: 'linear' | 'exponential' | null
    crosses75On: Day | null
    rehabilitatedOn: Day | null
    /** Relative capacity (1 = new) from the decline alone, on a day. */
    capacityLeft: (on: Day) => number
  }
}

export const WORLD: FleetSettings = {
  wells: 500,
  seed: 1,
  years: [3, 12],
  visitsPerYear: [1, 6],
  shares: { steady: 0.35, clogging: 0.25, watertable: 0.15, pump: 0.1, rehabilitated: 0.15 },
  ratePerYear: [0.03, 0.2],
  tableFallMPerYear: [0.05, 0.4],
  exponent: [0.3, 1.2],
  swingM: [0.3, 2],
  weatherSdM: [0.1, 0.3],
  weatherMemoryYears: [0.1, 0.5],
  flowNoise: 0.05,
  flowNoiseReal: 0,
  levelNoiseM: 0.02,
  capacityNoise: 0.01,
  missingStatics: 0.08,
  blunders: 0.02,
  durationEffect: -0.08,
}

const START: Day = '2008-01-01'
const DAYS_PER_YEAR = 365.2425

/** A fleet of `settings.wells` wells; the same settings give the same fleet. */
export function simulateFleet(settings: FleetSettings): SimulatedWell[] {
  const dice = diceFrom(settings.seed)
  return Array.from({ length: settings.wells }, (_, i) => simulateWell(`S${i + 1}`, settings, dice))
}

function simulateWell(id: string, settings: FleetSettings, dice: Dice): SimulatedWell {
  const first = addDays(START, Math.floor(dice.uniform(0, 10 * DAYS_PER_YEAR)))
  const years = dice.uniform(...settings.years)
  const truth = drawTruth(settings, dice, first, years)
  const world = drawWorld(settings, dice, first, truth)
  const days = visitDays(settings, dice, first, years)
  const visits = days.map((on) => world.read(on))
  return {
    id,
    well: {
      wellDepthM: world.depthM,
      intakeDepthM: world.depthM - 0.5,
      demandM3PerS: null,
      installedOn: first,
    },
    visits,
    events: truth.rehabilitatedOn ? [{ on: truth.rehabilitatedOn, kind: 'rehabilitated' }] : [],
    truth,
  }
}

function drawTruth(settings: FleetSettings, dice: Dice, first: Day, years: number): SimulatedWell['truth'] {
  const cause = drawCause(settings, dice)
  const rehabAt = cause === 'rehabilitated' ? dice.uniform(0.4, 0.75) * years : null
  const onsetAt = dice.uniform(0.05, 0.7) * (rehabAt ?? years)
  const rate = dice.uniform(...settings.ratePerYear)
  const shape = dice.uniform(0, 1) < 0.5 ? 'linear' : 'exponential'
  const restored = dice.uniform(0.85, 1.03)
  const hasOnset = cause !== 'steady'
  const loss = (u: number) =>
    u <= 0 ? 1 : shape === 'linear' ? Math.max(0.05, 1 - rate * u) : Math.exp(-rate * u)
  const declines = cause === 'clogging' || cause === 'rehabilitated'
  const crossAfter = shape === 'linear' ? 0.25 / rate : -Math.log(0.75) / rate
  return {
    cause,
    onset: hasOnset ? later(first, onsetAt) : null,
    ratePerYear: hasOnset ? rate : 0,
    shape: hasOnset ? shape : null,
    rehabilitatedOn: rehabAt === null ? null : later(first, rehabAt),
    crosses75On: declines ? later(first, onsetAt + crossAfter) : null,
    capacityLeft: (on) => {
      if (!declines) return 1
      const t = yearsSince(on, first)
      if (rehabAt !== null && t >= rehabAt) return restored * loss(t - rehabAt)
      return loss(t - onsetAt)
    },
  }
}

function drawCause(settings: FleetSettings, dice: Dice): TrueCause {
  const causes: TrueCause[] = ['steady', 'clogging', 'watertable', 'pump', 'rehabilitated']
  let left = dice.uniform(0, 1)
  for (const cause of causes) {
    left -= settings.shares[cause]
    if (left < 0) return cause
  }
  return 'steady'
}

type World = { depthM: number; read: (on: Day) => YieldVisit }

/** What a technician would read on a day: the true state, seen through noise, gaps and blunders. */
function drawWorld(settings: FleetSettings, dice: Dice, first: Day, truth: SimulatedWell['truth']): World {
  const swingM = dice.uniform(...settings.swingM)
  const meanStaticM = dice.uniform(1.2, 4) + swingM / 2
  const thicknessM = dice.uniform(3.5, 8) + swingM / 2
  const depthM = meanStaticM + thicknessM
  const exponent = dice.uniform(...settings.exponent)
  const newDrawdownM = dice.uniform(0.5, 1.9)
  const newFlowM3PerS = Math.exp(dice.uniform(Math.log(8), Math.log(40))) / 60_000
  const sagPerM = dice.uniform(0, 0.04)
  const peak = dice.uniform(0.6, 0.85)
  const weather = weatherOf(settings, dice)
  const fallMPerYear = truth.cause === 'watertable' ? dice.uniform(...settings.tableFallMPerYear) : 0
  const pumpLoss = (t: number, onsetAt: number) =>
    truth.shape === 'linear'
      ? Math.max(0.2, 1 - truth.ratePerYear * Math.max(0, t - onsetAt))
      : Math.exp(-truth.ratePerYear * Math.max(0, t - onsetAt))

  const read = (on: Day): YieldVisit => {
    const t = yearsSince(on, first)
    const onsetAt = truth.onset ? yearsSince(truth.onset, first) : 0
    const yearPart = yearsSince(on, '2000-01-01') % 1
    const fall = truth.onset ? fallMPerYear * Math.max(0, t - onsetAt) : 0
    const staticM = Math.min(
      meanStaticM + (swingM / 2) * Math.cos(2 * Math.PI * (yearPart - peak)) + weather(t) + fall,
      depthM - 1.5,
    )
    const minutes = dice.pick([30, 45, 60, 60, 60, 60, 90, 120])
    const thickness = Math.max(0.3, (depthM - Math.max(0.2, staticM)) / thicknessM)
    const capacity =
      (newFlowM3PerS / newDrawdownM) *
      thickness ** exponent *
      truth.capacityLeft(on) *
      (1 + settings.durationEffect * Math.log(minutes / 60)) *
      Math.exp(settings.capacityNoise * dice.normal())
    const wear = truth.cause === 'pump' && truth.onset ? pumpLoss(t, onsetAt) : 1
    const real = Math.exp(settings.flowNoise * Math.sqrt(settings.flowNoiseReal) * dice.normal())
    const misread = Math.exp(settings.flowNoise * Math.sqrt(1 - settings.flowNoiseReal) * dice.normal())
    const raw = newFlowM3PerS * wear * real
    const drawdownOf = (flow: number) => Math.min(flow / capacity, 0.9 * (depthM - staticM))
    const sag = Math.max(0.5, 1 - sagPerM * (staticM - meanStaticM + drawdownOf(raw) - newDrawdownM))
    const flow = raw * sag
    return withBlunder(settings, dice, {
      on,
      staticM:
        dice.uniform(0, 1) < settings.missingStatics
          ? null
          : round(Math.max(0.2, staticM) + settings.levelNoiseM * dice.normal(), 0.01),
      pumpingM: round(Math.max(0.2, staticM) + drawdownOf(flow) + settings.levelNoiseM * dice.normal(), 0.01),
      flowM3PerS: round(flow * misread * 60_000, 0.1) / 60_000,
      pumpedS: minutes * 60,
    })
  }
  return { depthM, read }
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

/** A level that wanders: first-order memory sampled by the month, with straight lines between. */
function weatherOf(settings: FleetSettings, dice: Dice): (t: number) => number {
  const sdM = dice.uniform(...settings.weatherSdM)
  const memory = Math.exp(-1 / 12 / dice.uniform(...settings.weatherMemoryYears))
  const months: number[] = [sdM * dice.normal()]
  for (let i = 1; i < 12 * 40; i++) {
    months.push(memory * (months[i - 1] ?? 0) + sdM * Math.sqrt(1 - memory * memory) * dice.normal())
  }
  return (t) => {
    const month = Math.max(0, t * 12)
    const i = Math.floor(month)
    const part = month - i
    return (months[i] ?? 0) * (1 - part) + (months[i + 1] ?? 0) * part
  }
}

function visitDays(settings: FleetSettings, dice: Dice, first: Day, years: number): Day[] {
  const count = Math.max(3, Math.round(dice.uniform(...settings.visitsPerYear) * years))
  const offsets = Array.from({ length: count - 1 }, () => Math.floor(dice.uniform(1, years * DAYS_PER_YEAR)))
  return [0, ...new Set(offsets)].sort((a, b) => a - b).map((offset) => addDays(first, offset))
}

function later(first: Day, years: number): Day {
  return addDays(first, Math.round(years * DAYS_PER_YEAR))
}

function round(value: number, step: number): number {
  return Math.round(value / step) * step
}
