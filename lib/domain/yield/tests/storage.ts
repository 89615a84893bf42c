/** The pit that holds the gravel, seen from above. */
export type Pit =
  | { shape: 'round'; diameterM: number }
  | { shape: 'rectangular'; lengthM: number; widthM: number }

export type WellSection = {
  casingBoreM: number
  /** Outside diameter; the bore when unknown, which overstates the gravel by the wall alone. */
  casingOutsideM: number | null
  /** Null for a well without gravel (casing alone stores water). */
  pit: Pit | null
  /** Drainable share of the gravel's volume, between 0 and 1. Null when unknown. */
  gravelPorosity: number | null
}

export type EffectiveArea =
  | { kind: 'area'; areaM2: number; casingM2: number; gravelM2: number; note: string | null }
  | { kind: 'cannot-say'; reason: 'porosity-unknown' | 'pit-smaller-than-casing'; message: string }

/**
 * The horizontal area that fills when the water rises: what turns a rate of rise into an inflow.
 *
 *   A = casing bore area + porosity × (pit area − casing outside area)
 *
 * For a round pit this is π [rc² + n (rw² − ro²)] with rc the bore, ro the outside radius of the casing and rw the pit.
 * With ro = rc it is the equivalent casing radius of Bouwer & Rice (1976, Water Resour. Res. 12:423-428).
 * Units   metres in, m² out. An area in m² is also the volume in m³ per metre of rise.
 * Answer  'cannot-say' when there is gravel of unknown porosity (a guess of 0.25 against 0.40 moves the yield by half),
 *         or when the pit is smaller than the casing.
 * Throws  RangeError for a size that is not positive or a porosity outside 0 to 1: forms refuse those.
 */
export function effectiveArea(well: WellSection): EffectiveArea {
  const boreM = positive(well.casingBoreM, 'casing bore')
  const outsideM = positive(well.casingOutsideM ?? boreM, 'casing outside diameter')
  if (outsideM < boreM) throw new RangeError(`casing outside ${outsideM} m is less than its bore ${boreM} m`)
  const casingM2 = circleAreaM2(boreM)
  if (!well.pit) return { kind: 'area', areaM2: casingM2, casingM2, gravelM2: 0, note: null }
  const annulusM2 = pitAreaM2(well.pit) - circleAreaM2(outsideM)
  if (annulusM2 < 0) {
    return {
      kind: 'cannot-say',
      reason: 'pit-smaller-than-casing',
      message: 'The pit is smaller than the casing: check both sizes and their units.',
    }
  }
  const porosity = well.gravelPorosity
  if (porosity === null) {
    return {
      kind: 'cannot-say',
      reason: 'porosity-unknown',
      message:
        'The gravel holds water too, but its porosity is not recorded: enter it (washed gravel is commonly 0.25 to 0.40), or measure it by draining a bucket of the gravel.',
    }
  }
  if (!(porosity >= 0 && porosity <= 1)) throw new RangeError(`porosity ${porosity} is not between 0 and 1`)
  const gravelM2 = porosity * annulusM2
  const note =
    well.casingOutsideM === null ? 'Casing outside diameter unknown: the bore stood in for it.' : null
  return { kind: 'area', areaM2: casingM2 + gravelM2, casingM2, gravelM2, note }
}

/** Area of a circle in m² from its diameter in m; also the volume in m³ held by each metre of a casing. */
export function circleAreaM2(diameterM: number): number {
  return (Math.PI * positive(diameterM, 'diameter') ** 2) / 4
}

/** Plan area of a pit in m². Throws RangeError for a side that is not positive. */
export function pitAreaM2(pit: Pit): number {
  return pit.shape === 'round'
    ? circleAreaM2(pit.diameterM)
    : positive(pit.lengthM, 'pit length') * positive(pit.widthM, 'pit width')
}

function positive(value: number, what: string): number {
  if (!(value > 0) || !Number.isFinite(value)) throw new RangeError(`${what} ${value} m is not above zero`)
  return value
}
