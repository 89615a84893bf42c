/** What follows when a stop is closed. */

export type ClosingDuty = { key: string; name: string; consequence: 'health' | 'supply' | 'wear' }

/** How a stop ended. `left` are duties not done, with the reason as the technician gave it. */
export type Closing =
  | { outcome: 'done'; done: readonly ClosingDuty[] }
  | {
      outcome: 'partly'
      done: readonly ClosingDuty[]
      left: readonly (ClosingDuty & { why: string })[]
    }
  | { outcome: 'not-found'; planned: readonly ClosingDuty[]; tried: string; hasTies: boolean | null }
  | { outcome: 'no-access'; planned: readonly ClosingDuty[]; why: string }

export type NextStep =
  | { kind: 'log-done'; duty: ClosingDuty }
  /** The duty stays due as it was; nothing is logged as done. */
  | { kind: 'stays-due'; duty: ClosingDuty; words: string }
  | { kind: 'log-note'; words: string }
  | { kind: 'visit-again'; withinDays: number; words: string }
  | { kind: 'call-owner'; words: string }
  | { kind: 'mend-place'; words: string }
  | { kind: 'search'; words: string }

/** How soon to come again, by the weightiest duty left. Common practice, no published source. */
const AGAIN_DAYS = { health: 7, supply: 14, wear: 30 } as const

/**
 * The next steps of a closed stop, in the order in which they are to be taken.
 *
 * Shape   only a duty that was done is logged as done; every other one stays due. A stop that was not reached is
 *         noted, so that the logbook shows the attempt.
 */
export function closeStop(closing: Closing): NextStep[] {
  switch (closing.outcome) {
    case 'done':
      return closing.done.map(logDone)
    case 'partly':
      return [
        ...closing.done.map(logDone),
        ...closing.left.map(({ why, ...duty }) => staysDue(duty, why)),
        ...again(closing.left),
      ]
    case 'not-found':
      return notFound(closing)
    case 'no-access':
      return [
        { kind: 'log-note', words: `No access: ${closing.why}` },
        ...closing.planned.map((duty) => staysDue(duty, 'no access')),
        { kind: 'call-owner', words: `Agree on a day and the way in. ${untested(closing.planned)}`.trim() },
        ...again(closing.planned),
      ]
  }
}

/** What is on record of the place decides what there is to mend; `unknown` where nobody has looked. */
const MEND = {
  ties: 'Hold the recorded ties against each other and against the coordinate, and check that every mark still stands.',
  none: 'There are no ties on record: ask the owner and whoever built it, and tape to two or three fixed marks once it is found.',
  unknown:
    'Hold what is on record of the place (ties, bearing, coordinate) against itself, and tape to two or three fixed marks once it is found.',
}

/** Digging blind cuts cables: the caution stands with the step. */
const SEARCH =
  'Plan a search with a probe or by digging. Have buried cables and pipes marked before anybody probes or digs.'

function notFound({ planned, tried, hasTies }: Closing & { outcome: 'not-found' }): NextStep[] {
  const mend = hasTies === null ? MEND.unknown : hasTies ? MEND.ties : MEND.none
  return [
    { kind: 'log-note', words: `Head not found. Tried: ${tried}` },
    ...planned.map((duty) => staysDue(duty, 'the head was not found')),
    { kind: 'mend-place', words: mend },
    { kind: 'search', words: SEARCH },
    {
      kind: 'call-owner',
      words: `Ask where the head lies and what was changed there. ${untested(planned)}`.trim(),
    },
    ...again(planned),
  ]
}

const logDone = (duty: ClosingDuty): NextStep => ({ kind: 'log-done', duty })

const staysDue = (duty: ClosingDuty, why: string): NextStep => ({
  kind: 'stays-due',
  duty,
  words: `${duty.name} is still due: ${why}.`,
})

/** Nobody is to take a visit that did not happen for a word about the water. */
function untested(duties: readonly ClosingDuty[]): string {
  const health = duties.filter((duty) => duty.consequence === 'health').map((duty) => duty.name)
  return health.length === 0 ? '' : `Tell them what was not done for their health: ${health.join(', ')}.`
}

function again(left: readonly ClosingDuty[]): NextStep[] {
  const weights = (['health', 'supply', 'wear'] as const).filter((c) => left.some((d) => d.consequence === c))
  const [weightiest] = weights
  if (!weightiest) return []
  const withinDays = AGAIN_DAYS[weightiest]
  return [{ kind: 'visit-again', withinDays, words: `Come again within ${withinDays} days.` }]
}
