export type Thinned =
  | { kind: 'corrected'; drawdownM: number }
  | { kind: 'cannot-say'; reason: 'deeper-than-aquifer'; message: string }

/**
 * Jacob's correction for a water table that thins the water-bearing layer: s' = s − s²/(2b).
 * It is the drawdown that the same rate would make in a layer of constant thickness b.
 *
 * Units   metres.
 * Answer  'cannot-say' where the drawdown exceeds the thickness: one of the two is wrong.
 * Throws  RangeError for a thickness that is not above zero or a negative drawdown.
 * Source  Jacob 1944; Kruseman & de Ridder, Analysis and Evaluation of Pumping Test Data, ch. 5.
 */
export function thinCorrected(drawdownM: number, saturatedThicknessM: number): Thinned {
  if (!(saturatedThicknessM > 0))
    throw new RangeError(`saturated thickness ${saturatedThicknessM} m is not above zero`)
  if (!(drawdownM >= 0)) throw new RangeError(`drawdown ${drawdownM} m is negative`)
  if (drawdownM > saturatedThicknessM) {
    return {
      kind: 'cannot-say',
      reason: 'deeper-than-aquifer',
      message:
        'The drawdown is larger than the saturated thickness: check the depth of the well and the levels.',
    }
  }
  return { kind: 'corrected', drawdownM: drawdownM - drawdownM ** 2 / (2 * saturatedThicknessM) }
}
