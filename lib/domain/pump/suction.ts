import { atmosphericPressurePa, headM, vapourPressurePa, waterDensityKgPerM3 } from './water-physics'

/** Heads on the suction side, all in metres of water. */
export type SuctionHeads = {
  atmosphericM: number
  vapourM: number
  /** Height of the pump above the pumping level; negative where water stands above the pump. */
  liftM: number
  /** Pipe, fittings and cartridge together. */
  lossesM: number
}

/** Net positive suction head available, m: what is left of the air's push once lift, losses and vapour have had theirs. */
export function npshAvailableM(heads: SuctionHeads): number {
  return heads.atmosphericM - heads.vapourM - heads.liftM - heads.lossesM
}

/** Highest lift in m at which a pump that needs `requiredM` of net positive suction head still draws. */
export function largestLiftM(heads: Omit<SuctionHeads, 'liftM'>, requiredM: number): number {
  return heads.atmosphericM - heads.vapourM - heads.lossesM - requiredM
}

/** Air and vapour heads at a place: standard atmosphere and steam-table vapour pressure, in metres of that water. */
export function airAndVapour(
  altitudeM: number,
  temperatureC: number,
): { atmosphericM: number; vapourM: number } {
  const density = waterDensityKgPerM3(temperatureC)
  return {
    atmosphericM: headM(atmosphericPressurePa(altitudeM), density),
    vapourM: headM(vapourPressurePa(temperatureC), density),
  }
}

export type SuctionSide = {
  altitudeM: number
  temperatureC: number
  /** Level ground (measuring point) to pump, m. */
  groundToPumpM: number
  /** Drawdown while pumping, m. */
  drawdownM: number
  frictionM: number
  cartridgeDropPa: number
  /** What the pump's sheet asks for, m; a margin of half a metre is common practice and belongs in here. */
  requiredM: number
}

export type LiftByMonth =
  | {
      kind: 'months'
      /** Suction head to spare in each month, January first; null where no static level is known. */
      spareM: (number | null)[]
      /** Months (1 to 12) in which the pump loses its lift, worst first. Empty where none of the known months does. */
      runsOut: number[]
      /** Months without a static level: nothing is claimed of them. */
      unknown: number[]
      /** Deepest static level that the pump still lifts from, m below the measuring point. */
      deepestStaticM: number
    }
  | { kind: 'cannot-say'; message: string }

/**
 * Suction head to spare month by month, so that a falling table shows as lost lift before it shows as no water.
 *
 * Shape   `monthlyStaticM` has twelve static levels in m below the measuring point, January first, null where unknown.
 * Answer  'cannot-say' where no month has a level.
 * Throws  RangeError for a list that is not twelve long.
 * Source  net positive suction head as in handbooks; standard atmosphere 1976; Wagner & Pruss 1993.
 */
export function liftByMonth(side: SuctionSide, monthlyStaticM: readonly (number | null)[]): LiftByMonth {
  if (monthlyStaticM.length !== 12) throw new RangeError(`${monthlyStaticM.length} months`)
  const deepestStaticM = deepestStatic(side)
  const spareM = monthlyStaticM.map((level) => (level === null ? null : deepestStaticM - level))
  const known = spareM.flatMap((spare, i) => (spare === null ? [] : [{ month: i + 1, spare }]))
  if (known.length === 0) {
    return { kind: 'cannot-say', message: 'No static level is known in any month: read one at each visit.' }
  }
  return {
    kind: 'months',
    spareM,
    runsOut: known
      .filter((m) => m.spare < 0)
      .sort((a, b) => a.spare - b.spare)
      .map((m) => m.month),
    unknown: spareM.flatMap((spare, i) => (spare === null ? [i + 1] : [])),
    deepestStaticM,
  }
}

/** Deepest static level in m below the measuring point from which the pump still lifts. */
export function deepestStatic(side: SuctionSide): number {
  const { atmosphericM, vapourM } = airAndVapour(side.altitudeM, side.temperatureC)
  const cartridgeM = headM(side.cartridgeDropPa, waterDensityKgPerM3(side.temperatureC))
  const lossesM = side.frictionM + cartridgeM
  return (
    largestLiftM({ atmosphericM, vapourM, lossesM }, side.requiredM) - side.groundToPumpM - side.drawdownM
  )
}
