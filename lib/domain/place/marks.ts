/** Fixed marks (a door corner, a post, a boulder) given in any of three ways, made points of one frame. */
import type { LatLon } from './geodesy'
import { locate, type PlacedMark } from './locate'
import { type LocalPoint, stepFrom, toLocal } from './plane'
import type { Tie } from './tape'

/** A tape between two marks. */
export type Span = { from: string; to: string; tapeM: number; sigmaM: number | null }

/** `side` is the hand on which the mark lies when walking from the first mark to the second; null for those two. */
export type SpannedMark = { name: string; side: 'left' | 'right' | null }

/** How the marks are known. A mark by satellite carries the radius that holds it with 95 %. */
export type MarksGiven =
  | { kind: 'local'; marks: readonly (LocalPoint & { name: string })[]; origin: LatLon | null }
  | { kind: 'geographic'; marks: readonly (LatLon & { name: string; accuracyM: number })[] }
  | {
      kind: 'spans'
      marks: readonly SpannedMark[]
      spans: readonly Span[]
      /** True bearing from the first mark to the second; null leaves the frame without a north. */
      firstToSecondDeg: number | null
    }

/** `northUp` says whether bearings in the frame are true ones; `origin` is its place on the globe, where known. */
export type MarksPlaced =
  | { kind: 'placed'; marks: PlacedMark[]; northUp: boolean; origin: LatLon | null }
  | { kind: 'no-place'; reason: string; doThis: string }

/** A 95 % radius as a standard deviation in one direction. */
const RADIUS_TO_SIGMA = 1 / Math.sqrt(-2 * Math.log(0.05))

/**
 * Puts the marks into one flat frame.
 *
 * Shape   local coordinates are taken as they are; places on the globe are laid flat around the first mark; distances
 *         between marks put the first at the origin, the second on its bearing (north where none is known), and every
 *         further one by its tapes to marks already placed.
 * Answer  'no-place' with a reason: a name twice, fewer than two marks, spans that do not reach or do not meet.
 */
export function placeMarks(given: MarksGiven): MarksPlaced {
  const names = given.marks.map((m) => m.name)
  const twice = names.find((name, i) => names.indexOf(name) !== i)
  if (twice !== undefined) {
    return noPlace(`Two marks are called "${twice}".`, 'Give each mark a name of its own.')
  }
  if (given.kind === 'local') {
    const marks = given.marks.map((m) => ({ ...m, sigmaM: 0 }))
    return { kind: 'placed', marks, northUp: true, origin: given.origin }
  }
  return given.kind === 'geographic' ? placeGeographic(given) : placeSpans(given)
}

const noPlace = (reason: string, doThis: string): MarksPlaced => ({ kind: 'no-place', reason, doThis })

function placeGeographic({ marks }: MarksGiven & { kind: 'geographic' }): MarksPlaced {
  const [first] = marks
  if (!first) return noPlace('There are no marks.', 'Enter two fixed marks.')
  const origin = { latitude: first.latitude, longitude: first.longitude }
  const placed = marks.map((m) => ({
    name: m.name,
    ...toLocal(origin, m),
    sigmaM: m.accuracyM * RADIUS_TO_SIGMA,
  }))
  return { kind: 'placed', marks: placed, northUp: true, origin }
}

function placeSpans({ marks, spans, firstToSecondDeg }: MarksGiven & { kind: 'spans' }): MarksPlaced {
  const [first, second, ...others] = marks
  if (!first || !second) return noPlace('There are fewer than two marks.', 'Enter two fixed marks.')
  const base = spans.find((s) => joins(s, first.name, second.name))
  if (!base) {
    return noPlace(
      `The distance from "${first.name}" to "${second.name}" is missing.`,
      'Measure between the first two marks.',
    )
  }
  const start = { eastM: 0, northM: 0 }
  const placed: PlacedMark[] = [
    { name: first.name, ...start, sigmaM: 0 },
    { name: second.name, ...stepFrom(start, firstToSecondDeg ?? 0, base.tapeM), sigmaM: 0 },
  ]
  for (const mark of others) {
    const at = placeByTapes(mark, placed, spans)
    if ('reason' in at) return noPlace(`Mark "${mark.name}": ${at.reason}`, at.doThis)
    placed.push({ name: mark.name, ...at, sigmaM: 0 })
  }
  return { kind: 'placed', marks: placed, northUp: firstToSecondDeg !== null, origin: null }
}

type Unplaced = { reason: string; doThis: string }

function placeByTapes(
  mark: SpannedMark,
  placed: readonly PlacedMark[],
  spans: readonly Span[],
): LocalPoint | Unplaced {
  const ties = placed.flatMap((known): Tie[] => {
    const span = spans.find((s) => joins(s, known.name, mark.name))
    return span
      ? [{ mark: known.name, tapeM: span.tapeM, slope: { kind: 'level' }, sigmaM: span.sigmaM }]
      : []
  })
  const located = locate(placed, ties)
  if (located.kind === 'no-place') return { reason: located.reason, doThis: located.doThis }
  const [best, other] = located.candidates
  if (!best) throw new Error('a located mark has no candidate')
  if (!other) return best.at
  const onSide = [best, other].find((c) => c.side === mark.side)
  if (onSide) return onSide.at
  return {
    reason: 'the tapes meet on both sides of the line.',
    doThis: 'Say on which hand it lies when walking from the first mark to the second.',
  }
}

const joins = (span: Span, a: string, b: string) =>
  (span.from === a && span.to === b) || (span.from === b && span.to === a)
