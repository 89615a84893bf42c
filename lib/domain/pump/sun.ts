/** Solar constant as used by FAO 56, MJ/m² a minute. */
const SOLAR_CONSTANT = 0.082

/** Declination of the sun in radians on a day of the year (1 to 366): FAO Irrigation and Drainage Paper 56, eq. 24. */
export function declinationRad(dayOfYear: number): number {
  return 0.409 * Math.sin((2 * Math.PI * dayOfYear) / 365 - 1.39)
}

/**
 * Hours from sunrise to sunset, 0 in polar night and 24 in polar day.
 * Units   latitude in degrees, south negative.
 * Source  FAO 56 (Allen et al. 1998), eqs. 25 and 34; the sun as a point, no refraction: about 7 to 10 min short.
 * Throws  RangeError for a latitude beyond 90°.
 */
export function dayLengthH(latitudeDeg: number, dayOfYear: number): number {
  return (24 / Math.PI) * sunsetAngleRad(latitudeDeg, dayOfYear)
}

/**
 * Energy of the sun above the air on a level square metre, MJ a day.
 * Source  FAO 56, eq. 21.
 */
export function extraterrestrialMjPerM2(latitudeDeg: number, dayOfYear: number): number {
  const distance = sunDistanceFactor(dayOfYear)
  const latitude = (latitudeDeg * Math.PI) / 180
  const declination = declinationRad(dayOfYear)
  const sunset = sunsetAngleRad(latitudeDeg, dayOfYear)
  const sum =
    sunset * Math.sin(latitude) * Math.sin(declination) +
    Math.cos(latitude) * Math.cos(declination) * Math.sin(sunset)
  return Math.max(0, ((24 * 60) / Math.PI) * SOLAR_CONSTANT * distance * sum)
}

/** Energy on a level square metre under a clear sky, MJ a day, at an altitude in m. Source: FAO 56, eq. 37. */
export function clearSkyMjPerM2(latitudeDeg: number, dayOfYear: number, altitudeM: number): number {
  return (0.75 + 2e-5 * altitudeM) * extraterrestrialMjPerM2(latitudeDeg, dayOfYear)
}

/** How much nearer than on average the sun stands, as a factor on its power: FAO 56, eq. 23. */
export function sunDistanceFactor(dayOfYear: number): number {
  return 1 + 0.033 * Math.cos((2 * Math.PI * dayOfYear) / 365)
}

/**
 * Hour angle of sunset in radians, 0 in polar night and π in polar day: FAO 56, eq. 25.
 * Throws  RangeError for a latitude beyond 90°.
 */
export function sunsetAngleRad(latitudeDeg: number, dayOfYear: number): number {
  if (!(Math.abs(latitudeDeg) <= 90)) throw new RangeError(`latitude ${latitudeDeg}°`)
  const x = -Math.tan((latitudeDeg * Math.PI) / 180) * Math.tan(declinationRad(dayOfYear))
  return Math.acos(Math.max(-1, Math.min(1, x)))
}
