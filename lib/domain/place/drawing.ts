/** A place drawn to scale: where marks, tapes and head stand on a sheet of so many points. */
import type { UnitSystem } from '@/lib/domain/quantity'
import { fromSi, toSi } from '@/lib/domain/quantity'
import type { Candidate, PlacedMark } from './locate'
import type { LocalPoint } from './plane'

type OnSheet = { x: number; y: number }

export type Drawing = {
  marks: (OnSheet & { name: string; letter: string })[]
  /** Best first. Half axes in points; `turnDeg` is clockwise from the upright. */
  heads: (OnSheet & { majorPt: number; minorPt: number; turnDeg: number })[]
  /** The longest round length that fits a third of the sheet. */
  bar: { points: number; length: number; unit: 'm' | 'ft' }
  pointsPerM: number
}

/** Lengths that people read off a bar. */
const STEPS = [1, 2, 5] as const

/**
 * Lays marks and candidates on a square sheet of `size` points, north (or up) at the top, with `margin` left free.
 * Units   points; local metres in. The scale is the same in both directions.
 * Throws  RangeError where there is nothing to draw.
 */
export function drawPlace(
  marks: readonly PlacedMark[],
  candidates: readonly Candidate[],
  size: number,
  margin: number,
  system: UnitSystem,
): Drawing {
  const all: LocalPoint[] = [...marks, ...candidates.map((candidate) => candidate.at)]
  if (all.length === 0) throw new RangeError('nothing to draw')
  const east = span(all.map((p) => p.eastM))
  const north = span(all.map((p) => p.northM))
  const widestM = Math.max(east.width, north.width, 1)
  const pointsPerM = (size - 2 * margin) / widestM
  const put = (p: LocalPoint): OnSheet => ({
    x: size / 2 + (p.eastM - east.middle) * pointsPerM,
    y: size / 2 - (p.northM - north.middle) * pointsPerM,
  })
  return {
    marks: marks.map((mark, i) => ({ ...put(mark), name: mark.name, letter: letterOf(i) })),
    heads: candidates.map(({ at, ellipse }) => ({
      ...put(at),
      majorPt: ellipse.semiMajorM * pointsPerM,
      minorPt: ellipse.semiMinorM * pointsPerM,
      turnDeg: ellipse.majorBearingDeg,
    })),
    bar: barOf(size / 3 / pointsPerM, pointsPerM, system),
    pointsPerM,
  }
}

/** A, B, C ... in the order of the marks. */
export const letterOf = (index: number): string => String.fromCharCode(65 + (index % 26))

function span(values: readonly number[]): { middle: number; width: number } {
  const low = Math.min(...values)
  const high = Math.max(...values)
  return { middle: (low + high) / 2, width: high - low }
}

function barOf(mostM: number, pointsPerM: number, system: UnitSystem): Drawing['bar'] {
  const unit = system === 'metric' ? 'm' : 'ft'
  const most = fromSi(mostM, unit)
  const ten = 10 ** Math.floor(Math.log10(most))
  const length = Math.max(...STEPS.map((step) => step * ten).filter((round) => round <= most))
  return { length, unit, points: toSi(length, unit) * pointsPerM }
}
