/** The buried point from its tape ties. */
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import { meet } from './circles'
import { type Covariance, type Ellipse, ellipseReach, errorEllipse } from './ellipse'
import { type FittedPoint, fitPoints, type Reach } from './fit'
import { type Misfit, misfittingTies } from './misfit'
import { apartM, bearingBetween, type LocalPoint, offLineM } from './plane'
import { levelLength, type Tie, usualTapeSigmaM } from './tape'
import { touchingTapes } from './touching'

/** A fixed mark at its place. `sigmaM` is how well it is placed itself (0 where it only defines the frame). */
export type PlacedMark = LocalPoint & { name: string; sigmaM: number }

/** What each tape says about a point. `off` is the misfit in standard deviations. */
export type Residual = { mark: string; lengthM: number; foundM: number; overM: number; off: number }

/** One possible place of the well. */
export type Candidate = {
  at: LocalPoint
  covariance: Covariance
  ellipse: Ellipse
  residuals: Residual[]
  /** The hand on which it lies when walking from the first mark of the ties to the second. */
  side: 'left' | 'right' | 'on-the-line'
  /** Set where the tapes only just meet, or meet at a flat angle: the place is poorly known across. */
  weak: string | null
}

export type Located = { kind: 'located'; candidates: Candidate[]; misfit: Misfit } | NoPlace

type NoPlace = { kind: 'no-place'; reason: string; doThis: string }

export type LocateOptions = {
  /** Chance that the ellipse holds the point. */
  probability: number
  /** Chance of calling ties that fit a misfit. */
  falseAlarm: number
  system: UnitSystem
}

export const USUAL_OPTIONS: LocateOptions = { probability: 0.95, falseAlarm: 0.01, system: 'metric' }

/** Below this angle between two tapes, or above its supplement, the error across is more than double. */
const FLAT_DEG = 30

/**
 * Where the well lies by its ties to placed marks.
 *
 * Shape   two ties give two candidates, one on each hand; three or more give one by least squares, or two where the
 *         marks stand in a line. The best comes first; `chooseCandidate` decides with what else is known.
 * Units   m; the ellipse holds the point with `probability`, for tapes as good as their standard deviations say.
 * Answer  'no-place' with a reason and what to do: too few ties, an unknown mark, tapes that cannot meet.
 * Source  variation of coordinates by weighted least squares; ellipse from the inverse of the normal matrix.
 *         Checked in tests/published/place and by simulation in tests/domain/place.
 */
export function locate(
  marks: readonly PlacedMark[],
  ties: readonly Tie[],
  options: LocateOptions = USUAL_OPTIONS,
): Located {
  const reaches = reachesOf(marks, ties)
  if (!Array.isArray(reaches)) return reaches
  const [first, second] = reaches
  if (!first || !second) {
    return noPlace(
      `A place needs ties from two marks; there ${reaches.length === 1 ? 'is one' : 'are none'}.`,
      'Tape to a second fixed mark, better to a third.',
    )
  }
  if (reaches.every((r) => apartM(r.from, first.from) === 0)) {
    return noPlace('The marks are one and the same point.', 'Tape to a mark that stands somewhere else.')
  }
  const fitted = reaches.length === 2 ? twoTapes(first, second, options) : manyTapes(reaches)
  if (!Array.isArray(fitted)) return fitted
  const [best] = fitted
  if (!best) {
    return noPlace(
      'The tapes do not meet anywhere near one point.',
      'Measure each tie again, and check which mark it is from.',
    )
  }
  // A second place is worth telling where the ties do not rule it out against the best one.
  const reach = ellipseReach(options.probability) ** 2
  const candidates = fitted
    .filter((f) => f.chiSquare - best.chiSquare <= reach)
    .slice(0, 2)
    .map((f) => asCandidate(f, reaches, options))
  return { kind: 'located', candidates, misfit: misfittingTies(reaches, best, options) }
}

const noPlace = (reason: string, doThis: string): NoPlace => ({
  kind: 'no-place',
  reason,
  doThis,
})

function reachesOf(marks: readonly PlacedMark[], ties: readonly Tie[]): Reach[] | NoPlace {
  const reaches: Reach[] = []
  for (const tie of ties) {
    const mark = marks.find((m) => m.name === tie.mark)
    if (!mark) {
      return noPlace(`The mark "${tie.mark}" has no place.`, 'Place the mark, or tie to another one.')
    }
    const level = levelLength(tie.tapeM, tie.slope)
    if (level.kind === 'no-length') {
      return noPlace(`Tie from "${tie.mark}": ${level.why}`, 'Correct the tape length or the slope.')
    }
    const sigmaM = Math.hypot(tie.sigmaM ?? usualTapeSigmaM(level.lengthM), mark.sigmaM)
    if (!(sigmaM > 0)) throw new RangeError(`tie from ${tie.mark} has no standard deviation`)
    reaches.push({ mark: tie.mark, from: mark, lengthM: level.lengthM, sigmaM })
  }
  return reaches
}

function twoTapes(a: Reach, b: Reach, options: LocateOptions): FittedPoint[] | NoPlace {
  const meeting = meet(a.from, a.lengthM, b.from, b.lengthM)
  const touching = touchingTapes([a, b])
  if (touching) return [touching]
  if (meeting.kind === 'two') return fitPoints([a, b])
  if (meeting.kind === 'one-mark') return []
  const say = (m: number) => formatQuantity(m, 'distance', options.system)
  const marksApart = say(apartM(a.from, b.from))
  if (meeting.kind === 'apart') {
    return noPlace(
      `The two tapes do not meet: together they are ${say(meeting.gapM)} too short for marks ${marksApart} apart.`,
      `Check the tape from "${a.mark}", the tape from "${b.mark}" and the distance between the marks.`,
    )
  }
  const long = a.lengthM > b.lengthM ? a : b
  const short = long === a ? b : a
  return noPlace(
    `The two tapes do not meet: the tape from "${long.mark}" reaches ${say(meeting.gapM)} beyond the far end of the tape from "${short.mark}".`,
    `Check the tape from "${long.mark}" (too long?), the tape from "${short.mark}" (too short?) and that the marks stand ${marksApart} apart.`,
  )
}

/** Where every mark and the well lie in one line, no tape holds the point across it, and the fit finds nothing. */
function manyTapes(reaches: readonly Reach[]): FittedPoint[] {
  const fitted = fitPoints(reaches)
  if (fitted.length > 0) return fitted
  const touching = touchingTapes(reaches)
  return touching ? [touching] : []
}

function asCandidate(fitted: FittedPoint, reaches: readonly Reach[], options: LocateOptions): Candidate {
  const { at, covariance } = fitted
  const [first, second] = reaches
  const off = first && second ? offLineM(first.from, second.from, at) : 0
  return {
    at,
    covariance,
    ellipse: errorEllipse(covariance, options.probability),
    residuals: reaches.map((r) => residual(r, at)),
    side: Math.abs(off) < 0.005 ? 'on-the-line' : off > 0 ? 'left' : 'right',
    weak: weakness(reaches, at),
  }
}

function residual(reach: Reach, at: LocalPoint): Residual {
  const foundM = apartM(reach.from, at)
  const overM = reach.lengthM - foundM
  return { mark: reach.mark, lengthM: reach.lengthM, foundM, overM, off: overM / reach.sigmaM }
}

/** The best angle between any two tapes; flat when even that is near 0 or 180. */
function weakness(reaches: readonly Reach[], at: LocalPoint): string | null {
  let best = 0
  reaches.forEach((a, i) => {
    for (const b of reaches.slice(i + 1)) {
      const turn = Math.abs(bearingBetween(at, a.from) - bearingBetween(at, b.from)) % 180
      best = Math.max(best, Math.min(turn, 180 - turn))
    }
  })
  if (best >= FLAT_DEG) return null
  return `The tapes meet at ${Math.round(best)} degrees, flatter than ${FLAT_DEG}: across them the place is poorly known. A mark to the side would help.`
}
