import { type Day, daysBetween } from '@/lib/domain/quantity/day'
import { type BrushFinding, brushFindings, READING_M } from './brush-findings'
import { lifeBelief, OPEN_KINDS, type WearBelief, type WearPrior } from './brush-wear'
import { type Forecast, forecastDays, logMoments } from './forecast'
import { calendarPace, filledCounts, paceOf } from './pace'
import { type Normal, pooled, pooledShares } from './pooling'

export type BrushReading = {
  on: Day
  /** Hour meter, counted up through changes (a lower count than before is a new meter); null where not read. */
  hours: number | null
  /** One length a brush, m, in the same order each time; empty where only the hours were read. */
  lengthsM: readonly number[]
}

export type BrushQuestion = {
  /** Length of a new brush of this pump, m. */
  newM: number
  /** Length at which the set is to be changed, m. */
  minimumM: number
  readings: readonly BrushReading[]
  /** Days on which a new set was put in. */
  replacedOn: readonly Day[]
  /** Where the hours do not come from a meter: what they were estimated from. */
  hoursFrom?: 'meter' | 'volume' | 'sun'
}

/** Small direct-current motors wear a set in some 3,000 h, give or take a factor of two and more. */
const USUAL_LIFE_H = 3000
const USUAL_LIFE_DAYS = 1000
const LIFE_DEVIATION = 0.85
const BETWEEN_SETS = 0.25
const BETWEEN_TRENDS = 0.15
const SLIP = 5

/**
 * The day on which the shortest brush reaches its minimum length, with an 80 % interval.
 *
 * Model   length = new length − wear × run hours, with a rate of wear that may drift, weighed on a grid of set lives
 *         (see lifeBelief), pulled towards what earlier sets of this motor showed; hours to date by the motor's own pace.
 * Shape   readings in any order; each holds one length a brush and may hold several. The shortest counts.
 * Answer  'cannot-say' without a worn reading of the set in place and an earlier set to learn from, where it is not
 *         recorded when the set was put in, or where the day lies more than fifteen years off.
 *         Without an hour meter days stand in for hours, and `why` says so.
 *         Warnings tell of uneven wear (misalignment, a stuck holder), sudden wear (commutator, moisture) and of
 *         readings left out as slips.
 * Throws  RangeError unless new length > minimum length > 0, or for a reading that is not finite.
 */
export function forecastBrushes(question: BrushQuestion): Forecast {
  const current = brushSetInPlace(question)
  if (!current) return { kind: 'cannot-say', why: 'it is not recorded when the brushes were put in' }
  const pace = current.by === 'hours' ? paceOf(countsOf(question.readings)) : calendarPace()
  if (!pace)
    return { kind: 'cannot-say', why: 'the hour meter does not move: read it with each brush length' }
  const { belief, findings, learnedFrom } = current
  const worn = current.readings.filter((r) => r.used > 0)
  const last = current.readings.at(-1)
  if (worn.length === 0 && learnedFrom === 0) {
    return { kind: 'cannot-say', why: 'no length of this set was read since it was put in' }
  }
  const days = forecastDays(belief.life, last?.used ?? 0, last?.on ?? current.startOn, pace)
  if (!days) return { kind: 'cannot-say', why: 'the brushes have hardly worn yet: no date can be given' }
  const others =
    learnedFrom === 0 ? '' : ` and ${learnedFrom} earlier ${learnedFrom === 1 ? 'set' : 'sets'} of this motor`
  const by = saysHours(current.by, question.hoursFrom ?? 'meter')
  return {
    kind: 'date',
    ...days,
    why: `from ${worn.length} ${worn.length === 1 ? 'length' : 'lengths'} of this set${others}${by}`,
    warnings: findings.map((finding) => finding.says),
  }
}

const HOURS_FROM = {
  meter: '',
  volume: '; run hours were reckoned from volume and flow, not read',
  sun: '; run hours were reckoned from the hours of sun, not read',
}

const saysHours = (by: BrushSet['by'], from: keyof typeof HOURS_FROM): string =>
  by === 'hours' ? HOURS_FROM[from] : '; run hours are missing, so days stand in for them'

/** Throws RangeError for a question that cannot be: see forecastBrushes. */
function requireQuestion(question: BrushQuestion): void {
  if (!(question.minimumM > 0) || !(question.newM > question.minimumM)) {
    throw new RangeError(`new length ${question.newM} m, minimum ${question.minimumM} m`)
  }
  for (const r of question.readings) {
    if (![r.hours ?? 0, ...r.lengthsM].every(Number.isFinite))
      throw new RangeError(`reading of ${r.on} is not finite`)
  }
}

const countsOf = (readings: readonly BrushReading[]) =>
  readings.flatMap((r) => (r.hours === null ? [] : [{ on: r.on, count: r.hours }]))

/** `used` in hours since the set was put in, or in days where hours are missing. */
type Worn = { on: Day; used: number; shortestM: number; lengthsM: readonly number[] }
type BrushSet = { startOn: Day; by: 'hours' | 'days'; readings: Worn[] }

/** Readings cut at the changes into sets. A reading on the day of a change is of the new set if it is nearer to new. */
function setsOf(question: BrushQuestion): BrushSet[] {
  const sorted = question.readings
    .filter((r) => r.lengthsM.length > 0)
    .sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
  const starts = [...new Set(question.replacedOn)].sort()
  const middleM = (question.newM + question.minimumM) / 2
  const isNew = (r: BrushReading) => Math.min(...r.lengthsM) > middleM
  return starts.map((startOn, i) => {
    const until = starts[i + 1]
    const own = sorted.filter(
      (r) =>
        (r.on > startOn || (r.on === startOn && isNew(r))) &&
        (until === undefined || r.on < until || (r.on === until && !isNew(r))),
    )
    const at = question.readings.find((r) => r.on === startOn && r.hours !== null)
    return setOf(startOn, own, at?.hours ?? hoursOn(startOn, question.readings))
  })
}

/** The count between its neighbours in time, for a day on which nobody read it. */
function hoursOn(day: Day, readings: readonly BrushReading[]): number | null {
  const counts = countsOf(readings).sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
  const at = counts.filter((c) => c.on < day).length
  const filled = filledCounts([...counts.slice(0, at), { on: day, count: null }, ...counts.slice(at)])
  return filled[at] ?? null
}

function setOf(startOn: Day, own: readonly BrushReading[], hoursAtStart: number | null): BrushSet {
  const counts = filledCounts([
    { on: startOn, count: hoursAtStart },
    ...own.map((r) => ({ on: r.on, count: r.hours })),
  ])
  const start = counts[0] ?? null
  const hours = own.map((_, i) => {
    const count = counts[i + 1] ?? null
    return start === null || count === null || count < start ? null : count - start
  })
  const known = hours.filter((h) => h !== null).length
  const by = known > 0 && known >= own.length / 2 ? 'hours' : 'days'
  const readings = own.flatMap((r, i) => {
    const used = by === 'hours' ? (hours[i] ?? null) : daysBetween(startOn, r.on)
    return used === null ? [] : [{ on: r.on, used, shortestM: Math.min(...r.lengthsM), lengthsM: r.lengthsM }]
  })
  return { startOn, by, readings }
}

/**
 * The set in place with its belief and findings, for forecast and chart alike; null where it is not recorded when it
 * was put in. Throws RangeError as forecastBrushes does.
 */
export function brushSetInPlace(
  question: BrushQuestion,
): (BrushSet & { belief: WearBelief; findings: BrushFinding[]; learnedFrom: number }) | null {
  requireQuestion(question)
  const sets = setsOf(question)
  const current = sets.at(-1)
  if (!current) return null
  const learned = learn(sets.slice(0, -1), current.by, question)
  return { ...current, ...believe(current.readings, question, learned.prior), learnedFrom: learned.from }
}

/** Life, kind of wear and its trend, as earlier sets of this motor show them, over a weak belief about brushes at large. */
function learn(
  earlier: readonly BrushSet[],
  by: BrushSet['by'],
  question: BrushQuestion,
): { prior: WearPrior; from: number } {
  const usual = by === 'hours' ? USUAL_LIFE_H : USUAL_LIFE_DAYS
  const open = { life: { mean: Math.log(usual), deviation: LIFE_DEVIATION }, ...OPEN_KINDS }
  const seen = earlier
    .filter((set) => set.by === by && set.readings.some((r) => r.used > 0))
    .map((set) => believe(set.readings, question, open).belief)
    .map((belief) => ({ ...belief, life: logMoments(belief.life) }))
    .filter(({ life }) => life.deviation < 0.5)
  if (seen.length === 0) return { prior: open, from: 0 }
  return {
    prior: {
      life: pooled(
        open.life,
        seen.map(({ life }) => life),
        BETWEEN_SETS,
      ),
      kinds: pooledShares(
        open.kinds,
        seen.map(({ kinds }) => kinds),
      ),
      trend: pooled(
        open.trend,
        seen.map(({ trend }) => onItsOwn(trend, open.trend)),
        BETWEEN_TRENDS,
      ),
    },
    from: seen.length,
  }
}

/** What the readings alone say, without what was believed before them: it counts once, not once a set. */
function onItsOwn(after: Normal, before: Normal): Normal {
  const precision = Math.max(1e-3, after.deviation ** -2 - before.deviation ** -2)
  const mean = (after.mean * after.deviation ** -2 - before.mean * before.deviation ** -2) / precision
  return { mean, deviation: precision ** -0.5 }
}

/** Belief about the use at the minimum length; slips are found against the middle line and left out. */
function believe(
  readings: readonly Worn[],
  question: BrushQuestion,
  prior: WearPrior,
): { belief: WearBelief; findings: BrushFinding[] } {
  const possible = readings.filter((r) => r.shortestM <= question.newM * 1.15 && r.shortestM > 0)
  const wear = middleWear(possible, question.newM)
  const reach = (r: Worn) => SLIP * READING_M + 0.35 * wear * r.used
  const kept = possible.filter((r) => Math.abs(question.newM - wear * r.used - r.shortestM) <= reach(r))
  const slips = readings
    .filter((r) => !kept.includes(r))
    .map(
      (r): BrushFinding => ({
        kind: 'slip',
        on: r.on,
        brush: null,
        lookAt: ['the reading itself'],
        says: `the length of ${r.on} does not fit the others and was left out: measure it again`,
      }),
    )
  return {
    belief: lifeBelief(kept, question, prior),
    findings: [...brushFindings(kept, question.newM), ...slips],
  }
}

/** Middle of the wear rates from new: one slip cannot move it. */
function middleWear(readings: readonly Worn[], newM: number): number {
  const rates = readings.filter((r) => r.used > 0).map((r) => (newM - r.shortestM) / r.used)
  const sorted = rates.sort((a, b) => a - b)
  return Math.max(0, sorted[Math.floor((sorted.length - 1) / 2)] ?? 0)
}
