import type { Day } from '@/lib/domain/quantity/day'
import { beliefQuestion, type CartridgeQuestion, cartridgePace, requireCartridgeQuestion } from './cartridge'
import { type Believed, type Blinding, believe } from './cartridge-belief'
import { learn } from './cartridge-learning'
import { type CartridgeRun, cartridgeRuns, type LoadReading } from './cartridge-runs'
import { logMoments } from './forecast'

/** A reading carried to the reference flow. `used` in m³ since the change, or days where volumes are missing. */
export type CoursePoint = { on: Day; used: number; readPa: number; atReferencePa: number; leftOut: boolean }

export type CartridgeCourse =
  | {
      kind: 'course'
      by: CartridgeRun['by']
      changedOn: Day | null
      points: CoursePoint[]
      /** Earlier cartridges of this well, oldest first. */
      earlier: { changedOn: Day | null; points: CoursePoint[] }[]
      /** The drop expected at the reference flow, and the ends between which it lies with 80 %, by use. */
      curve: { used: number; middlePa: number; lowPa: number; highPa: number }[]
      terminalPa: number
      blinding: Blinding | null
    }
  | { kind: 'cannot-say'; why: string }

const CURVE_POINTS = 25

/**
 * What a chart of the cartridge in place shows: drops carried to one flow, and the course that the readings leave
 * open, to a little past the middle of the uses at which the terminal drop may be reached.
 *
 * Answer  'cannot-say' without a reading of this cartridge.
 * Throws  RangeError as forecastCartridge does.
 */
export function cartridgeCourse(question: CartridgeQuestion): CartridgeCourse {
  requireCartridgeQuestion(question)
  const runs = cartridgeRuns(
    question.readings,
    question.changes,
    question.referenceFlowM3PerS,
    question.volumes,
  )
  const current = runs.at(-1)
  const last = current?.readings.at(-1)
  if (!current || !last) return { kind: 'cannot-say', why: 'no pressure drop of this cartridge was read' }
  const pace = cartridgePace(question, current.by)
  if (!pace) return { kind: 'cannot-say', why: 'the volume meter does not move' }
  const earlier = runs.slice(0, -1)
  const { prior } = learn(earlier, current.by, question.terminalPa, pace)
  const believed = believe(current.readings, beliefQuestion(question), prior)
  const power = believed.belief.power.mean
  const reach = Math.max(last.used, Math.exp(logMoments(believed.limits).mean)) * 1.1
  return {
    kind: 'course',
    by: current.by,
    changedOn: current.changedOn,
    points: pointsOf(current.readings, power, believed.slips),
    earlier: earlier
      .filter((run) => run.by === current.by)
      .map((run) => ({ changedOn: run.changedOn, points: pointsOf(run.readings, power, []) })),
    curve: bandsOf(
      believed,
      Array.from({ length: CURVE_POINTS }, (_, i) => (reach * i) / (CURVE_POINTS - 1)),
    ),
    terminalPa: question.terminalPa,
    blinding: believed.blinding,
  }
}

function pointsOf(readings: readonly LoadReading[], power: number, slips: readonly boolean[]): CoursePoint[] {
  return readings.map((r, i) => ({
    on: r.on,
    used: r.used,
    readPa: r.dropPa,
    atReferencePa: r.dropPa / (r.flowRatio ?? 1) ** power,
    leftOut: slips[i] ?? false,
  }))
}

/** Middle and ends of a doubt that is normal, as three parts with its mean and spread (Gauss-Hermite). */
const THREE_PARTS = [
  { z: -Math.sqrt(3), share: 1 / 6 },
  { z: 0, share: 2 / 3 },
  { z: Math.sqrt(3), share: 1 / 6 },
]

type Band = { used: number; middlePa: number; lowPa: number; highPa: number }

/** Middle and ends of the drop at each use; a cartridge never clears, so that none of them falls. */
function bandsOf({ belief }: Believed, uses: readonly number[]): Band[] {
  const paths = belief.laws.map((law) => ({ path: belief.path(law), weight: law.weight }))
  const least = { middlePa: 0, lowPa: 0, highPa: 0 }
  return uses.map((used) => {
    const drops = paths
      .flatMap(({ path, weight }) => {
        const { log, variance } = path.at(used, 0)
        return THREE_PARTS.map(({ z, share }) => ({
          log: log + z * Math.sqrt(variance),
          weight: weight * share,
        }))
      })
      .sort((a, b) => a.log - b.log)
    least.lowPa = Math.max(least.lowPa, partAt(drops, 0.1))
    least.middlePa = Math.max(least.middlePa, partAt(drops, 0.5))
    least.highPa = Math.max(least.highPa, partAt(drops, 0.9))
    return { used, ...least }
  })
}

/** A gigapascal: no housing holds near it, and no chart needs more. */
const MOST_LOG = Math.log(1e9)

/** The drop, Pa, below which a share of the belief lies; `drops` ascending. */
function partAt(drops: readonly { log: number; weight: number }[], share: number): number {
  const total = drops.reduce((sum, drop) => sum + drop.weight, 0)
  let sum = 0
  const found = drops.find((drop) => {
    sum += drop.weight
    return sum >= share * total
  })
  return Math.exp(Math.min(MOST_LOG, (found ?? drops.at(-1))?.log ?? Number.NaN))
}
