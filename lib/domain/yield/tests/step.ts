import { type NoLine, straightLine } from './log-line'
import { type Refused, refuse, span } from './result'

/** One step of constant rate; `endS` is the moment the rate changed, in seconds since the pump started. */
export type Step = { flowM3PerS: number; endS: number }
export type StepDrawdown = { flowM3PerS: number; drawdownM: number }

export type StepFit = {
  kind: 'fit'
  method: 'equal-time increments' | 'end of step'
  /** Aquifer loss, s/m²: the part of drawdown that grows with the rate. */
  bSPerM2: number
  /** Well loss, s²/m⁵: the part that grows with its square. */
  cS2PerM5: number
  /** Scatter of s/Q about the line, as a share of B: how well two numbers describe the steps. */
  residualShare: number
  /** Largest rate the test saw: beyond it the answer is a guess. */
  upToM3PerS: number
  warnings: string[]
}

const STEPS_MIN = 3

/**
 * Step test, s = BQ + CQ²: the line of s/Q on Q, intercept B and slope C.
 *
 * Shape   one drawdown a step, in order of rate; at least three steps of different rate.
 * Units   m³/s and metres; B in s/m², C in s²/m⁵ (times 86400 and 86400² from days).
 * Answer  refused where a level stands above static, under three rates, where drawdown does not grow with the rate, or where B comes out negative
 *         (turbulence alone cannot be: a level or a rate is wrong). A negative C is held at zero, with a warning:
 *         the well cleared itself during the test, or the steps were not run to the same time.
 * `endOfStep` tells that the drawdowns are those read at the end of each step, without the drift of earlier steps
 *         taken out. They overstate C (by 43 to 48 % on Clark's data), and the answer says so.
 * Source  Jacob 1947; Bierschenk 1963; Hantush 1964; Kruseman & de Ridder 1994, ch. 14.
 */
export function fitSteps(steps: readonly StepDrawdown[], endOfStep: boolean): StepFit | Refused {
  for (const { flowM3PerS, drawdownM } of steps) {
    if (!(flowM3PerS > 0) || !Number.isFinite(drawdownM)) {
      throw new RangeError(`step (${flowM3PerS} m³/s, ${drawdownM} m) has no rate or no drawdown`)
    }
  }
  const above = steps.findIndex((s) => s.drawdownM < 0)
  if (above >= 0) return aboveStatic(above + 1)
  const line = straightLine(steps.map((s) => ({ x: s.flowM3PerS, y: s.drawdownM / s.flowM3PerS })))
  if (line.kind === 'too-few') return fewSteps(line)
  const byRate = [...steps].sort((a, b) => a.flowM3PerS - b.flowM3PerS)
  const grows = byRate.every((s, i) => i === 0 || s.drawdownM > (byRate[i - 1]?.drawdownM ?? 0))
  if (!grows) {
    return refuse(
      'no-drawdown',
      'A higher rate gave no larger drawdown: check that levels stand with the right rates.',
    )
  }
  if (!(line.intercept > 0)) {
    return refuse(
      'poor-fit',
      'The steps bend more than well loss can: check the rates and the static level, or repeat with smaller steps.',
    )
  }
  const warnings = endOfStep ? [END_OF_STEP] : []
  if (line.slope < 0) warnings.push(CLEARED)
  return {
    kind: 'fit',
    method: endOfStep ? 'end of step' : 'equal-time increments',
    bSPerM2:
      line.slope < 0
        ? steps.reduce((sum, s) => sum + s.drawdownM / s.flowM3PerS, 0) / steps.length
        : line.intercept,
    cS2PerM5: Math.max(0, line.slope),
    residualShare: line.residual / line.intercept,
    upToM3PerS: byRate[byRate.length - 1]?.flowM3PerS ?? 0,
    warnings,
  }
}

const END_OF_STEP =
  'Levels at the end of each step still carry the drift of the steps before: C comes out too large (by nearly half on a published test). Do not judge a decline by it; compare specific capacity at the same rate and time instead.'
const CLEARED =
  'Drawdown grew less than the rate: the well cleared itself during the test, or the steps were not equally long. Well loss cannot be told from this test.'

const aboveStatic = (step: number): Refused =>
  refuse(
    'above-static',
    `The level at the end of step ${step} stands above the level at rest, and a pump cannot raise it: check both, and the mark they were read from.`,
  )

const fewSteps = (line: NoLine): Refused =>
  refuse(
    'too-few',
    `${line.have} different rates of the ${STEPS_MIN} needed: run at least three steps, each at a higher rate.`,
  )

/**
 * Drawdown that each rate would have made had it run alone from the start, `afterS` into its step (Hantush–Bierschenk).
 * The log-time trend at the end of a step is carried into the next, and the increment read above it.
 *
 * Shape   readings in order of time with drawdown in metres; steps in order of time.
 * Answer  refused where a step has fewer than three readings in its last two thirds, or none about `afterS`.
 */
export function stepIncrements(
  readings: readonly { elapsedS: number; drawdownM: number }[],
  steps: readonly Step[],
  afterS: number,
): { kind: 'steps'; steps: StepDrawdown[] } | Refused {
  const out: StepDrawdown[] = []
  let total = 0
  let trend: { intercept: number; slope: number; fromS: number } | null = null
  for (const [i, step] of steps.entries()) {
    const fromS = steps[i - 1]?.endS ?? 0
    const own = readings.filter((r) => r.elapsedS > fromS && r.elapsedS <= step.endS)
    const read = readAt(own, fromS + afterS)
    if (read === null)
      return refuse('too-few', `Step ${i + 1} has no readings about ${span(afterS)} after its start.`)
    const carried: number = trend ? trend.intercept + trend.slope * Math.log(fromS + afterS - trend.fromS) : 0
    total += read - carried
    out.push({ flowM3PerS: step.flowM3PerS, drawdownM: total })
    const tail = own.filter((r) => r.elapsedS - fromS >= (step.endS - fromS) / 3)
    const line = straightLine(tail.map((r) => ({ x: Math.log(r.elapsedS - fromS), y: r.drawdownM })))
    if (line.kind === 'too-few') {
      return refuse(
        'too-few',
        `Step ${i + 1} has ${line.have} late readings of the 3 needed: read each step to its end.`,
      )
    }
    trend = { intercept: line.intercept, slope: line.slope, fromS }
  }
  return { kind: 'steps', steps: out }
}

function readAt(readings: readonly { elapsedS: number; drawdownM: number }[], atS: number): number | null {
  const after = readings.findIndex((r) => r.elapsedS >= atS)
  const next = readings[after]
  const before = readings[after - 1]
  if (!next) return null
  if (next.elapsedS === atS) return next.drawdownM
  if (!before) return null
  const share = (atS - before.elapsedS) / (next.elapsedS - before.elapsedS)
  return before.drawdownM + share * (next.drawdownM - before.drawdownM)
}

/** Share of the drawdown at a rate that the ground itself takes, B/(B + CQ); the rest is well loss. */
export function stepEfficiency(fit: Pick<StepFit, 'bSPerM2' | 'cS2PerM5'>, flowM3PerS: number): number {
  return fit.bSPerM2 / (fit.bSPerM2 + fit.cS2PerM5 * flowM3PerS)
}

/** Drawdown in metres that s = BQ + CQ² expects at a rate. */
export function stepDrawdownM(fit: Pick<StepFit, 'bSPerM2' | 'cS2PerM5'>, flowM3PerS: number): number {
  return fit.bSPerM2 * flowM3PerS + fit.cS2PerM5 * flowM3PerS ** 2
}
