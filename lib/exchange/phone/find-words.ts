import { type FindStep, findIt, letterOf } from '@/lib/domain/place'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { WellPlace } from '@/lib/records/place'

/** One step to a buried head in words, for a phone without signal. */
export type StepWords = { title: string; lines: string[] }

/** The steps to a head as the find sheet has them, in words. Its photos stay with the server. */
export function findWords(place: WellPlace, units: UnitSystem): StepWords[] {
  const wrong = (place.found?.findings ?? []).filter(({ kind }) => kind === 'wrong').map(({ says }) => says)
  const steps = findIt(place.asBuilt, null, place.declinationDeg, units).map((step) => wordsOf(step, units))
  return wrong.length > 0 ? [{ title: 'The record does not fit together', lines: wrong }, ...steps] : steps
}

function wordsOf(step: FindStep, units: UnitSystem): StepWords {
  const say = (m: number) => formatQuantity(m, 'distance', units)
  switch (step.kind) {
    case 'walk':
      return { title: 'Walk', lines: [step.way.words] }
    case 'go-to':
      return {
        title: 'Go near by the coordinate',
        lines: [
          step.fix.accuracyM === null
            ? 'How good it is was not recorded: expect to be a house’s width off.'
            : `Good to ±${say(step.fix.accuracyM)}.`,
        ],
      }
    case 'look':
      return {
        title: 'Look around for the marks',
        lines: ['Photos and sketch of the marks are not on this phone.'],
      }
    case 'swing':
      return {
        title: 'Swing the tapes',
        lines: [
          ...step.tapes.map(
            ({ mark, about, tapeM, levelM }, i) =>
              `${say(levelM)} level from ${letterOf(i)}: ${mark}${about ? ` (${about})` : ''}; ${say(tapeM)} as taped`,
          ),
          step.note,
        ],
      }
    case 'pace': {
      const way = [
        step.paces === null ? '' : `${step.paces} paces`,
        step.distanceM === null ? '' : say(step.distanceM),
        step.compassDeg === null ? '' : `${Math.round(step.compassDeg)}° by compass`,
        step.trueDeg === null ? '' : `${Math.round(step.trueDeg)}° from true north`,
      ]
      return {
        title: 'Or pace it',
        lines: [`${way.filter(Boolean).join(', ')} from ${step.mark}`, step.note],
      }
    }
    case 'probe':
      return {
        title:
          step.coverM === null ? 'Probe' : `Probe: ${formatQuantity(step.coverM, 'depth', units)} of cover`,
        lines: [step.note, step.caution],
      }
    case 'stuck':
      return { title: 'No way is on record', lines: [step.why] }
  }
}
