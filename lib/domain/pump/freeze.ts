/** Water left over the frost line, m: soils and winters differ. Common practice, no published source. */
const MARGIN_M = 0.15

export type FreezeNote =
  | { kind: 'below' | 'close' | 'above'; spareM: number; says: string }
  | { kind: 'cannot-say'; says: string }

/**
 * Whether a buried outlet or pipe lies under the frost. A note, never a promise: local codes and the soil decide.
 * Units   m below ground; null where unknown.
 */
export function freezeNote(buriedM: number | null, frostM: number | null): FreezeNote {
  if (buriedM === null) return { kind: 'cannot-say', says: 'The depth of the outlet is not recorded.' }
  if (frostM === null)
    return { kind: 'cannot-say', says: 'The local frost depth is not recorded: ask the building department.' }
  const spareM = buriedM - frostM
  if (spareM >= MARGIN_M)
    return { kind: 'below', spareM, says: 'The outlet lies under the local frost depth.' }
  return spareM >= 0
    ? {
        kind: 'close',
        spareM,
        says: 'The outlet lies just under the local frost depth: a bare or wet winter may reach it.',
      }
    : {
        kind: 'above',
        spareM,
        says: 'The outlet lies above the local frost depth: drain it for winter or insulate it.',
      }
}

/**
 * Depth of frost in m by Stefan's equation, X = √(2 k n F / L): an upper estimate for where no local depth is published.
 *
 * Units   `indexKDays` air freezing index in K·days; conductivity of frozen soil in W/(m·K); latent heat in J/m³ of
 *         soil; `surface` n-factor (1 snow-free turf at most, 0.5 under snow).
 * Source  Stefan 1891, as in US Army TM 5-852-6 (the equation from memory).
 */
export function frostDepthM(
  indexKDays: number,
  conductivityWPerMK: number,
  latentJPerM3: number,
  surface: number,
): number {
  if (!(indexKDays >= 0) || !(conductivityWPerMK > 0) || !(latentJPerM3 > 0) || !(surface > 0)) {
    throw new RangeError(
      `frost of ${indexKDays} K·days in ${conductivityWPerMK} W/(m·K), ${latentJPerM3} J/m³`,
    )
  }
  return Math.sqrt((2 * conductivityWPerMK * surface * indexKDays * 86_400) / latentJPerM3)
}
