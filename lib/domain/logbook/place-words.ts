/** What a measured place says about itself, in plain sentences with what to do next. */
import type { Candidate, Choice, Located, MarksPlaced } from '@/lib/domain/place'
import { formatNumber, formatQuantity, fromSi, type UnitSystem } from '@/lib/domain/quantity'
import type { PlaceFact } from './place-kinds'

/** `wrong` needs a new measurement, `doubt` a look; `good` holds; `open` cannot be said. */
export type PlaceFinding = { kind: 'wrong' | 'doubt' | 'good' | 'open'; says: string; doThis: string | null }

type Found = { marks: MarksPlaced | null; located: Located | null; choice: Choice | null }

/** Every finding, those that need somebody first. */
export function findingsOf(fact: PlaceFact, found: Found, system: UnitSystem): PlaceFinding[] {
  const all = [...tiesSay(fact, found), ...pointSays(fact, found, system), ...missing(fact)]
  return all.sort((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind))
}

const ORDER: readonly PlaceFinding['kind'][] = ['wrong', 'doubt', 'good', 'open']

const MEASURE_AGAIN =
  'Measure those ties again from the mark itself, tape tight and level, before anybody relies on this place.'

function tiesSay(fact: PlaceFact, { marks, located }: Found): PlaceFinding[] {
  if (fact.ties.length === 0)
    return [open('No tape ties are recorded.', 'Tape to two fixed marks, better to three.')]
  if (fact.ties.length === 1)
    return [open('One tape gives an arc and no point.', 'Tape to a second fixed mark, better to a third.')]
  if (!marks) {
    return [
      open(
        'The ties are recorded, but not how the marks stand to each other: the point cannot be drawn, nor one tie held against another.',
        'Measure from the first mark to the second, and from both to any third.',
      ),
    ]
  }
  if (marks.kind === 'no-place') return [wrong(marks.reason, marks.doThis)]
  if (!located) return []
  if (located.kind === 'no-place') return [wrong(located.reason, located.doThis)]
  const { misfit } = located
  if (misfit.kind === 'no-check') return [open(misfit.why, null)]
  if (misfit.kind === 'does-not-fit') return [wrong(misfit.why, MEASURE_AGAIN)]
  return [good(`The ${fact.ties.length} ties fit each other.`)]
}

function pointSays(fact: PlaceFact, { marks, located, choice }: Found, system: UnitSystem): PlaceFinding[] {
  if (!choice || located?.kind !== 'located') return []
  if (choice.kind === 'two')
    return [doubt(choice.why, 'Stand at the first mark, look at the second, and note the hand.')]
  const { candidate, coordinate, paced } = choice.chosen
  const fits = located.misfit.kind !== 'does-not-fit'
  return [
    ...(fits ? [good(reachWords(candidate, located.candidates.length, choice.by, system))] : []),
    ...(candidate.weak ? [doubt(candidate.weak, 'Tie to one more mark, to the side of the others.')] : []),
    ...(fact.side && choice.by !== 'side' && located.candidates.length > 1
      ? [
          doubt(
            `The head was noted on the ${fact.side}, but no place lies there.`,
            'Look at the site which hand is right.',
          ),
        ]
      : []),
    ...[coordinate, paced].flatMap((held): PlaceFinding[] => {
      if (!held) return []
      if (held.kind === 'agrees') return [good(held.why)]
      return held.kind === 'disagrees' ? [wrong(held.why, WHICH_IS_WRONG)] : [open(held.why, null)]
    }),
    ...(fact.fix && marks?.kind === 'placed' && !marks.origin
      ? [
          open(
            'The marks are placed by lengths between them and nowhere on the globe: the ties are not held against the coordinate.',
            'Take a position at each mark where that check matters.',
          ),
        ]
      : []),
  ]
}

const WHICH_IS_WRONG =
  'One of them is wrong. Look at the site which: is the coordinate of this head, are the marks the right ones, is a figure swapped?'

const BY = {
  'only-one': '',
  side: ', on the hand that was noted',
  coordinate: ', on the hand where the coordinate lies',
  paces: ', on the hand to which the paces lead',
} as const

function reachWords(
  { ellipse }: Candidate,
  candidates: number,
  by: keyof typeof BY,
  system: UnitSystem,
): string {
  const percent = Math.round(ellipse.probability * 100)
  return `The ties put the head within ${sayReach(ellipse.semiMajorM, system)}${candidates > 1 ? BY[by] : ''}: so it is ${percent} times in 100 with tapes held with usual care.`
}

/** How far off, as a person says it: centimetres or inches up to a pace, then metres or feet. */
export function sayReach(m: number, system: UnitSystem): string {
  if (system === 'metric')
    return m < 1 ? `${Math.max(1, Math.round(m * 100))}\u00a0cm` : formatQuantity(m, 'distance', 'metric')
  return m < 0.9144
    ? `${formatNumber(Math.max(1, Math.round(fromSi(m, 'in'))), 0, 0)}\u00a0in`
    : formatQuantity(m, 'distance', 'us')
}

function missing({ fix, cover }: PlaceFact): PlaceFinding[] {
  return [
    ...(fix
      ? []
      : [
          open('No coordinate was taken with this measurement.', 'Take one with a phone held over the head.'),
        ]),
    ...(cover ? [] : [open('The depth of cover was not recorded.', null)]),
  ]
}

const wrong = (says: string, doThis: string | null): PlaceFinding => ({ kind: 'wrong', says, doThis })
const doubt = (says: string, doThis: string | null): PlaceFinding => ({ kind: 'doubt', says, doThis })
const good = (says: string): PlaceFinding => ({ kind: 'good', says, doThis: null })
const open = (says: string, doThis: string | null): PlaceFinding => ({ kind: 'open', says, doThis })
