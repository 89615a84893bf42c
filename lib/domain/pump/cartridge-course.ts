import type { Day } from '@/lib/domain/quantity/day'
import { dropLogOf, THREE_PARTS } from './blocking-laws'
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
    curve: Array.from({ length: CURVE_POINTS }, (_, i) => bandAt(believed, (reach * i) / (CURVE_POINTS - 1))),
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

function bandAt(
  { belief }: Believed,
  used: number,
): { used: number; middlePa: number; lowPa: number; highPa: number } {
  const drops = belief.laws
    .flatMap((law) =>
      THREE_PARTS.map(({ z, share }) => ({
        log: dropLogOf(law, used) + z * law.cleanDeviation,
        weight: law.weight * share,
      })),
    )
    .sort((a, b) => a.log - b.log)
  const total = drops.reduce((sum, drop) => sum + drop.weight, 0)
  const at = (share: number) => {
    let sum = 0
    const found = drops.find((drop) => {
      sum += drop.weight
      return sum >= share * total
    })
    return Math.exp((found ?? drops.at(-1))?.log ?? Number.NaN)
  }
  return { used, middlePa: at(0.5), lowPa: at(0.1), highPa: at(0.9) }
}
