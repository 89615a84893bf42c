import { tQuantile } from '@/lib/domain/stats/special'
import { bendOf, type Drift, driftOf } from './drift'
import { type Exponential, fitExponential } from './exponential'
import { levelsInFeet, READINGS_MIN, type RecoveryWell, refuseRecovery } from './recovery-checks'
import { type Interval80, type LevelReading, metres, type Refused, refuse, span } from './result'

export type RecoveryFit = {
  kind: 'fit'
  /** Static level used, with where it came from: a measured one is worth more than one read off the curve. */
  staticM: number
  staticFrom: 'measured' | 'estimated'
  /** Drawdown when the clock started, from the curve. */
  startDrawdownM: number
  timeConstantS: Interval80
  /** Time to win back half and nine tenths of the drawdown. */
  halfS: number
  ninetyPercentS: number
  effectiveAreaM2: number | null
  /** A/T0 in m²/s (m³/s for each metre of drawdown). Null when the effective area is not known. Area taken as exact. */
  specificCapacityM2PerS: Interval80 | null
  quality: { word: 'good' | 'fair'; residualM: number; residualShare: number }
  /** The part of the way back that the fit stands on: compare tests over the same shares only. */
  window: { fromS: number; toS: number; fromShare: number; toShare: number; readings: number }
  drift: Drift
  /** Readings that the curve does not believe, with what may have happened. */
  setAside: { elapsedS: number; levelM: number; hint: string }[]
  notes: string[]
}

/** Past these the reading noise or the curve's own doubt is too large for the answer to be of use. */
const RESIDUAL_SHARE_MAX = 0.12
const RESIDUAL_SHARE_GOOD = 0.03
const LOG_ERROR_MAX = 0.3
/** With static unknown the curve's end is guessed from its bend: most of the way back must have been seen. */
const RECOVERED_SHARE_MIN = 0.6
/** One exponential drifts up to some 60 % by aquifer storage alone; beyond 2.5 times it is two processes. */
const TWO_SLOPES = 2.5

/**
 * Recovery test: level against time after the pump stops, as s = s0 · exp(−t/T0).
 *
 * Units   seconds since pump off; metres below the measuring point; m² of effective area.
 * Answer  a fit with its 80 % interval, window, drift and doubts, or a refusal that says what to do.
 *         The time constant and the noise come from the readings; the effective area is taken as exact.
 * Throws  RangeError on a reading that is not finite or an area that is not above zero.
 * Assumes inflow proportional to drawdown (Slichter's relation); gravel and casing fill together.
 */
export function fitRecovery(readings: readonly LevelReading[], well: RecoveryWell): RecoveryFit | Refused {
  const areaM2 = well.effectiveAreaM2
  if (areaM2 !== null && !(areaM2 > 0)) throw new RangeError(`effective area ${areaM2} m² is not above zero`)
  const refused = refuseRecovery(readings, well)
  if (refused) return refused
  const curve = fitExponential(readings, well.staticM)
  if (!curve || !(curve.startM > 0)) return refuse('poor-fit', NO_CURVE)
  const drift = driftOf(readings, curve, well.staticM !== null)
  const free =
    well.staticM === null || curve.residualM < RESIDUAL_SHARE_GOOD * curve.startM
      ? null
      : freeStatic(readings)
  if (free && well.staticM !== null) {
    const feet = levelsInFeet(free.staticM, well.staticM)
    if (feet) return feet
  }
  return refuseCurve(readings, curve, drift, well.staticM) ?? describe(readings, curve, drift, free, well)
}

/** Where the curve would head if nobody had read static; asked only where the measured one fits badly. */
const freeStatic = (readings: readonly LevelReading[]): Exponential | null =>
  readings.length < READINGS_MIN.staticUnknown ? null : fitExponential(readings, null)

const NO_CURVE =
  'The readings follow no recovery curve: check levels and times, or repeat the test with readings every half minute at first.'

function refuseCurve(
  readings: readonly LevelReading[],
  curve: Exponential,
  drift: Drift,
  staticM: number | null,
): Refused | null {
  const setAside = curve.weights.filter((w) => w === 0).length
  if (
    drift.kind === 'drift' &&
    Math.abs(Math.log(drift.lateOverEarly)) > Math.log(TWO_SLOPES) &&
    drift.atLeast > 1.5
  ) {
    return twoSlopes(drift.lateOverEarly > 1 ? 1 : -1, curve)
  }
  const bend = bendOf(readings, curve)
  if (bend !== 0) return twoSlopes(bend, curve)
  if (setAside > readings.length / 4 || curve.residualM > RESIDUAL_SHARE_MAX * curve.startM) {
    return refuse(
      'poor-fit',
      `${NO_CURVE} (scatter ${metres(curve.residualM)}, ${setAside} readings off the curve)`,
    )
  }
  const seen = recoveredShare(readings, curve)
  if (staticM === null && seen < RECOVERED_SHARE_MIN) {
    return refuse(
      'too-uncertain',
      `Static is unknown and only about ${Math.round(seen * 100)} % of the drawdown came back: read on until the water stands nearly still, or read static before the next test.`,
    )
  }
  if (curve.logTimeError > LOG_ERROR_MAX) {
    return refuse(
      'too-uncertain',
      'The readings allow time constants from half to double: read on until at least half of the drawdown has come back.',
    )
  }
  return null
}

function twoSlopes(bend: -1 | 1, curve: Exponential): Refused {
  const turnM = curve.staticM + curve.startM / 2
  const what =
    bend === 1
      ? 'fast at first and then much slower (gravel still draining into the casing, or static not where it was entered)'
      : 'steadily at first and faster near the end (water cascading in above the pumping level)'
  return refuse(
    'two-slopes',
    `The water came back ${what}: one time constant does not describe it. Read static again and repeat with the level kept above ${metres(turnM)}.`,
  )
}

const recoveredShare = (readings: readonly LevelReading[], curve: Exponential): number => {
  const last = readings[readings.length - 1]
  return last ? 1 - Math.exp(-last.elapsedS / curve.timeConstantS) : 0
}

function describe(
  readings: readonly LevelReading[],
  curve: Exponential,
  drift: Drift,
  free: Exponential | null,
  well: RecoveryWell,
): RecoveryFit {
  const time = interval(curve)
  const area = well.effectiveAreaM2
  const used = readings.filter((_, i) => (curve.weights[i] ?? 0) > 0)
  const fromS = used[0]?.elapsedS ?? 0
  const toS = used[used.length - 1]?.elapsedS ?? 0
  const share = (elapsedS: number) => Math.exp(-elapsedS / curve.timeConstantS)
  const residualShare = curve.residualM / curve.startM
  return {
    kind: 'fit',
    staticM: curve.staticM,
    staticFrom: well.staticM === null ? 'estimated' : 'measured',
    startDrawdownM: curve.startM,
    timeConstantS: time,
    halfS: time.value * Math.LN2,
    ninetyPercentS: time.value * Math.LN10,
    effectiveAreaM2: area,
    specificCapacityM2PerS:
      area === null ? null : { value: area / time.value, low: area / time.high, high: area / time.low },
    quality: {
      word: residualShare < RESIDUAL_SHARE_GOOD ? 'good' : 'fair',
      residualM: curve.residualM,
      residualShare,
    },
    window: { fromS, toS, fromShare: share(fromS), toShare: share(toS), readings: used.length },
    drift,
    setAside: setAsideOf(readings, curve),
    notes: notesOf(curve, drift, free, well),
  }
}

function interval(curve: Exponential): Interval80 {
  const reach = tQuantile(0.9, Math.max(1, curve.freedom)) * curve.logTimeError
  const value = curve.timeConstantS
  return { value, low: value * Math.exp(-reach), high: value * Math.exp(reach) }
}

function setAsideOf(readings: readonly LevelReading[], curve: Exponential): RecoveryFit['setAside'] {
  return readings.flatMap((r, i) => {
    if ((curve.weights[i] ?? 0) > 0) return []
    const expected = curve.staticM + curve.startM * Math.exp(-r.elapsedS / curve.timeConstantS)
    const near = (level: number) => Math.abs(level - expected) < 5 * curve.residualM
    const hint = near(r.levelM * 0.3048)
      ? 'looks like feet'
      : near(r.levelM / 0.3048)
        ? 'looks like metres converted twice'
        : `the curve expects ${metres(expected)}`
    return [{ elapsedS: r.elapsedS, levelM: r.levelM, hint }]
  })
}

function notesOf(curve: Exponential, drift: Drift, free: Exponential | null, well: RecoveryWell): string[] {
  const notes: string[] = []
  if (well.staticM === null) {
    notes.push(
      `Static was not read: ${metres(curve.staticM)} is where the curve is heading (± ${metres(1.28 * curve.staticErrorM)}). Read static before the next test.`,
    )
  }
  if (
    drift.kind === 'drift' &&
    drift.established &&
    Math.abs(Math.log(drift.lateOverEarly)) > Math.log(1.15)
  ) {
    notes.push(
      `The time constant moved from ${span(drift.earlyS)} to ${span(drift.lateS)} during the test: compare it only with tests over the same part of the way back.`,
    )
  }
  if (
    free &&
    free.residualM < curve.residualM / 2 &&
    Math.abs(free.staticM - curve.staticM) > 3 * free.staticErrorM
  ) {
    notes.push(
      `The water heads for ${metres(free.staticM)}, not for the static level of ${metres(curve.staticM)}: static may have been read at another time, or the water table round the well is still drawn down.`,
    )
  }
  if (well.effectiveAreaM2 === null) {
    notes.push(
      'Casing and pit sizes are not recorded: the time constant stands, but no inflow can be worked out.',
    )
  }
  return notes
}
