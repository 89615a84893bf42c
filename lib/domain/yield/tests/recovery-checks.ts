import { type LevelReading, metres, type Refused, refuse, span } from './result'

export type RecoveryWell = {
  /** Level with the pump at rest, metres below the measuring point; null when nobody read it. */
  staticM: number | null
  /** Casing plus gravel pores (effectiveArea); null when the sizes are not known. */
  effectiveAreaM2: number | null
  /** Depth of the well below the measuring point, where known: no level can lie below it. */
  wellDepthM?: number | null
}

const FEET_PER_METRE = 1 / 0.3048
/** Fewest readings: unknowns of the curve plus two, so that one bad reading can be told from the rest. */
export const READINGS_MIN = { staticKnown: 4, staticUnknown: 6 }

/**
 * What a look at the readings alone can refuse, before any curve is drawn; null when nothing speaks against a fit.
 *
 * Throws  RangeError on a reading that is not finite: forms refuse those.
 */
export function refuseRecovery(readings: readonly LevelReading[], well: RecoveryWell): Refused | null {
  for (const { elapsedS, levelM } of readings) {
    if (!Number.isFinite(elapsedS) || !Number.isFinite(levelM)) {
      throw new RangeError(`reading (${elapsedS} s, ${levelM} m) is not finite`)
    }
  }
  return (
    tooFew(readings.length, well.staticM !== null) ??
    timeGoesBack(readings) ??
    feetAmongMetres(readings) ??
    belowBottom(readings, well.wellDepthM ?? null) ??
    wrongShape(readings) ??
    aboveStatic(readings, well.staticM)
  )
}

function tooFew(have: number, staticKnown: boolean): Refused | null {
  const need = staticKnown ? READINGS_MIN.staticKnown : READINGS_MIN.staticUnknown
  if (have >= need) return null
  const more = staticKnown ? '' : ' (a static level read before pumping would do with fewer)'
  return refuse(
    'too-few',
    `${have} readings of the ${need} needed${more}: keep reading while the water rises.`,
  )
}

/** Two readings at one time, or a clock that runs back: the times were typed wrong or the list is out of order. */
export function timeGoesBack(readings: readonly LevelReading[]): Refused | null {
  const first = readings[0]
  if (first && first.elapsedS < 0) {
    return refuse(
      'time-not-increasing',
      'A reading lies before the clock started: count the time from pump off.',
    )
  }
  for (let i = 1; i < readings.length; i++) {
    const before = readings[i - 1]
    const here = readings[i]
    if (before && here && here.elapsedS <= before.elapsedS) {
      return refuse(
        'time-not-increasing',
        `Reading ${i + 1} (${span(here.elapsedS)}) is not later than the one before it (${span(before.elapsedS)}): correct the time.`,
      )
    }
  }
  return null
}

/** A level that suddenly lies 3.28 times deeper, and stays or comes back, was read off the other side of the tape. */
function feetAmongMetres(readings: readonly LevelReading[]): Refused | null {
  const jumps = readings.flatMap((here, i) => {
    const before = readings[i - 1]
    if (!before || before.levelM <= 0.3) return []
    // The water rises meanwhile, so the true ratio is somewhat below 3.28.
    const ratio = here.levelM / before.levelM / FEET_PER_METRE
    return ratio > 0.75 && ratio < 1.05 ? [i] : []
  })
  const at = jumps[0]
  const reading = at === undefined ? undefined : readings[at]
  // One such reading alone is set aside by the fit; two or more that stay deep are a change of unit.
  const next = at === undefined ? undefined : readings[at + 1]
  if (!reading || !next || next.levelM < reading.levelM * 0.6) return null
  return refuse(
    'wrong-unit',
    `From ${span(reading.elapsedS)} on the levels are 3.28 times as deep: these look like feet. Choose one unit for the whole test.`,
  )
}

/** Levels deeper than the well, in any kind of test: the wrong unit where feet would fit it, else the depth or the levels. */
export function belowBottom(
  readings: readonly Pick<LevelReading, 'levelM'>[],
  depthM: number | null,
): Refused | null {
  if (depthM === null) return null
  const below = readings.filter((r) => r.levelM > depthM + 0.1)
  const deepest = below.reduce((most, r) => Math.max(most, r.levelM), 0)
  if (below.length < 2 && below.length < readings.length) return null
  if (deepest / FEET_PER_METRE <= depthM) {
    return refuse(
      'wrong-unit',
      `Levels down to ${metres(deepest)} in a well ${metres(depthM)} deep: these look like feet. Choose the unit the tape is marked in.`,
    )
  }
  return refuse(
    'below-bottom',
    `Levels down to ${metres(deepest)} in a well ${metres(depthM)} deep: check the well's depth and the levels.`,
  )
}

/** Pump still on, no rise at all, or drawn down again: seen on the running middle of three, so one slip cannot do it. */
function wrongShape(readings: readonly LevelReading[]): Refused | null {
  const smooth = runningMiddle(readings.map((r) => r.levelM))
  const first = smooth[0] ?? 0
  const deepest = Math.max(...smooth)
  const highest = Math.min(...smooth)
  const range = deepest - highest
  const noise = noiseAllowance(readings, range)
  const third = Math.max(2, Math.floor(smooth.length / 3))
  const fellM = middle(smooth.slice(-third)) - middle(smooth.slice(0, third))
  if (fellM > Math.max(noise, 0.4 * range)) {
    return refuse(
      'pump-running',
      'The level went down, not up: the pump was still running. Start the clock when the pump stops.',
    )
  }
  if (range < 0.03) {
    return refuse(
      'no-recovery',
      'The level hardly moved: either it had recovered before the first reading or the well was hardly drawn down. Pump longer, then read at once.',
    )
  }
  const deepestAt = smooth.indexOf(deepest)
  const stop = readings[deepestAt]
  if (deepestAt >= 2 && stop && deepest - first > Math.max(noise, 0.05 * range)) {
    return refuse(
      'pump-running',
      `The level still fell until ${span(stop.elapsedS)}: the pump was running. Count the time from there and leave out the readings before.`,
    )
  }
  return roseThenFell(readings, smooth, Math.max(0.05, noise, 0.1 * range))
}

function roseThenFell(
  readings: readonly LevelReading[],
  smooth: readonly number[],
  allowanceM: number,
): Refused | null {
  const highestAt = smooth.indexOf(Math.min(...smooth))
  const after = smooth.slice(highestAt + 1)
  const turn = readings[highestAt]
  if (after.length < 2 || !turn) return null
  const fellM = Math.max(...after) - (smooth[highestAt] ?? 0)
  // A restart stays seen in most later readings; one or two slips do not.
  const low = readings.slice(highestAt + 1).filter((r) => r.levelM - (smooth[highestAt] ?? 0) > allowanceM)
  if (fellM <= allowanceM || low.length < Math.max(2, after.length / 2)) return null
  return refuse(
    'rose-then-fell',
    `The water rose until ${span(turn.elapsedS)} and then fell ${metres(fellM)}: the pump restarted or water was drawn. Keep only the readings up to ${span(turn.elapsedS)}.`,
  )
}

function aboveStatic(readings: readonly LevelReading[], staticM: number | null): Refused | null {
  if (staticM === null) return null
  const deepest = Math.max(...readings.map((r) => r.levelM))
  const allowance = Math.max(0.03, 0.04 * (deepest - staticM))
  const above = readings.filter((r) => r.levelM < staticM - allowance)
  const lastThird = readings.slice(-Math.max(2, Math.floor(readings.length / 3))).map((r) => r.levelM)
  if (above.length < 2 || middle(lastThird) > staticM - allowance) return null
  const highest = Math.min(...above.map((r) => r.levelM))
  const ratio = (highest * FEET_PER_METRE) / staticM
  // The water may have some way left to go, so its last level lies at the true static or a little below it.
  if (ratio > 0.95 && ratio < 1.3 && deepest < staticM) {
    return refuse(
      'wrong-unit',
      `All levels lie above the static level of ${metres(staticM)} and near a third of it: static looks like feet. Choose the right unit.`,
    )
  }
  return refuse(
    'above-static',
    `The water rose to ${metres(highest)}, above the static level of ${metres(staticM)}: static was read before the well had come to rest, or from another mark. Read it again, or leave it blank.`,
  )
}

/**
 * The curve heads for 3.28 times the static level entered: the test was read off the feet side of the tape.
 * `headsForM` is where a curve with its static left free comes to rest.
 */
export function levelsInFeet(headsForM: number, staticM: number): Refused | null {
  if (staticM < 0.3 || Math.abs(headsForM / staticM / FEET_PER_METRE - 1) > 0.1) return null
  return refuse(
    'wrong-unit',
    `The water comes to rest near ${metres(headsForM)} but static is ${metres(staticM)}: the levels of this test look like feet. Choose the right unit.`,
  )
}

/** Running middle of three; the first and last value stand as they are. */
function runningMiddle(values: readonly number[]): number[] {
  return values.map((value, i) => {
    const before = values[i - 1]
    const after = values[i + 1]
    if (before === undefined || after === undefined) return value
    return Math.max(Math.min(before, value), Math.min(Math.max(before, value), after))
  })
}

/** What reading noise alone may move: three deviations by second differences, which the rise itself hardly enters. */
function noiseAllowance(readings: readonly LevelReading[], rangeM: number): number {
  const bends = readings.flatMap((here, i) => {
    const before = readings[i - 1]
    const after = readings[i + 1]
    return before && after ? [Math.abs(before.levelM - 2 * here.levelM + after.levelM)] : []
  })
  const deviation = (1.4826 * middle(bends)) / Math.sqrt(6)
  return Math.max(0.03, Math.min(3 * deviation, 0.6 * rangeM))
}

const middle = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor((values.length - 1) / 2)] ?? 0
