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
  lookAt: 'valve' | 'fresh-work' | 'watch' | 'nothing'
  why: string
}

/** A loss this soon after the line was opened is put to that. Common practice, no published source. */
const FRESH_DAYS = 7
const REPEAT_DAYS = 365

/**
 * What losses of prime point to: the valve, or work that opened the suction line.
 *
 * Shape   days in any order; `openedOn` are days on which a cartridge, O-ring or pipe was changed.
 * Answer  'valve' for two losses within a year that no fresh work explains; 'watch' for one; 'fresh-work' where the
 *         newest followed within a week of opening the line (an O-ring, air left in the housing).
 */
export function primeStanding(
  lossesOn: readonly Day[],
  valveChangedOn: readonly Day[],
  openedOn: readonly Day[],
): PrimeStanding {
  const since = [...valveChangedOn].sort().at(-1) ?? ''
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
