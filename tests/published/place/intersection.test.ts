import { describe, expect, test } from 'vitest'
import { type Candidate, errorEllipse, locate, type PlacedMark, type Tie } from '@/lib/domain/place'

const mark = (name: string, eastM: number, northM: number): PlacedMark => ({ name, eastM, northM, sigmaM: 0 })
const tie = (name: string, tapeM: number, sigmaM = 0.01): Tie => ({
  mark: name,
  tapeM,
  slope: { kind: 'level' },
  sigmaM,
})

function candidates(marks: PlacedMark[], ties: Tie[]): Candidate[] {
  const located = locate(marks, ties)
  if (located.kind !== 'located') throw new Error(located.reason)
  return located.candidates
}
const onSide = (all: Candidate[], side: string) => all.find((c) => c.side === side)

describe('two distances', () => {
  // Worked solution of two circles, algebra.com question 655501: (5, 9) and (-99/53, 581/53), exact fractions.
  test('meet at (5, 9) and (-99/53, 581/53)', () => {
    const both = candidates([mark('L', -3, -6), mark('M', -1, 1)], [tie('L', 17), tie('M', 10)])
    expect(both).toHaveLength(2)
    const right = onSide(both, 'right')?.at
    const left = onSide(both, 'left')?.at
    expect(right?.eastM).toBeCloseTo(5, 9)
    expect(right?.northM).toBeCloseTo(9, 9)
    expect(left?.eastM).toBeCloseTo(-99 / 53, 9)
    expect(left?.northM).toBeCloseTo(581 / 53, 9)
  })

  // Survey exercise, resetting a lost corner by distance-distance (inputs from wizedu.com 94341, feet). Its printed
  // answer was not visible; the corner asked for lies north-east of A. Values derived, both distances check to 0.001.
  test('reset a lost corner north of the line', () => {
    const both = candidates(
      [mark('A', 3496.45, 9798.03), mark('C', 5272.92, 10_161.36)],
      [tie('A', 1405.91), tie('C', 1121.3)],
    )
    const corner = onSide(both, 'left')?.at
    expect(corner?.eastM).toBeCloseTo(4404.818, 2)
    expect(corner?.northM).toBeCloseTo(10_871.087, 2)
    expect(onSide(both, 'right')?.at.northM).toBeCloseTo(9167.787, 2)
  })

  // Error propagation of two distances: rms = √(σ₁² + σ₂²) / sin γ (derived, surveying texts).
  test.each([
    [90, 0.1414],
    [60, 0.1633],
    [30, 0.2828],
    [20, 0.4135],
  ])('at an angle of %s degrees leave a position rms of %s m for tapes of 0.1 m', (angleDeg, rmsM) => {
    // The point at the origin, a mark due north and one turned by the angle.
    const turn = (angleDeg * Math.PI) / 180
    const marks = [mark('N', 0, 20), mark('T', 20 * Math.sin(turn), 20 * Math.cos(turn))]
    const both = candidates(marks, [tie('N', 20, 0.1), tie('T', 20, 0.1)])
    const at = both.find((c) => Math.hypot(c.at.eastM, c.at.northM) < 1e-6)
    if (!at) throw new Error('the origin is no candidate')
    expect(Math.abs(Math.sqrt(at.covariance.ee + at.covariance.nn) - rmsM)).toBeLessThan(0.0005)
    expect(at.weak === null).toBe(angleDeg >= 30)
  })
})

describe('three distances', () => {
  // Coordinates and distances of C. Ghilani, Adjustment Computations, Example 14.1 (feet). The adjusted values here
  // were computed beside it with numpy's least squares; the page with the book's own result was not seen.
  test('are fitted by least squares with their ellipse', () => {
    const marks = [mark('A', 865.4, 4527.15), mark('B', 2432.55, 2047.25), mark('C', 2865.22, 27.15)]
    const [best] = candidates(marks, [tie('A', 6049, 0.1), tie('B', 4736.83, 0.1), tie('C', 5446.49, 0.1)])
    if (!best) throw new Error('no place')
    expect(best.at.eastM).toBeCloseTo(6861.3168, 3)
    expect(best.at.northM).toBeCloseTo(3727.8186, 3)
    const over = best.residuals.map((r) => r.overM)
    ;[0.03737, -0.07679, 0.04737].forEach((expected, i) => {
      expect(over[i]).toBeCloseTo(expected, 4)
    })
    // Cofactors 0.63019, 2.49469, -0.72835: standard axes √2.7455 and √0.3794 of one unit, the long one on 161°.
    expect(best.covariance.ee / 0.01).toBeCloseTo(0.63019, 4)
    expect(best.covariance.nn / 0.01).toBeCloseTo(2.49469, 4)
    const oneSigma = errorEllipse(best.covariance, 1 - Math.exp(-0.5))
    expect(oneSigma.semiMajorM).toBeCloseTo((0.16181663 / 0.09765937) * 0.1, 5)
    expect(oneSigma.semiMinorM).toBeCloseTo((0.06015346 / 0.09765937) * 0.1, 5)
    expect(oneSigma.majorBearingDeg).toBeCloseTo(161, 2)
  })
})

describe('the error ellipse', () => {
  // Chi-square tables, two degrees of freedom: 39.35 % at one sigma, 2.447 sigmas at 95 %, 3.035 at 99 %.
  test.each([
    [0.3935, 1],
    [0.95, 2.4477],
    [0.99, 3.0349],
  ])('holding %s reaches %s standard deviations', (probability, reach) => {
    expect(errorEllipse({ ee: 1, nn: 1, en: 0 }, probability).semiMajorM).toBeCloseTo(reach, 3)
  })
})
