export type AvailableDrawdown =
  | { kind: 'available'; drawdownM: number }
  | { kind: 'cannot-say'; reason: 'no-static' | 'no-intake'; message: string }
  | { kind: 'none'; shortM: number; message: string }

/**
 * How far the level may be drawn down: from the static level to the intake, less the water kept above the intake so
 * that the pump draws no air.
 *
 * Units   metres below the measuring point; `keepAboveIntakeM` in metres of water.
 * Answer  'cannot-say' without a static or an intake depth; 'none' where static already stands too low.
 */
export function availableDrawdown(well: {
  /** Static level of the season asked about: the yearly low for a rate that must always hold. */
  staticM: number | null
  intakeM: number | null
  keepAboveIntakeM: number
}): AvailableDrawdown {
  if (well.staticM === null) {
    return {
      kind: 'cannot-say',
      reason: 'no-static',
      message: 'Read the static level at the dry end of the season first.',
    }
  }
  if (well.intakeM === null) {
    return { kind: 'cannot-say', reason: 'no-intake', message: 'Enter the depth of the intake first.' }
  }
  const drawdownM = well.intakeM - well.keepAboveIntakeM - well.staticM
  if (drawdownM > 0) return { kind: 'available', drawdownM }
  return {
    kind: 'none',
    shortM: -drawdownM,
    message: 'At this static level the intake is not covered: the pump draws air.',
  }
}

/**
 * Rate in m³/s that the well carries at the seasonal low: specific capacity × available drawdown.
 *
 * With a saturated thickness b (static low to the base of the water-bearing layer) the capacity is that of the
 * corrected drawdown, and the drawdown is corrected too (Jacob 1944): s − s²/2b.
 * Throws  RangeError for a negative capacity or drawdown, or a thickness that the drawdown exceeds.
 */
export function sustainableRateM3PerS(
  specificCapacityM2PerS: number,
  availableDrawdownM: number,
  saturatedThicknessM: number | null,
): number {
  if (!(specificCapacityM2PerS >= 0) || !(availableDrawdownM >= 0)) {
    throw new RangeError(`capacity ${specificCapacityM2PerS} m²/s, drawdown ${availableDrawdownM} m`)
  }
  if (saturatedThicknessM === null) return specificCapacityM2PerS * availableDrawdownM
  if (!(saturatedThicknessM >= availableDrawdownM)) {
    throw new RangeError(`drawdown ${availableDrawdownM} m in a layer of ${saturatedThicknessM} m`)
  }
  const corrected = availableDrawdownM - availableDrawdownM ** 2 / (2 * saturatedThicknessM)
  return specificCapacityM2PerS * corrected
}

export type DemandCheck = {
  /** What the well can give in a day of pumping for `pumpedHoursPerDay`. */
  dailyYieldM3: number
  carries: boolean
  /** Yield over demand: 1 is just enough. */
  ratio: number
  /** Hours of pumping a day that would meet the demand; above 24 it cannot be met. Null where the well gives nothing. */
  hoursPerDayNeeded: number | null
  /** Days that the full tank lasts while the well gives what it can; null where the well keeps up. */
  tankLastsDays: number | null
}

/**
 * Sets a sustainable rate against a day's demand and the tank.
 * Units   m³/s, m³/day, m³, hours a day.
 * Throws  RangeError for a demand that is not above zero (unknown demand has no check) or hours outside 0 to 24.
 */
export function checkDemand(
  rateM3PerS: number,
  demandM3PerDay: number,
  storageM3: number,
  pumpedHoursPerDay: number,
): DemandCheck {
  if (!(demandM3PerDay > 0)) throw new RangeError(`demand ${demandM3PerDay} m³/day is not above zero`)
  if (!(pumpedHoursPerDay > 0 && pumpedHoursPerDay <= 24))
    throw new RangeError(`${pumpedHoursPerDay} hours a day`)
  const dailyYieldM3 = rateM3PerS * pumpedHoursPerDay * 3600
  const shortM3 = demandM3PerDay - dailyYieldM3
  return {
    dailyYieldM3,
    carries: shortM3 <= 0,
    ratio: dailyYieldM3 / demandM3PerDay,
    hoursPerDayNeeded: rateM3PerS > 0 ? demandM3PerDay / rateM3PerS / 3600 : null,
    tankLastsDays: shortM3 > 0 ? storageM3 / shortM3 : null,
  }
}

/**
 * Shortest time in seconds in which a well that gives `rateM3PerS` fills a volume: no tank fills faster than the
 * ground gives. The water standing in the well at the start comes on top and is not counted.
 * Throws  RangeError for a rate that is not above zero.
 */
export function fillTimeS(volumeM3: number, rateM3PerS: number): number {
  if (!(rateM3PerS > 0)) throw new RangeError(`rate ${rateM3PerS} m³/s is not above zero`)
  return volumeM3 / rateM3PerS
}
