import { addDays, type Day } from '@/lib/domain/quantity/day'

/** A gauge on the closed line after the pump stops: what it showed at once and after a while. */
export type ValveTest = { beforePa: number; afterPa: number; heldS: number }

export type ValveVerdict =
  | { kind: 'holds' | 'doubtful' | 'leaks'; lostPa: number; says: string }
  | { kind: 'cannot-say'; says: string }

const PSI_PA = 6894.757293
/** The gauge "should barely fall": its own step. */
const HOLDS_PA = PSI_PA
const LEAKS_PA = 5 * PSI_PA
/** Ten minutes: long enough for a weeping seat to show on a common gauge. Common practice, no published source. */
const HELD_MIN_S = 600

/**
 * Whether a check valve holds, from the pressure lost while nothing runs.
 *
 * Answer  'leaks' from 5 psi lost, 'holds' within a psi, 'doubtful' between; 'cannot-say' for a test under ten minutes
 *         (unless it leaked already), a gauge that rose, or less pressure to begin with than a leak would lose.
 * Source  the 5 psi is a well contractor's published advice (weak); no standard seen.
 */
export function valveTest({ beforePa, afterPa, heldS }: ValveTest): ValveVerdict {
  const lostPa = beforePa - afterPa
  if (![beforePa, afterPa, heldS].every(Number.isFinite) || lostPa < -HOLDS_PA) {
    return {
      kind: 'cannot-say',
      says: 'The gauge rose while nothing ran: a tap or the pump was open. Repeat the test.',
    }
  }
  if (lostPa >= LEAKS_PA)
    return { kind: 'leaks', lostPa, says: 'The valve lets water back: clean or change it.' }
  if (beforePa < LEAKS_PA) {
    return {
      kind: 'cannot-say',
      says: 'There was too little pressure to begin with: repeat it at 5 psi (35 kPa) or more.',
    }
  }
  if (heldS < HELD_MIN_S) return { kind: 'cannot-say', says: 'Hold it for ten minutes before reading again.' }
  return lostPa <= HOLDS_PA
    ? { kind: 'holds', lostPa, says: 'The valve held for this test.' }
    : {
        kind: 'doubtful',
        lostPa,
        says: 'The valve may weep: repeat the test, and look at its seat at the next visit.',
      }
}

export type PrimeStanding = {
  /** Losses of prime since the present check valve was put in. */
  losses: Day[]
  lookAt: 'valve' | 'joints' | 'fresh-work' | 'watch' | 'nothing'
  why: string
  /** The newest test of the present check valve, with what it says; null where there is none. */
  test: (ValveTest & { on: Day; verdict: ValveVerdict }) | null
}

export type DatedValveTest = ValveTest & { on: Day }

/** A loss this soon after the line was opened is put to that. Common practice, no published source. */
const FRESH_DAYS = 7
const REPEAT_DAYS = 365

/**
 * What losses of prime point to: the valve, or work that opened the suction line.
 *
 * Shape   days in any order; `openedOn` are days on which a cartridge, O-ring or pipe was changed.
 * Answer  'valve' for a test in which the valve let water back, and for two losses within a year that no fresh work
 *         explains, unless the valve held in a test since: then 'joints'. 'watch' for one loss; 'fresh-work' where the
 *         newest followed within a week of opening the line (an O-ring, air left in the housing).
 */
export function primeStanding(
  lossesOn: readonly Day[],
  valveChangedOn: readonly Day[],
  openedOn: readonly Day[],
  tests: readonly DatedValveTest[] = [],
): PrimeStanding {
  const since = [...valveChangedOn].sort().at(-1) ?? ''
  const test = newestTest(tests, since)
  const said = byLosses(lossesOn, since, openedOn)
  return { ...said, ...byTest(said, test), test }
}

function newestTest(tests: readonly DatedValveTest[], since: Day): PrimeStanding['test'] {
  const own = tests.filter(({ on }) => on >= since).sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
  const last = own.at(-1)
  return last ? { ...last, verdict: valveTest(last) } : null
}

type ByLosses = Pick<PrimeStanding, 'losses' | 'lookAt' | 'why'>

/** What a test adds to the losses: it outweighs what was guessed from them. */
function byTest(said: ByLosses, test: PrimeStanding['test']): Partial<ByLosses> {
  if (!test) return {}
  const { verdict, on } = test
  const psi = (pa: number) => `${(pa / PSI_PA).toFixed(1)} psi (${Math.round(pa / 1000)} kPa)`
  if (verdict.kind === 'leaks') {
    return {
      lookAt: 'valve',
      why: `the check valve lost ${psi(verdict.lostPa)} while nothing ran, on ${on}: clean it or change it`,
    }
  }
  const lastLoss = said.losses.at(-1) ?? ''
  if (verdict.kind === 'holds' && said.lookAt === 'valve' && on >= lastLoss) {
    return {
      lookAt: 'joints',
      why: `prime was lost again and again, last on ${lastLoss}, but the check valve held on ${on}: look at the suction joints, O-rings and the foot valve`,
    }
  }
  if (verdict.kind === 'doubtful' && said.lookAt === 'nothing') {
    return {
      lookAt: 'watch',
      why: `the check valve may weep: it lost ${psi(verdict.lostPa)} on ${on}; test it again`,
    }
  }
  return {}
}

function byLosses(lossesOn: readonly Day[], since: Day, openedOn: readonly Day[]): ByLosses {
  const losses = [...new Set(lossesOn)].filter((on) => on >= since).sort()
  const isFresh = (on: Day) => openedOn.some((work) => work <= on && on <= addDays(work, FRESH_DAYS))
  const last = losses.at(-1)
  if (last === undefined)
    return { losses, lookAt: 'nothing', why: 'no loss of prime is recorded with this check valve' }
  const unexplained = losses.filter((on) => !isFresh(on) && addDays(on, REPEAT_DAYS) >= last)
  if (unexplained.length >= 2) {
    return {
      losses,
      lookAt: 'valve',
      why: `prime was lost ${unexplained.length} times within a year (last on ${last}) with no work before it: test the check valve, then the suction joints`,
    }
  }
  return isFresh(last)
    ? {
        losses,
        lookAt: 'fresh-work',
        why: `prime was lost on ${last}, within a week of opening the line: look at O-rings and for air left in the housing`,
      }
    : {
        losses,
        lookAt: 'watch',
        why: `prime was lost once, on ${last}: test the check valve at the next visit`,
      }
}
