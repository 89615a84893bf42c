import { type DrawdownFit, fitDrawdown } from '@/lib/domain/yield/tests/drawdown'
import { fitRecovery, type RecoveryFit } from '@/lib/domain/yield/tests/recovery'
import { belowBottom } from '@/lib/domain/yield/tests/recovery-checks'
import { type Recuperation, recuperation } from '@/lib/domain/yield/tests/recuperation'
import type { Interval80, LevelReading, Refused } from '@/lib/domain/yield/tests/result'
import { fitSteps, type StepFit, stepEfficiency } from '@/lib/domain/yield/tests/step'
import type { Fact } from './kinds'
import type { WellRegister } from './register'
import { type FillingArea, fillingArea, type SectionSizes } from './well-section'

/** What the reckoning of a test must know of the well as built. */
export type TestedWell = SectionSizes & Pick<WellRegister, 'wellDepthM' | 'intakeDepthM'>

/** A well as built of which nothing was measured: its tests are reckoned all the same, and tell less. */
export const UNMEASURED_WELL: TestedWell = {
  casingBoreM: null,
  casingOutsideM: null,
  pitDiameterM: null,
  pitLengthM: null,
  pitWidthM: null,
  gravelPorosity: null,
  wellDepthM: null,
  intakeDepthM: null,
}

/** A test as it was read, in SI; `flowM3PerS` null where the rate is not known. */
export type TestReadings =
  | { kind: 'recovery'; staticM: number | null; readings: readonly LevelReading[] }
  | {
      kind: 'drawdown'
      staticM: number | null
      flowM3PerS: number | null
      readings: readonly LevelReading[]
    }
  | {
      kind: 'step'
      staticM: number | null
      steps: readonly { flowM3PerS: number; endS: number; levelM: number }[]
    }

/** The classical formula over the first and the last level of the curve, and the inflow for each metre. */
export type TwoPoint = {
  drawdownFirstM: number
  drawdownLastM: number
  elapsedS: number
  answer: Recuperation | Refused
}

export type TestFact = Extract<Fact, { kind: 'recovery-test' | 'drawdown-test' | 'step-test' }>

/** Whether a line of the logbook is a well test. */
export const isTest = (fact: Fact): fact is TestFact =>
  fact.kind === 'recovery-test' || fact.kind === 'drawdown-test' || fact.kind === 'step-test'

/** A stored test as it is reckoned: SI values; steps follow each other, each ending where its minutes end. */
export function testReadings(fact: TestFact): TestReadings {
  const staticM = fact.static?.si ?? null
  if (fact.kind === 'step-test') {
    let endS = 0
    const steps = fact.steps.map(({ flow, duration, level }) => {
      endS += duration.si
      return { flowM3PerS: flow.si, endS, levelM: level.si }
    })
    return { kind: 'step', staticM, steps }
  }
  const readings = fact.readings.map(({ elapsed, level }) => ({ elapsedS: elapsed.si, levelM: level.si }))
  return fact.kind === 'recovery-test'
    ? { kind: 'recovery', staticM, readings }
    : { kind: 'drawdown', staticM, flowM3PerS: fact.flow.si, readings }
}

export type TestResult = { area: FillingArea; capacity: Interval80 | null } & (
  | { kind: 'recovery'; fit: RecoveryFit | Refused; twoPoint: TwoPoint | null }
  | { kind: 'drawdown'; fit: DrawdownFit | Refused }
  | {
      kind: 'step'
      fit: StepFit | Refused
      /** Each step with its drawdown and the share of it that the ground takes (null without a fit). */
      steps: { flowM3PerS: number; drawdownM: number | null; efficiency: number | null }[]
    }
)

const NO_STATIC: Refused = {
  kind: 'refused',
  code: 'no-drawdown',
  message:
    'The level at rest was not read, and without it there is no drawdown: read it before the pump starts.',
}

/**
 * What a test says of its well, or why it says nothing. The same for the page while readings come in, for the report
 * and for the questions of the form.
 *
 * Units   as in TestReadings; `capacity` in m²/s with its 80 % interval (both ends the value itself where the method
 *         gives no interval: drawdown and step tests).
 */
export function testResult(test: TestReadings, well: TestedWell): TestResult {
  const area = fillingArea(well)
  switch (test.kind) {
    case 'recovery':
      return recoveryResult(test, well, area)
    case 'drawdown':
      return drawdownResult(test, well, area)
    case 'step':
      return stepResult(test, well, area)
  }
}

const inTime = (readings: readonly LevelReading[]) => [...readings].sort((a, b) => a.elapsedS - b.elapsedS)

function recoveryResult(
  test: Extract<TestReadings, { kind: 'recovery' }>,
  well: TestedWell,
  area: FillingArea,
): TestResult {
  const readings = inTime(test.readings)
  const fit = fitRecovery(readings, {
    staticM: test.staticM,
    effectiveAreaM2: area.kind === 'area' ? area.areaM2 : null,
    wellDepthM: well.wellDepthM,
  })
  const staticM = fit.kind === 'fit' ? fit.staticM : test.staticM
  return {
    kind: 'recovery',
    area,
    fit,
    capacity: fit.kind === 'fit' ? fit.specificCapacityM2PerS : null,
    twoPoint: staticM === null ? null : twoPointOf(readings, staticM),
  }
}

/** Two levels far apart in time, the last of them not yet at static, where the logarithm would only tell the tape's error. */
function twoPointOf(readings: readonly LevelReading[], staticM: number): TwoPoint | null {
  const first = readings[0]
  if (!first) return null
  const startM = first.levelM - staticM
  const last = readings.findLast((r) => r.levelM - staticM > 0.1 * startM && r.elapsedS > first.elapsedS)
  if (!last) return null
  const elapsedS = last.elapsedS - first.elapsedS
  const drawdownLastM = last.levelM - staticM
  return {
    drawdownFirstM: startM,
    drawdownLastM,
    elapsedS,
    answer: recuperation(startM, drawdownLastM, elapsedS),
  }
}

function drawdownResult(
  test: Extract<TestReadings, { kind: 'drawdown' }>,
  well: TestedWell,
  area: FillingArea,
): TestResult {
  const below = belowBottom(test.readings, well.wellDepthM)
  if (below) return { kind: 'drawdown', area, fit: below, capacity: null }
  if (test.staticM === null) return { kind: 'drawdown', area, fit: NO_STATIC, capacity: null }
  const fit = fitDrawdown(inTime(test.readings), {
    staticM: test.staticM,
    flowM3PerS: test.flowM3PerS,
    effectiveAreaM2: area.kind === 'area' ? area.areaM2 : null,
    // The register knows how deep the well is, not how deep the water-bearing ground: nothing is corrected by a guess.
    saturatedThicknessM: null,
  })
  return {
    kind: 'drawdown',
    area,
    fit,
    capacity: fit.kind === 'fit' ? alone(fit.specificCapacityM2PerS) : null,
  }
}

function stepResult(
  test: Extract<TestReadings, { kind: 'step' }>,
  well: TestedWell,
  area: FillingArea,
): TestResult {
  const { staticM } = test
  const drawdowns = test.steps.map(({ flowM3PerS, levelM }) => ({
    flowM3PerS,
    drawdownM: staticM === null ? null : levelM - staticM,
  }))
  const known = drawdowns.flatMap(({ flowM3PerS, drawdownM }) =>
    drawdownM === null || !(flowM3PerS > 0) ? [] : [{ flowM3PerS, drawdownM }],
  )
  const fit =
    belowBottom(test.steps, well.wellDepthM) ?? (staticM === null ? NO_STATIC : fitSteps(known, true))
  const efficiency = (flowM3PerS: number) => (fit.kind === 'fit' ? stepEfficiency(fit, flowM3PerS) : null)
  const top = known.at(-1)
  return {
    kind: 'step',
    area,
    fit,
    // Capacity falls with the rate: the one stated is that of the last step.
    capacity: fit.kind === 'fit' && top && top.drawdownM > 0 ? alone(top.flowM3PerS / top.drawdownM) : null,
    steps: drawdowns.map((step) => ({ ...step, efficiency: efficiency(step.flowM3PerS) })),
  }
}

const alone = (value: number): Interval80 => ({ value, low: value, high: value })
