import { type Refused, refuse } from './result'

export type Recuperation = {
  kind: 'fit'
  /** Slichter's K/A: specific capacity for each square metre of well, in 1/s. */
  perAreaPerS: number
  /** Its inverse, the time constant of the exponential. */
  timeConstantS: number
}

/**
 * The classical recuperation test: two drawdowns and the time between them.
 *
 *   K/A = ln(H1/H2) / T,   inflow = (K/A) · A · H
 *
 * It is the two-point case of the exponential recovery, and K/A is 1/T0.
 * Units   metres below static; seconds. Books print K/A in 1/h: multiply by 3600.
 * Answer  refused when the water did not rise, or rose to static or above (the logarithm then has no meaning).
 * Assumes inflow proportional to drawdown, and all of it through the bottom and the gravel below the water.
 * Source  Slichter's relation as in Punmia, Irrigation and Water Power Engineering, ch. 5.
 */
export function recuperation(
  drawdownAtStopM: number,
  drawdownLaterM: number,
  elapsedS: number,
): Recuperation | Refused {
  if (!(elapsedS > 0)) {
    return refuse('time-not-increasing', 'The second level must be later than the first: correct the time.')
  }
  if (drawdownLaterM <= 0) {
    return refuse(
      'above-static',
      'The second level is at static or above it: read again sooner, while the water is still rising.',
    )
  }
  if (drawdownLaterM >= drawdownAtStopM) {
    return refuse(
      'no-recovery',
      'The water did not rise between the two levels: check that the pump was off.',
    )
  }
  const perAreaPerS = Math.log(drawdownAtStopM / drawdownLaterM) / elapsedS
  return { kind: 'fit', perAreaPerS, timeConstantS: 1 / perAreaPerS }
}

/**
 * Inflow in m³/s at a drawdown: specific capacity (m²/s, that is m³/s for each metre) × drawdown (m).
 * Throws  RangeError for a negative drawdown: there is no inflow to speak of above static.
 */
export function inflowM3PerS(specificCapacityM2PerS: number, drawdownM: number): number {
  if (!(drawdownM >= 0)) throw new RangeError(`drawdown ${drawdownM} m is negative`)
  return specificCapacityM2PerS * drawdownM
}
