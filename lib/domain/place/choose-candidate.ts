/** Which of two possible places is meant. */
import type { UnitSystem } from '@/lib/domain/quantity'
import { type Agreement, type CoordinateCheck, checkCoordinate, checkPaced, type Paced } from './checks'
import type { Candidate } from './locate'

/** What else is known of the place. Null where it was not recorded. */
export type SaidOfPlace = {
  /** The hand on which the well lies when walking from the first mark to the second. */
  side: 'left' | 'right' | null
  coordinate: CoordinateCheck | null
  paced: Paced | null
  declinationDeg: number | null
}

/** What the record says of one candidate; null where nothing was recorded to hold against it. */
export type Held = { candidate: Candidate; coordinate: Agreement | null; paced: Agreement | null }

export type Choice =
  | { kind: 'one'; chosen: Held; by: 'only-one' | 'side' | 'coordinate' | 'paces'; doubts: string[] }
  | { kind: 'two'; both: Held[]; why: string }

/**
 * Chooses between the candidates of `locate`, and holds the chosen one against everything recorded.
 *
 * Answer  a side that was said decides; else a coordinate, else bearing and paces, where one candidate agrees with
 *         it and the other does not. 'two' where nothing tells them apart: the side must then be said, or both dug.
 *         `doubts` are the sentences of what disagrees with the choice.
 * Throws  RangeError on an empty list.
 */
export function chooseCandidate(
  candidates: readonly Candidate[],
  said: SaidOfPlace,
  options: { falseAlarm: number; system: UnitSystem },
): Choice {
  const held = candidates.map((candidate) => hold(candidate, said, options))
  const [first, second] = held
  if (!first) throw new RangeError('no candidate to choose from')
  if (!second) return one(first, 'only-one')
  if (said.side !== null) {
    const onSide = held.filter((h) => h.candidate.side === said.side)
    if (onSide.length === 1 && onSide[0]) return one(onSide[0], 'side')
  }
  const byCoordinate = soleAgreeing(held, (h) => h.coordinate)
  if (byCoordinate) return one(byCoordinate, 'coordinate')
  const byPaces = soleAgreeing(held, (h) => h.paced)
  if (byPaces) return one(byPaces, 'paces')
  return {
    kind: 'two',
    both: held,
    why: 'The tapes meet in two places, one on each side of the line between the marks, and nothing recorded tells which. Say on which side the well lies.',
  }
}

function hold(
  candidate: Candidate,
  said: SaidOfPlace,
  { falseAlarm, system }: { falseAlarm: number; system: UnitSystem },
): Held {
  const { coordinate, paced, declinationDeg } = said
  return {
    candidate,
    coordinate: coordinate && checkCoordinate(candidate, coordinate, falseAlarm, system),
    paced: paced && checkPaced(candidate, paced, declinationDeg, falseAlarm, system),
  }
}

function one(chosen: Held, by: 'only-one' | 'side' | 'coordinate' | 'paces'): Choice {
  const checks = [chosen.coordinate, chosen.paced]
  const doubts = checks.flatMap((check) => (check?.kind === 'disagrees' ? [check.why] : []))
  return { kind: 'one', chosen, by, doubts }
}

/** The one candidate that agrees, where every other one disagrees. */
function soleAgreeing(held: readonly Held[], check: (h: Held) => Agreement | null): Held | null {
  const agreeing = held.filter((h) => check(h)?.kind === 'agrees')
  const against = held.filter((h) => check(h)?.kind === 'disagrees')
  return agreeing.length === 1 && against.length === held.length - 1 ? (agreeing[0] ?? null) : null
}
