import { momentsBelowDemand } from './below-demand'
import { type CapacityFit, chanceOf, fitCapacity, type Learned, NOTHING_LEARNED } from './capacity'
import { logOddsOf, meanLogLeft } from './effect'
import { dateOutlook, momentsAtPart } from './outlook'
import { pointsOf } from './points'
import { CAPACITY, FLOW, TABLE } from './priors'
import { recordOf, type WellRecord } from './record'
import { trendOf } from './trend'
import type {
  DeclineSettings,
  YieldEvent,
  YieldEvidence,
  YieldStanding,
  YieldVisit,
  YieldWell,
} from './types'
import { FEWEST, judge, type Verdict } from './verdict'
import { nextOf, outlookWhy, sentenceOf } from './words'

/** A loss is carried forward to a date only when it is flagged or this likely. */
const ESTABLISHED = 0.9
/** The part of the baseline at which a well is due for rehabilitation. Common practice, no published source. */
const DUE_PART = 0.75
const NORMAL_80 = 1.2816
/**
 * Says from a well's visits whether it is losing capacity, why, and when that will matter.
 *
 * The drawdown at the pump's usual flow is followed through time, with the saturated thickness, the pumping time and
 * the surprise in the flow reading taken out; a loss from an unknown day, exponential or straight, is weighed against
 * none and against a pump that wears. The baseline starts anew at a rehabilitation or rebuild; what was learned before
 * about the well's ways is kept.
 *
 * Shape   `pumpLogOdds`: what the pump's own readings, corrected for head and voltage, say of wear (lib/domain/pump);
 *         null where there are none. Visits and events in any order; levels in m below one measuring point, SI units.
 * Answer  what cannot be said is null, 'too-few' or 'unclear', never 0. All dates come from the record: no clock.
 * Throws  RangeError when a date is no day or `falseAlarmShare` is not between 0 and 1.
 * Source  likelihood-ratio change detection with repeated looks (Ville 1939; Lai 1995, J. R. Stat. Soc. B 57:613, from
 *         memory); specific capacity against saturated thickness as in unconfined wells (Jacob's correction, Kruseman
 *         & de Ridder 1990, from memory). Measured on invented fleets: tests/bench/decline.ts.
 * Cost    about 250 × visits × 6 products.
 */
export function appraiseYield(
  well: YieldWell,
  visits: readonly YieldVisit[],
  events: readonly YieldEvent[],
  settings: DeclineSettings,
  pumpLogOdds: number | null = null,
): YieldStanding {
  if (!(settings.falseAlarmShare > 0 && settings.falseAlarmShare < 1)) {
    throw new RangeError(`a false-alarm share lies between 0 and 1, not ${settings.falseAlarmShare}`)
  }
  const record = recordOf(well, visits, events)
  if (!record) return nothingRead()
  const { fits, lessOne } = fitStretches(record)
  const fit = fits[fits.length - 1] ?? null
  const rehabilitated = fits.length > 1
  const verdict = judge(record, { fit, lessOne }, rehabilitated, settings.falseAlarmShare, pumpLogOdds)
  const points = pointsOf(record, fits)
  const measured = points.filter((point) => point.capacityM2PerS !== null)
  const latest = measured[measured.length - 1]
  const evidence = evidenceOf(record, fit, verdict)
  const absolute = verdict.supports === 'capacity' || measured.length > 0
  const baseline = fit && absolute ? baselineOf(record, fit) : null
  const tests = measured.length
  const baselineSince = record.stretches[record.stretches.length - 1]?.since ?? record.origin
  return {
    tests,
    capacity:
      latest && latest.capacityM2PerS !== null ? { m2PerS: latest.capacityM2PerS, on: latest.on } : null,
    baseline,
    points,
    trend: trendOf(fit, verdict.supports === 'capacity', tests),
    suspicion: verdict.suspicion,
    flag: verdict.flag,
    cause: verdict.cause,
    evidence,
    sentence: sentenceOf({ verdict, evidence, baselineSince, tests, rehabilitated }),
    next: nextOf(verdict, tests, FEWEST),
    outlook: outlookOf(well, record, fit, verdict),
  }
}

type Fits = {
  fits: (CapacityFit | null)[]
  /** The present stretch without its last visit; null where too little would be left. */
  lessOne: () => CapacityFit | null
}

/** Each stretch between rehabilitations starts from what the earlier ones taught about the well's ways. */
function fitStretches(record: WellRecord): Fits {
  let learned: Learned = NOTHING_LEARNED
  let lessOne = (): CapacityFit | null => null
  const fits = record.stretches.map(({ rows, sinceYears }, k) => {
    if (rows.length < 2) return null
    const fromStart = k === 0 ? CAPACITY.fromStart : CAPACITY.fromRehabilitation
    const before = learned
    lessOne = () =>
      rows.length < 3 ? null : fitCapacity(rows.slice(0, -1), record.flow, sinceYears, fromStart, before)
    const fit = fitCapacity(rows, record.flow, sinceYears, fromStart, before)
    learned = fit.learned
    return fit
  })
  return { fits, lessOne }
}

function baselineOf(record: WellRecord, fit: CapacityFit): YieldStanding['baseline'] {
  const sd = Math.hypot(fit.baseSd, record.flow.noiseSd / Math.sqrt(Math.max(1, record.has.flow)))
  const since = record.stretches[record.stretches.length - 1]?.since ?? record.origin
  return {
    m2PerS: Math.exp(fit.base),
    low: Math.exp(fit.base - NORMAL_80 * sd),
    high: Math.exp(fit.base + NORMAL_80 * sd),
    since,
  }
}

function evidenceOf(record: WellRecord, fit: CapacityFit | null, verdict: Verdict): YieldEvidence {
  const now = Float64Array.of(record.years[record.years.length - 1] ?? 0)
  const loss = fit
    ? chanceOf(logOddsOf(fit.courses), CAPACITY.oddsBeforehand) * (meanLogLeft(fit.courses, now)[0] ?? 0)
    : null
  const wear = record.flow.courses.length > 0 ? (meanLogLeft(record.flow.courses, now)[0] ?? 0) : null
  const worn = chanceOf(record.flow.logOdds, FLOW.oddsBeforehand)
  const mended = record.readings.filter((reading) => reading.mended).length
  const leftOut = record.readings.filter((reading) => reading.leftOut).length
  return {
    declineOdds: Math.exp(Math.min(50, verdict.logDecline)),
    chance: {
      well: verdict.chance.well,
      waterTable: chanceOf(record.table.logOdds, TABLE.oddsBeforehand),
      pump: verdict.chance.pump,
    },
    capacityChange: loss === null ? null : Math.expm1(loss),
    flowChange: wear === null ? null : Math.expm1(Math.max(worn, verdict.chance.pump) * wear),
    staticFallM: record.has.statics > 1 ? record.table.fallM : null,
    staticFallMPerYear: record.has.statics > 1 ? record.table.fallMPerYear : null,
    used: record.readings.length - leftOut,
    mended,
    leftOut,
  }
}

function outlookOf(
  well: YieldWell,
  record: WellRecord,
  fit: CapacityFit | null,
  verdict: Verdict,
): YieldStanding['outlook'] {
  const losing =
    fit !== null && verdict.supports === 'capacity' && (verdict.flag || verdict.chance.well > ESTABLISHED)
  const to75Percent = losing ? dateOutlook(momentsAtPart(fit.courses, DUE_PART), record.origin) : null
  const falling = chanceOf(record.table.logOdds, TABLE.oddsBeforehand) > ESTABLISHED
  const { demandM3PerS, intakeDepthM } = well
  const asked = demandM3PerS !== null && intakeDepthM !== null && record.table.usualM !== null
  const belowDemand =
    asked && fit !== null && verdict.supports === 'capacity' && (losing || falling)
      ? dateOutlook(
          momentsBelowDemand({ record, fit, losing }, { demandM3PerS, intakeDepthM }),
          record.origin,
        )
      : null
  const open = to75Percent !== null && (to75Percent.low === null || to75Percent.high === null)
  return {
    to75Percent,
    belowDemand,
    why: outlookWhy(
      { flag: verdict.flag, dated: to75Percent !== null || belowDemand !== null, open },
      verdict,
    ),
  }
}

function nothingRead(): YieldStanding {
  const evidence: YieldEvidence = {
    declineOdds: 1,
    chance: { well: 0, waterTable: 0, pump: 0 },
    capacityChange: null,
    flowChange: null,
    staticFallM: null,
    staticFallMPerYear: null,
    used: 0,
    mended: 0,
    leftOut: 0,
  }
  return {
    tests: 0,
    capacity: null,
    baseline: null,
    points: [],
    trend: { kind: 'too-few', have: 0, need: FEWEST },
    suspicion: 0,
    flag: false,
    cause: 'unclear',
    evidence,
    sentence: 'Nothing was read at this well yet.',
    next: 'Read static level, pumping level and flow at the next visit.',
    outlook: { to75Percent: null, belowDemand: null, why: 'No date: nothing was read yet.' },
  }
}
