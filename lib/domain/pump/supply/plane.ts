import { declinationRad, sunDistanceFactor, sunsetAngleRad } from '../sun'

/** Solar constant of FAO 56, 0.0820 MJ/m² a minute, as power. */
const SOLAR_CONSTANT_W_PER_M2 = 0.082e6 / 60
/** Under five degrees of height the ratio of beams runs away: what little there is counts as from all the sky. */
const LOW_SUN_COSINE = Math.sin((5 * Math.PI) / 180)

export type Plane = {
  latitudeDeg: number
  /** From level, degrees. */
  tiltDeg: number
  /** From due south, west positive, degrees; 180 looks north. */
  azimuthDeg: number
  /** Share of light that the ground throws back: 0.2 for grass, 0.6 and more for snow. */
  groundShare: number
}

/**
 * Share of a day's sun that falls in each of its 24 hours of solar time, summing to 1; all zero in polar night.
 * Source  Collares-Pereira & Rabl 1979 (Solar Energy 22:155-164), as in Duffie & Beckman, eq. 2.13.2.
 */
export function hourShares(latitudeDeg: number, dayOfYear: number): number[] {
  const sunset = sunsetAngleRad(latitudeDeg, dayOfYear)
  const shares: number[] = []
  let sum = 0
  for (const { cosine } of HOURS) {
    const share = Math.max(0, shareOf(sunset, cosine))
    shares.push(share)
    sum += share
  }
  return sum > 0 ? shares.map((share) => share / sum) : shares
}

/** The printed ratio of one hour to the day, before the hours are brought to sum to 1. Angles in radians. */
export function hourShare(sunsetRad: number, hourRad: number): number {
  return shareOf(sunsetRad, Math.cos(hourRad))
}

function shareOf(sunsetRad: number, hourCosine: number): number {
  const height = hourCosine - Math.cos(sunsetRad)
  const whole = Math.sin(sunsetRad) - sunsetRad * Math.cos(sunsetRad)
  if (height <= 0 || whole <= 0) return 0
  const bend = Math.sin(sunsetRad - Math.PI / 3)
  const weight = 0.409 + 0.5016 * bend + (0.6609 - 0.4767 * bend) * hourCosine
  return ((Math.PI / 24) * weight * height) / whole
}

/** Sine and cosine of the sun's angle at the middle of each hour. */
const HOURS = Array.from({ length: 24 }, (_, hour) => {
  const angle = ((hour - 11.5) * Math.PI) / 12
  return { sine: Math.sin(angle), cosine: Math.cos(angle) }
})

/**
 * Mean power of the sun on a tilted plane in one hour, W/m², from that on the level.
 *
 * Shape   `hour` 0 to 23 in solar time, from noon of the sun at 12; `levelWPerM2` the hour's mean on the level.
 * Source  isotropic sky of Liu & Jordan 1963, as in Duffie & Beckman, eq. 2.15.1; the share from all the sky by
 *         Erbs, Klein & Duffie 1982, eq. 2.10.1 there.
 */
export function onPlaneWPerM2(plane: Plane, dayOfYear: number, hour: number, levelWPerM2: number): number {
  return onTurned(turned(plane), skyOf(dayOfYear), hour, levelWPerM2)
}

/** The same for the 24 hours of a day from their mean powers on the level, for one plane after another day. */
export function planeByDay(plane: Plane): (dayOfYear: number, levelWPerM2: readonly number[]) => number[] {
  const at = turned(plane)
  return (dayOfYear, level) => {
    const sky = skyOf(dayOfYear)
    return level.map((wPerM2, hour) => onTurned(at, sky, hour, wPerM2))
  }
}

function onTurned(plane: Turned, sky: Sky, hour: number, levelWPerM2: number): number {
  if (levelWPerM2 <= 0) return 0
  const { height, incidence } = anglesOf(plane, sky, hour)
  const above = SOLAR_CONSTANT_W_PER_M2 * sky.distance * Math.max(height, 0)
  const diffuse = height > LOW_SUN_COSINE ? levelWPerM2 * diffuseShare(levelWPerM2 / above) : levelWPerM2
  const ratio = height > LOW_SUN_COSINE ? Math.max(0, incidence) / height : 0
  return onTilt(plane.tilt.cosine, plane.groundShare, levelWPerM2 - diffuse, diffuse, ratio)
}

/** Beam, sky and ground on the tilted plane; `ratio` is the beam's there over that on the level. */
export function tilted(
  plane: Pick<Plane, 'tiltDeg' | 'groundShare'>,
  beam: number,
  diffuse: number,
  ratio: number,
): number {
  return onTilt(Math.cos(radians(plane.tiltDeg)), plane.groundShare, beam, diffuse, ratio)
}

function onTilt(tilt: number, groundShare: number, beam: number, diffuse: number, ratio: number): number {
  return beam * ratio + (diffuse * (1 + tilt)) / 2 + ((beam + diffuse) * groundShare * (1 - tilt)) / 2
}

/** Share of an hour's sun that comes from the whole sky, by the hour's clearness: Erbs et al. 1982. */
export function diffuseShare(clearness: number): number {
  if (clearness <= 0.22) return 1 - 0.09 * clearness
  if (clearness > 0.8) return 0.165
  return (
    0.9511 - 0.1604 * clearness + 4.388 * clearness ** 2 - 16.638 * clearness ** 3 + 12.336 * clearness ** 4
  )
}

/** Cosines at the middle of an hour: of the sun from the zenith (its height), and of its beam from the plane's own axis. */
export function sunAngles(
  plane: Omit<Plane, 'groundShare'>,
  dayOfYear: number,
  hour: number,
): { height: number; incidence: number } {
  return anglesOf(turned({ ...plane, groundShare: 0 }), skyOf(dayOfYear), hour)
}

type Turn = { sine: number; cosine: number }
/** A plane with the sines and cosines of its angles: the same for every hour of a year. */
type Turned = { latitude: Turn; tilt: Turn; azimuth: Turn; groundShare: number }
/** What one day's sun has in all its hours. */
type Sky = { declination: Turn; distance: number }

const radians = (degrees: number): number => (degrees * Math.PI) / 180
const turnOf = (angleRad: number): Turn => ({ sine: Math.sin(angleRad), cosine: Math.cos(angleRad) })

function turned({ latitudeDeg, tiltDeg, azimuthDeg, groundShare }: Plane): Turned {
  return {
    latitude: turnOf(radians(latitudeDeg)),
    tilt: turnOf(radians(tiltDeg)),
    azimuth: turnOf(radians(azimuthDeg)),
    groundShare,
  }
}

function skyOf(dayOfYear: number): Sky {
  return { declination: turnOf(declinationRad(dayOfYear)), distance: sunDistanceFactor(dayOfYear) }
}

function anglesOf(
  { latitude, tilt, azimuth }: Omit<Turned, 'groundShare'>,
  { declination }: Sky,
  hour: number,
): { height: number; incidence: number } {
  const angle = HOURS[hour]
  if (!angle) throw new RangeError(`${hour} is no hour of a day`)
  const height = latitude.cosine * declination.cosine * angle.cosine + latitude.sine * declination.sine
  // Duffie & Beckman, eq. 1.6.2.
  const incidence =
    declination.sine * latitude.sine * tilt.cosine -
    declination.sine * latitude.cosine * tilt.sine * azimuth.cosine +
    declination.cosine * latitude.cosine * tilt.cosine * angle.cosine +
    declination.cosine * latitude.sine * tilt.sine * azimuth.cosine * angle.cosine +
    declination.cosine * tilt.sine * azimuth.sine * angle.sine
  return { height, incidence }
}
