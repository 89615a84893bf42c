import { tQuantile } from '@/lib/domain/stats/special'
import type { Exponential } from './exponential'
import { timeConstantInWindow, type WindowedConstant } from './log-line'
import type { LevelReading } from './result'

/** How the time constant changes inside the test: late (half to a tenth left) over early (all to half left). */
export type Drift =
  | {
      kind: 'drift'
      earlyS: number
      lateS: number
      lateOverEarly: number
      /** The factor, whichever way, that the change surely reaches (95 %); 1 where it may be none at all. */
      atLeast: number
      established: boolean
    }
  | { kind: 'cannot-say'; why: string }

/** Misfits in waves below this share of the drawdown are drift, which is reported; above it, another process. */
const WAVE_SHARE = 0.05

/**
 * Whether misfits run in long waves instead of scattering: 1 where the readings are more bent than one exponential
 * (fast, then slow), −1 where they are straighter, 0 where one curve will do.
 */
export function bendOf(readings: readonly LevelReading[], curve: Exponential): -1 | 0 | 1 {
  const limit = 3 * curve.residualM
  const misfits = readings.map((r) => Math.max(-limit, Math.min(limit, misfitM(r, curve))))
  const squares = misfits.reduce((sum, m) => sum + m * m, 0)
  const products = misfits.reduce((sum, m, i) => sum + m * (misfits[i - 1] ?? 0), 0)
  const scatter = Math.sqrt(squares / Math.max(1, readings.length - 2))
  if (scatter < WAVE_SHARE * curve.startM || products < 0.5 * squares) return 0
  const third = Math.floor(readings.length / 3)
  const sum = (part: readonly number[]) => part.reduce((all, m) => all + m, 0)
  return sum(misfits.slice(0, 2)) + sum(misfits.slice(-third)) >= 0 ? 1 : -1
}

const misfitM = (r: LevelReading, curve: Exponential): number =>
  r.levelM - curve.staticM - curve.startM * Math.exp(-r.elapsedS / curve.timeConstantS)

/** Time constants of the two halves of the way back, with static held where it was measured. */
export function driftOf(
  readings: readonly LevelReading[],
  curve: Exponential,
  staticMeasured: boolean,
): Drift {
  if (!staticMeasured) {
    return {
      kind: 'cannot-say',
      why: 'static was read off the same curve, which hides a drift: read static first',
    }
  }
  const drawdowns = readings
    .filter((_, i) => (curve.weights[i] ?? 0) > 0 || isShape(readings, i, curve))
    .map((r) => ({ elapsedS: r.elapsedS, drawdownM: r.levelM - curve.staticM }))
  // The largest drawdown read stands for the start: the curve's own start is off where one curve does not fit.
  const startM = Math.max(...drawdowns.map((d) => d.drawdownM))
  const early = timeConstantInWindow(drawdowns, startM, { from: 1, to: 0.5 })
  const late = timeConstantInWindow(drawdowns, startM, { from: 0.5, to: 0.1 })
  if (early.kind !== 'time-constant') return noDrift('before half of the drawdown came back', early)
  if (late.kind !== 'time-constant') return noDrift('between half and nine tenths back', late)
  const lateOverEarly = late.timeConstantS / early.timeConstantS
  const error = Math.hypot(early.logError, late.logError)
  const sure = tQuantile(0.975, early.points + late.points - 4)
  const atLeast = Math.exp(Math.max(0, Math.abs(Math.log(lateOverEarly)) - sure * error))
  return {
    kind: 'drift',
    earlyS: early.timeConstantS,
    lateS: late.timeConstantS,
    lateOverEarly,
    atLeast,
    established: atLeast > 1,
  }
}

/** A run of misfits on one side is the recovery's shape, not a slip: only lone ones are left out of the drift. */
function isShape(readings: readonly LevelReading[], i: number, curve: Exponential): boolean {
  const side = (at: number) => {
    const r = readings[at]
    if (!r || (curve.weights[at] ?? 1) > 0) return 0
    return Math.sign(misfitM(r, curve))
  }
  const here = side(i)
  return here !== 0 && (side(i - 1) === here || side(i + 1) === here)
}

function noDrift(where: string, found: Exclude<WindowedConstant, { kind: 'time-constant' }>): Drift {
  const why =
    found.kind === 'not-rising'
      ? `no rise ${where}`
      : `only ${found.have} readings ${where}, ${found.need} needed`
  return { kind: 'cannot-say', why }
}
