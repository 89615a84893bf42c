import { describe, expect, test } from 'vitest'
import { fromLocal, lineBetween, pointAt, toLocal, turnBetween } from '@/lib/domain/place'

const dms = (degrees: number, minutes: number, seconds: number) => degrees + minutes / 60 + seconds / 3600

/**
 * Lines with a published length and bearing. `within` in m.
 *
 * Flinders Peak to Buninyong: ICSM, Geocentric Datum of Australia Technical Manual, chapter 4 (ellipsoid GRS 80, which
 * differs from WGS 84 by 0.1 mm in the half axis). Kennedy to Heathrow: the example of the GeographicLib
 * documentation. The next two: first lines of GeodTest (C. Karney), the reference lines of that library. The last: a
 * tenth of a metre, by the same library.
 */
const LINES = [
  {
    name: 'Flinders Peak to Buninyong',
    from: [-dms(37, 57, 3.7203), dms(144, 25, 29.5244)],
    to: [-dms(37, 39, 10.1561), dms(143, 55, 35.3839)],
    distanceM: 54_972.271,
    bearingDeg: dms(306, 52, 5.37),
    within: 0.001,
  },
  {
    name: 'Kennedy to Heathrow',
    from: [40.6, -73.8],
    to: [51.6, -0.5],
    distanceM: 5_551_759.400_319,
    bearingDeg: 51.198_882_845_579_82,
    within: 0.001,
  },
  {
    name: 'over the Pacific',
    from: [35.607_77, -139.448_15],
    to: [-11.174_91, -69.959_21],
    distanceM: 8_935_244.560_481_83,
    bearingDeg: 111.098_748_429_560_33,
    within: 0.001,
  },
  {
    name: 'over the date line',
    from: [55.524_54, 106.050_87],
    to: [77.031_96, 197.182_34 - 360],
    distanceM: 4_105_086.171_392_44,
    bearingDeg: 22.020_059_880_982_8,
    within: 0.001,
  },
  {
    name: 'a tenth of a metre',
    from: [10, 105],
    to: [10, 105.000_001],
    distanceM: 0.109_639_364,
    bearingDeg: 90,
    within: 1e-5,
  },
] as const

describe.each(LINES)('$name', ({ from, to, distanceM, bearingDeg, within }) => {
  const start = { latitude: from[0], longitude: from[1] }
  const end = { latitude: to[0], longitude: to[1] }

  test('has its published length and bearing', () => {
    const line = lineBetween(start, end)
    expect(Math.abs(line.distanceM - distanceM)).toBeLessThan(within)
    // Printed to a hundredth of a second, or computed to the last digit.
    expect(Math.abs(turnBetween(bearingDeg, line.bearingDeg ?? Number.NaN))).toBeLessThan(3e-6)
    expect(line.method).toBe('ellipsoid')
  })

  test('leads from its start to its end', () => {
    const reached = pointAt(start, bearingDeg, distanceM)
    expect(lineBetween(reached, end).distanceM).toBeLessThan(Math.max(0.002, distanceM * 6e-8))
  })
})

// Wellington to Salamanca, the near-antipodal example of the GeographicLib documentation: 19 959 679.267 m.
test('a line half round the globe is answered by the sphere, within 0.6 %, and says so', () => {
  const far = lineBetween({ latitude: -41.32, longitude: 174.81 }, { latitude: 40.96, longitude: -5.5 })
  expect(far.method).toBe('sphere')
  expect(Math.abs(far.distanceM / 19_959_679.267 - 1)).toBeLessThan(0.006)
})

test('a place laid flat and back is the same place', () => {
  const origin = { latitude: 44.5, longitude: -72.6 }
  const place = { latitude: 44.503, longitude: -72.607 }
  const back = fromLocal(origin, toLocal(origin, place))
  expect(lineBetween(back, place).distanceM).toBeLessThan(1e-5)
})

test('two places laid flat are as far apart as on the ellipsoid', () => {
  const origin = { latitude: 44.5, longitude: -72.6 }
  const a = { latitude: 44.505, longitude: -72.607 }
  const b = { latitude: 44.497, longitude: -72.594 }
  const [p, q] = [toLocal(origin, a), toLocal(origin, b)]
  const flatM = Math.hypot(p.eastM - q.eastM, p.northM - q.northM)
  expect(Math.abs(flatM - lineBetween(a, b).distanceM)).toBeLessThan(1e-4)
})

test('the same point has no bearing, and no place throws', () => {
  const here = { latitude: 1, longitude: 2 }
  expect(lineBetween(here, here)).toEqual({ distanceM: 0, bearingDeg: null, method: 'ellipsoid' })
  expect(() => lineBetween(here, { latitude: 91, longitude: 0 })).toThrow(RangeError)
  expect(() => pointAt(here, 0, -1)).toThrow(RangeError)
})
