import type { Weighted } from './forecast'

/** Where a belief about the life of a set starts from: mean and deviation of its logarithm. */
export type LifePrior = { mean: number; deviation: number }
type Worn = { used: number; shortestM: number }
type Lengths = { newM: number; minimumM: number }

/** What the hand may be off by, in marks of its rule; the readings choose. Rounding to the mark comes on top. */
const HANDS = [0.25, 0.5, 0.9]
/** Marks of rules, m; a finer one gains nothing on a brush in its holder. */
const MARKS_M = [0.002, 0.001]
const FINEST_MARK_M = 0.0005
/** New brushes differ by this much from their sheet. */
const NEW_M = 0.0004
/** Wear does not run as evenly as a line: variance of the length, in parts of the room squared, that adds up over a life. */
const UNEVENNESS2 = 0.1 ** 2 / 15
/** By how much the rate of wear may drift over a life, as a share; most sets are taken to keep theirs. */
const DRIFTS = [
  { drift: 0, share: 0.6 },
  { drift: 0.15, share: 0.2 },
  { drift: 0.4, share: 0.2 },
]
const LIVES = 56
const REACH = 3.5
/** Middles of ten equal parts of a normal doubt: fewer would show in the ends of an interval. */
const ENDS = [-1.645, -1.036, -0.674, -0.385, -0.126, 0.126, 0.385, 0.674, 1.036, 1.645]

/**
 * Belief about the use at which the shortest brush reaches its minimum, straying of the wear to come included.
 *
 * Model   length and rate of wear as a state that strays (linear growth model of West & Harrison 1997, Bayesian
 *         Forecasting and Dynamic Models, ch. 7; filter of Kalman 1960; both from memory), run for each life, reading
 *         error and drift of a grid and weighed by how well it foretells each reading.
 * Units   lengths m; use in hours or days, as the prior's.
 */
export function lifeBelief(readings: readonly Worn[], lengths: Lengths, prior: LifePrior): Weighted[] {
  const errors = errorsOf(readings.map((r) => r.shortestM))
  const step = (2 * REACH * prior.deviation) / (LIVES - 1)
  const cells = Array.from({ length: LIVES }, (_, i) => -REACH + (2 * REACH * i) / (LIVES - 1)).flatMap((z) =>
    DRIFTS.flatMap(({ drift, share }) =>
      errors.map((errorM) => {
        const law = { life: Math.exp(prior.mean + z * prior.deviation), drift, errorM }
        const state = filtered(readings, lengths, law, step)
        return { law, state, log: state.log + Math.log(share) - 0.5 * z * z }
      }),
    ),
  )
  const top = cells.reduce((most, cell) => Math.max(most, cell.log), Number.NEGATIVE_INFINITY)
  const used = readings.at(-1)?.used ?? 0
  return cells.flatMap(({ law, state, log }) =>
    log < top - 9 ? [] : endsOf(state, law, lengths, used, Math.exp(log - top)),
  )
}

/** Errors a reading may have, from the coarsest mark to which every length was rounded. */
function errorsOf(lengthsM: readonly number[]): number[] {
  const follows = (mark: number) =>
    lengthsM.every((length) => Math.abs(length / mark - Math.round(length / mark)) < 0.02)
  const told = new Set(lengthsM).size >= 3
  const mark = (told ? MARKS_M.find(follows) : undefined) ?? FINEST_MARK_M
  return HANDS.map((hand) => mark * Math.sqrt(hand ** 2 + 1 / 12))
}

type Law = { life: number; drift: number; errorM: number }
/** Length m, rate over the law's own, their covariance, and the logarithm of the likelihood so far. */
type State = { length: number; rate: number; ll: number; lr: number; rr: number; log: number }

/** The state after the last reading. Between two lives of the grid the rate is left open, so that the grid does not show. */
function filtered(readings: readonly Worn[], { newM, minimumM }: Lengths, law: Law, step: number): State {
  const room = newM - minimumM
  let state: State = { length: newM, rate: 1, ll: NEW_M ** 2, lr: 0, rr: (0.7 * step) ** 2, log: 0 }
  let before = 0
  for (const { used, shortestM } of readings) {
    state = updated(
      worn(state, Math.max(0, used - before) / law.life, room, law.drift),
      shortestM,
      law.errorM,
    )
    before = used
  }
  return state
}

/** The state a share of a life later. */
function worn(s: State, share: number, room: number, drift: number): State {
  const step = room * share
  const q = drift ** 2 * share
  return {
    length: s.length - step * s.rate,
    rate: s.rate,
    ll: s.ll - 2 * step * s.lr + step ** 2 * s.rr + room ** 2 * UNEVENNESS2 * share + (step ** 2 * q) / 3,
    lr: s.lr - step * s.rr - (step * q) / 2,
    rr: s.rr + q,
    log: s.log,
  }
}

function updated(s: State, lengthM: number, errorM: number): State {
  const variance = s.ll + errorM ** 2
  const miss = lengthM - s.length
  return {
    length: s.length + (s.ll / variance) * miss,
    rate: s.rate + (s.lr / variance) * miss,
    ll: s.ll - s.ll ** 2 / variance,
    lr: s.lr - (s.ll * s.lr) / variance,
    rr: s.rr - s.lr ** 2 / variance,
    log: s.log - 0.5 * (miss ** 2 / variance + Math.log(variance)),
  }
}

/** The slowest that wear is carried on, as a share of the law's own rate. */
const SLOWEST = 0.2

/** Use at the minimum length, as equal parts: what is left, shorter and longer in proportion to its doubt. */
function endsOf(
  state: State,
  law: Law,
  { newM, minimumM }: Lengths,
  used: number,
  weight: number,
): Weighted[] {
  const room = newM - minimumM
  const rate = Math.max(SLOWEST, state.rate)
  const left = Math.max(0, state.length - minimumM) / (room * rate)
  if (left === 0) return [{ value: used, weight }]
  const then = worn(state, left, room, law.drift)
  const doubt = Math.min(1, Math.sqrt(Math.max(0, then.ll)) / (room * rate * left))
  return ENDS.map((z) => ({
    value: used + left * law.life * Math.exp(z * doubt),
    weight: weight / ENDS.length,
  }))
}
