import fc from 'fast-check'
import { monthlyClearness, type SupplyPlan, sunOnPlane } from '@/lib/domain/pump/supply'

const DAYS = 365
export const FROM = '2026-03-01'

/** A temperate valley at 44° N: sun of a plain year on panels tilted to the latitude. */
export const valleySun = (() => {
  const shares = monthlyClearness(
    { kind: 'clearness', shares: [0.4, 0.42, 0.45, 0.5, 0.52, 0.55, 0.6, 0.58, 0.53, 0.45, 0.38, 0.36] },
    44,
  )
  if (shares.kind !== 'clearness') throw new Error(shares.message)
  return sunOnPlane(
    { latitudeDeg: 44, tiltDeg: 44, azimuthDeg: 0, groundShare: 0.2 },
    shares.shares,
    FROM,
    DAYS,
  )
})()

const allMonths = (value: number) => new Array<number>(12).fill(value)

/** A cabin with stock and a garden, on panels, never short. */
export const cabin: SupplyPlan = {
  from: FROM,
  drive: {
    kind: 'panels',
    ratedW: 200,
    deratingShare: 0.8,
    wireToWater: 0.35,
    headM: 12,
    startW: 20,
    mostM3PerS: 4e-4,
  },
  sunWPerM2: valleySun,
  wellM3PerS: [6, 6, 6, 6, 5, 4, 3, 2.5, 2.5, 3, 4, 5].map((rate) => rate * 1e-4),
  noLiftMonths: [],
  pumpOff: [],
  tankM3: 5,
  startM3: 5,
  uses: [
    { name: 'house', dailyM3: allMonths(0.6), pattern: 'house' },
    { name: 'stock', dailyM3: allMonths(0.3), pattern: 'daylight' },
    { name: 'garden', dailyM3: [0, 0, 0, 0, 0.3, 0.8, 1, 1, 0.4, 0, 0, 0], pattern: 'evening' },
  ],
}

const months = (most: number) =>
  fc.array(fc.double({ min: 0, max: most, noNaN: true }), { minLength: 12, maxLength: 12 })
const pattern = fc.constantFrom('even' as const, 'house' as const, 'daylight' as const, 'evening' as const)

/** Any plan at all: dry wells, empty tanks, months without lift, stopped pumps, no demand. */
export const anyPlan: fc.Arbitrary<SupplyPlan> = fc
  .record({
    drive: fc.oneof(
      fc.record({
        kind: fc.constant('mains' as const),
        flowM3PerS: fc.double({ min: 0, max: 1e-3, noNaN: true }),
      }),
      fc.record({
        kind: fc.constant('panels' as const),
        ratedW: fc.double({ min: 0, max: 1000, noNaN: true }),
        deratingShare: fc.double({ min: 0.3, max: 1, noNaN: true }),
        wireToWater: fc.double({ min: 0.05, max: 0.8, noNaN: true }),
        headM: fc.double({ min: 1, max: 60, noNaN: true }),
        startW: fc.double({ min: 0, max: 100, noNaN: true }),
        mostM3PerS: fc.double({ min: 0, max: 1e-3, noNaN: true }),
      }),
      fc.constant({
        kind: 'table' as const,
        rows: [
          { wPerM2: 150, flowM3PerS: 5e-5 },
          { wPerM2: 600, flowM3PerS: 3e-4 },
        ],
      }),
    ),
    wellM3PerS: months(1e-3),
    noLiftMonths: fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { maxLength: 4 }),
    pumpOff: fc.constantFrom([], [{ from: '2026-07-01', to: '2026-07-20' }]),
    tankM3: fc.double({ min: 0, max: 30, noNaN: true }),
    full: fc.double({ min: 0, max: 1, noNaN: true }),
    uses: fc.array(fc.record({ name: fc.constant('use'), dailyM3: months(4), pattern }), { maxLength: 3 }),
  })
  .map(({ full, ...plan }) => ({ ...plan, from: FROM, sunWPerM2: valleySun, startM3: full * plan.tankM3 }))
