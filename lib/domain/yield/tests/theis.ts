import { type Line, type NoLine, straightLine } from './log-line'
import { type LevelReading, type Refused, refuse } from './result'

/**
 * Theis's well function W(u), the exponential integral E1(u), for u > 0.
 * Source  Abramowitz & Stegun 1964: series 5.1.11 up to u = 1, continued fraction 5.1.22 above.
 * Throws  RangeError for u that is not above zero.
 */
export function wellFunction(u: number): number {
  if (!(u > 0)) throw new RangeError(`the well function has no value at ${u}`)
  if (u > 700) return 0
  if (u > 1) {
    let fraction = 0
    for (let k = 60; k >= 1; k--) fraction = k / (1 + k / (u + fraction))
    return Math.exp(-u) / (u + fraction)
  }
  let term = 1
  let sum = -0.5772156649015329 - Math.log(u)
  for (let k = 1; k < 30; k++) {
    term *= -u / k
    sum -= term / k
  }
  return sum
}

/**
 * Agarwal's equivalent time: read at it, the recovery after pumping for `pumpedS` looks like a drawdown.
 * Source  Agarwal 1980, SPE 9289: t_a = t_p t' / (t_p + t'). Seconds in, seconds out.
 */
export function agarwalTimeS(pumpedS: number, sinceStopS: number): number {
  return (pumpedS * sinceStopS) / (pumpedS + sinceStopS)
}

export type TheisFit = {
  kind: 'fit'
  transmissivityM2PerS: number
  /** Holds only for an observation well at a known distance; in the pumped well it means nothing. */
  storativity: number
  residualM: number
  window: { fromS: number; toS: number; readings: number }
}

/**
 * Theis curve through drawdowns in an observation well (or recoveries at Agarwal's time): s = Q/(4πT) · W(r²S/4Tt).
 *
 * Units   seconds, metres, m³/s, metres from the pumped well.
 * Answer  refused under four readings.
 * Method  for each r²S/4T the drawdown is linear in 1/T, so the search is over one number (golden section).
 * Source  Theis 1935, Trans. AGU 16:519-524.
 */
export function fitTheis(
  drawdowns: readonly { elapsedS: number; drawdownM: number }[],
  flowM3PerS: number,
  distanceM: number,
): TheisFit | Refused {
  const used = drawdowns.filter((d) => d.elapsedS > 0)
  if (used.length < 4) return refuse('too-few', `${used.length} readings of the 4 needed for a Theis curve.`)
  const times = used.map((d) => d.elapsedS)
  const low = Math.log(Math.min(...times) * 1e-8)
  const high = Math.log(Math.max(...times) * 10)
  const at = goldenSection(low, high, (log) => linearTheis(used, Math.exp(log)).squares)
  const best = linearTheis(used, Math.exp(at))
  if (!(best.scale > 0))
    return refuse('poor-fit', 'The levels follow no Theis curve: check levels, times and pumping rate.')
  const transmissivityM2PerS = flowM3PerS / (4 * Math.PI * best.scale)
  return {
    kind: 'fit',
    transmissivityM2PerS,
    storativity: (4 * transmissivityM2PerS * Math.exp(at)) / distanceM ** 2,
    residualM: Math.sqrt(best.squares / (used.length - 2)),
    window: { fromS: Math.min(...times), toS: Math.max(...times), readings: used.length },
  }
}

function linearTheis(drawdowns: readonly { elapsedS: number; drawdownM: number }[], delayS: number) {
  const shape = drawdowns.map((d) => wellFunction(delayS / d.elapsedS))
  const top = shape.reduce((sum, w, i) => sum + w * (drawdowns[i]?.drawdownM ?? 0), 0)
  const scale = top / shape.reduce((sum, w) => sum + w * w, 0)
  const squares = shape.reduce((sum, w, i) => sum + ((drawdowns[i]?.drawdownM ?? 0) - scale * w) ** 2, 0)
  return { scale, squares }
}

/** The place of the least value: a coarse scan first, since the curve may have a flat shoulder. */
function goldenSection(low: number, high: number, loss: (x: number) => number): number {
  const steps = 80
  const width = (high - low) / steps
  let best = low
  for (let i = 1; i <= steps; i++) {
    if (loss(low + i * width) < loss(best)) best = low + i * width
  }
  const ratio = (Math.sqrt(5) - 1) / 2
  let a = best - width
  let b = best + width
  while (b - a > 1e-7) {
    const left = b - ratio * (b - a)
    const right = a + ratio * (b - a)
    if (loss(left) < loss(right)) b = right
    else a = left
  }
  return (a + b) / 2
}

export type JacobLine = {
  kind: 'line'
  transmissivityM2PerS: number
  /** Drawdown for each tenfold of time, metres. */
  perLogCycleM: number
  /** Time at which the line crosses zero drawdown, seconds. */
  zeroS: number
  residualM: number
  window: { fromS: number; toS: number; readings: number }
}

/**
 * Jacob's straight line: drawdown on log10 of time, T = 2.303 Q / (4π Δs).
 *
 * Why a window: the early part shows the water stored in the well, the late part leakage or a boundary. It is part of
 * the answer, since T moves with it by half and more.
 * Units   seconds, metres, m³/s.
 * Answer  'too-few' under three readings inside the window; refused where drawdown does not grow.
 * Source  Cooper & Jacob 1946, Trans. AGU 27:526-534.
 */
export function jacobLine(
  drawdowns: readonly { elapsedS: number; drawdownM: number }[],
  flowM3PerS: number,
  window: { fromS: number; toS: number },
): JacobLine | NoLine | Refused {
  const used = drawdowns.filter(
    (d) => d.elapsedS > 0 && d.elapsedS >= window.fromS && d.elapsedS <= window.toS,
  )
  const line = straightLine(used.map((d) => ({ x: Math.log10(d.elapsedS), y: d.drawdownM })))
  return line.kind === 'too-few' ? line : lineAnswer(line, flowM3PerS, window)
}

function lineAnswer(
  line: Line,
  flowM3PerS: number,
  window: { fromS: number; toS: number },
): JacobLine | Refused {
  if (!(line.slope > 0)) {
    return refuse(
      'no-drawdown',
      'The level did not fall over this part of the test: the pumping level is steady, so no straight line of time can be read.',
    )
  }
  return {
    kind: 'line',
    transmissivityM2PerS: (Math.LN10 * flowM3PerS) / (4 * Math.PI * line.slope),
    perLogCycleM: line.slope,
    zeroS: 10 ** (-line.intercept / line.slope),
    residualM: line.residual,
    window: { ...window, readings: line.points },
  }
}

/**
 * Storativity from Jacob's line at an observation well: S = 2.25 T t0 / r². Never from the pumped well itself, where
 * well loss moves the line.
 */
export function jacobStorativity(line: JacobLine, distanceM: number): number {
  return (2.25 * line.transmissivityM2PerS * line.zeroS) / distanceM ** 2
}

/**
 * Theis recovery: residual drawdown on log10(t/t'), T = 2.303 Q / (4π Δs'). Works in the pumped well, too, since well
 * loss ends with the pumping.
 *
 * Units   seconds since the pump stopped, metres of residual drawdown, m³/s before the stop, seconds pumped.
 * Answer  'too-few' under three readings after `fromS`; refused where the residual does not shrink.
 * Source  Theis 1935; Todd 1980, Groundwater Hydrology.
 */
export function theisRecovery(
  residuals: readonly LevelReading[],
  staticM: number,
  pumped: { flowM3PerS: number; forS: number },
  fromS: number,
): JacobLine | NoLine | Refused {
  const used = residuals.filter((r) => r.elapsedS > 0 && r.elapsedS >= fromS)
  const line = straightLine(
    used.map((r) => ({ x: Math.log10((pumped.forS + r.elapsedS) / r.elapsedS), y: r.levelM - staticM })),
  )
  if (line.kind === 'too-few') return line
  const toS = used[used.length - 1]?.elapsedS ?? fromS
  return lineAnswer(line, pumped.flowM3PerS, { fromS, toS })
}

/**
 * Hvorslev's conductivity from a time constant: K = rc² ln(L/R) / (2 L T0), m/s.
 * Answer  'too-short' where L/R is 8 or less: the formula's shape factor does not hold there.
 * Source  Hvorslev 1951, US Army WES Bull. 36.
 */
export function hvorslevConductivity(
  well: { casingRadiusM: number; screenRadiusM: number; screenLengthM: number },
  timeConstantS: number,
): { kind: 'conductivity'; mPerS: number } | { kind: 'too-short'; lengthOverRadius: number; need: number } {
  const lengthOverRadius = well.screenLengthM / well.screenRadiusM
  if (!(lengthOverRadius > 8)) return { kind: 'too-short', lengthOverRadius, need: 8 }
  const mPerS =
    (well.casingRadiusM ** 2 * Math.log(lengthOverRadius)) / (2 * well.screenLengthM * timeConstantS)
  return { kind: 'conductivity', mPerS }
}
