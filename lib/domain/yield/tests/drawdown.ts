import { weightedLeastSquares } from '@/lib/domain/stats/least-squares'
import type { NoLine } from './log-line'
import { timeGoesBack } from './recovery-checks'
import { type LevelReading, metres, type Refused, refuse, span } from './result'
import { type JacobLine, jacobLine } from './theis'
import { thinCorrected } from './thin'

export type DrawdownWell = {
  /** Level with the pump at rest, metres below the measuring point. */
  staticM: number
  /** Pumping rate over the test; null when it was not measured. */
  flowM3PerS: number | null
  effectiveAreaM2: number | null
  /** Water-bearing thickness below static, where known: asks for Jacob's correction. */
  saturatedThicknessM: number | null
}

export type DrawdownFit = {
  kind: 'fit'
  /** The time that the answer is stated at, seconds since pump on, and the drawdown then. */
  atS: number
  drawdownM: number
  /** Jacob's thin-aquifer drawdown; null where the thickness is not known. */
  thinCorrectedM: number | null
  /** Rate drawn out of the ground at that time: pumped rate less what the well itself gave up. */
  aquiferFlowM3PerS: number
  /** Share of the pumped rate that came out of casing and gravel at that time; null without an effective area. */
  storageShare: number | null
  /** Aquifer flow over drawdown at the stated time, m²/s; over the corrected drawdown where thickness is known. */
  specificCapacityM2PerS: number
  /** Jacob's straight line after storage has had its say. */
  line: JacobLine | NoLine | Refused
  notes: string[]
}

/** Beyond this share the well is mostly emptying itself, and drawdown says little about the ground. */
const STORAGE_SHARE_MAX = 0.5
/** Jacob's line starts where storage gives less than this share of the rate. */
const STORAGE_SHARE_LINE = 0.05
const READINGS_MIN = 3

/**
 * Drawdown test at a constant rate: specific capacity at a stated time, corrected for the water drawn from storage.
 *
 *   Q from the ground = Q pumped − A · ds/dt
 *
 * Units   seconds since pump on; metres below the measuring point; m³/s.
 * Shape   `atS` inside the test (the last reading when null): compare two tests at one time and one rate only.
 * Answer  a fit, or a refusal with what to do. Without an effective area nothing is corrected, and the notes say so.
 * Throws  RangeError on a reading that is not finite.
 * Source  storage: mass balance; straight line: Cooper & Jacob 1946; thin aquifer: Jacob 1944.
 */
export function fitDrawdown(
  readings: readonly LevelReading[],
  well: DrawdownWell,
  atS: number | null = null,
): DrawdownFit | Refused {
  const refused = refuseDrawdown(readings, well)
  const flow = well.flowM3PerS
  if (refused || flow === null) return refused ?? refuse('rate-unknown', NO_RATE)
  const drawdowns = readings
    .filter((r) => r.elapsedS > 0)
    .map((r) => ({ elapsedS: r.elapsedS, drawdownM: r.levelM - well.staticM }))
  const stated = stateAt(drawdowns, atS)
  if (stated.kind === 'refused') return stated
  const areaOverFlow = well.effectiveAreaM2 === null ? null : well.effectiveAreaM2 / flow
  const storageShare = areaOverFlow === null ? null : storageShareAt(drawdowns, areaOverFlow, stated.elapsedS)
  if (storageShare !== null && storageShare > STORAGE_SHARE_MAX)
    return stillEmptying(storageShare, stated.elapsedS)
  const thin =
    well.saturatedThicknessM === null ? null : thinCorrected(stated.drawdownM, well.saturatedThicknessM)
  if (thin?.kind === 'cannot-say') return refuse('below-bottom', thin.message)
  const aquiferFlowM3PerS = flow * (1 - (storageShare ?? 0))
  const fromS = lineStart(drawdowns, areaOverFlow)
  return {
    kind: 'fit',
    atS: stated.elapsedS,
    drawdownM: stated.drawdownM,
    thinCorrectedM: thin?.drawdownM ?? null,
    aquiferFlowM3PerS,
    storageShare,
    specificCapacityM2PerS: aquiferFlowM3PerS / (thin?.drawdownM ?? stated.drawdownM),
    line: jacobLine(drawdowns, flow, { fromS, toS: Number.POSITIVE_INFINITY }),
    notes: notesOf(well, storageShare),
  }
}

const NO_RATE = 'The pumping rate was not measured: time a bucket or read the meter, and enter the rate.'

function refuseDrawdown(readings: readonly LevelReading[], well: DrawdownWell): Refused | null {
  for (const { elapsedS, levelM } of readings) {
    if (!Number.isFinite(elapsedS) || !Number.isFinite(levelM)) {
      throw new RangeError(`reading (${elapsedS} s, ${levelM} m) is not finite`)
    }
  }
  const pumped = readings.filter((r) => r.elapsedS > 0)
  if (pumped.length < READINGS_MIN) {
    return refuse(
      'too-few',
      `${pumped.length} readings of the ${READINGS_MIN} needed: read the level while the pump runs.`,
    )
  }
  const late = timeGoesBack(readings)
  if (late) return late
  if (well.flowM3PerS === null) return refuse('rate-unknown', NO_RATE)
  if (!(well.flowM3PerS > 0))
    return refuse('rate-unknown', 'The pumping rate is zero: enter the rate the pump gave.')
  const above = pumped.filter((r) => r.levelM < well.staticM)
  if (above.length > pumped.length / 2) return aboveOrSwapped(well.staticM)
  const deepest = Math.max(...pumped.map((r) => r.levelM))
  if (deepest - well.staticM < 0.02) {
    return refuse(
      'no-drawdown',
      'The level hardly fell: pump at a higher rate or for longer, and check that the static level is right.',
    )
  }
  return massBalance(pumped, well.staticM, well.flowM3PerS, well.effectiveAreaM2)
}

function aboveOrSwapped(staticM: number): Refused {
  return refuse(
    'above-static',
    `The pumping levels lie above the static level of ${metres(staticM)}: the two may be swapped, or in different units. Check both.`,
  )
}

/**
 * No more water can leave casing and gravel than was pumped: A · s ≤ Q · t. A tenth is allowed for reading error.
 * A test that breaks it has a wrong rate, a wrong unit or a wrong size, whatever its curve looks like.
 */
export function massBalance(
  readings: readonly LevelReading[],
  staticM: number,
  flowM3PerS: number,
  effectiveAreaM2: number | null,
): Refused | null {
  if (effectiveAreaM2 === null) return null
  for (const { elapsedS, levelM } of readings) {
    const drawnM3 = effectiveAreaM2 * (levelM - staticM)
    const pumpedM3 = flowM3PerS * elapsedS
    if (drawnM3 > 1.1 * pumpedM3 + effectiveAreaM2 * 0.02) {
      return refuse(
        'mass-balance',
        `By ${span(elapsedS)} the well had lost ${(drawnM3 / pumpedM3).toFixed(1)} times the water that was pumped: the rate, the levels or the size of the well is wrong, or in the wrong unit.`,
      )
    }
  }
  return null
}

type Drawdown = { elapsedS: number; drawdownM: number }

function stateAt(drawdowns: readonly Drawdown[], atS: number | null): (Drawdown & { kind: 'at' }) | Refused {
  const last = drawdowns[drawdowns.length - 1]
  if (!last) return refuse('too-few', 'No reading while the pump ran.')
  if (atS === null) return { kind: 'at', ...last }
  const after = drawdowns.findIndex((d) => d.elapsedS >= atS)
  const next = drawdowns[after]
  const before = drawdowns[after - 1]
  if (!next || (!before && next.elapsedS > atS)) {
    return refuse(
      'too-few',
      `No readings on both sides of ${span(atS)}: state the capacity at a time inside the test.`,
    )
  }
  if (!before || next.elapsedS === atS) return { kind: 'at', ...next }
  // Drawdown runs straight in log time, so that is where to read between two readings.
  const share = Math.log(atS / before.elapsedS) / Math.log(next.elapsedS / before.elapsedS)
  const drawdownM = before.drawdownM + share * (next.drawdownM - before.drawdownM)
  return { kind: 'at', elapsedS: atS, drawdownM }
}

/**
 * Share of the rate that storage gives at a time: A/Q times ds/dt, from a parabola in log time through the five
 * readings nearest to it (a straight line through fewer than five). Held at zero or above.
 */
function storageShareAt(drawdowns: readonly Drawdown[], areaOverFlow: number, atS: number): number {
  const distance = (d: Drawdown) => Math.abs(Math.log(d.elapsedS / atS))
  const near = [...drawdowns].sort((a, b) => distance(a) - distance(b)).slice(0, 5)
  const rows = near.map((d) => {
    const x = Math.log(d.elapsedS / atS)
    return near.length < 5 ? [1, x] : [1, x, x * x]
  })
  const solved = weightedLeastSquares(
    rows,
    near.map((d) => d.drawdownM),
    near.map(() => 1),
  )
  const perLog = solved.kind === 'solved' ? (solved.coefficients[1] ?? 0) : 0
  return Math.max(0, (areaOverFlow * perLog) / atS)
}

/** First reading after which storage gives less than a twentieth of the rate; never where it always gives more. */
function lineStart(drawdowns: readonly Drawdown[], areaOverFlow: number | null): number {
  if (areaOverFlow === null) return 0
  const lastHigh = drawdowns.reduce(
    (last, d, i) => (storageShareAt(drawdowns, areaOverFlow, d.elapsedS) > STORAGE_SHARE_LINE ? i : last),
    -1,
  )
  return drawdowns[lastHigh + 1]?.elapsedS ?? Number.POSITIVE_INFINITY
}

function stillEmptying(share: number, atS: number): Refused {
  return refuse(
    'mass-balance',
    `At ${span(atS)} some ${Math.round(share * 100)} % of the water still came out of the casing and gravel: pump longer, or use the recovery instead.`,
  )
}

function notesOf(well: DrawdownWell, storageShare: number | null): string[] {
  const notes: string[] = []
  if (well.effectiveAreaM2 === null) {
    notes.push(
      'Casing and pit sizes are not recorded: water drawn from the well itself is counted as inflow, so the capacity is an upper bound.',
    )
  } else if (storageShare !== null && storageShare > STORAGE_SHARE_LINE) {
    notes.push(
      `${Math.round(storageShare * 100)} % of the rate still came from casing and gravel at the stated time, and was taken off.`,
    )
  }
  if (well.saturatedThicknessM === null) {
    notes.push('The depth of water-bearing ground is not recorded: thinning of the layer is not corrected.')
  }
  return notes
}
