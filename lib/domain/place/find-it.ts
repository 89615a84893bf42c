/** How to find a buried head, as steps that a sheet and a phone can show. */

import type { UnitSystem } from '@/lib/domain/quantity'
import { type Bearing, compassBearing, trueBearing } from './bearing'
import { type Fix, type Way, wayFromHere } from './from-here'
import { levelLength, type TapeSlope } from './tape'

/** A tie as recorded with the well. `photoId` shows the mark; `about` says what it is. */
export type RecordedTie = {
  mark: string
  about: string | null
  photoId: string | null
  tapeM: number
  slope: TapeSlope
}

/** What the register keeps of a well's place. Null is unknown. */
export type AsBuiltPlace = {
  fix: Fix | null
  ties: readonly RecordedTie[]
  side: 'left' | 'right' | null
  paced: { mark: string; bearing: Bearing | null; paces: number | null; paceM: number } | null
  coverM: number | null
  sketchId: string | null
  photoIds: readonly string[]
}

export type FindStep =
  | { kind: 'walk'; way: Way }
  | { kind: 'go-to'; fix: Fix }
  | {
      kind: 'swing'
      tapes: { mark: string; about: string | null; photoId: string | null; tapeM: number; levelM: number }[]
      side: 'left' | 'right' | null
      note: string
    }
  | {
      kind: 'pace'
      mark: string
      paces: number | null
      distanceM: number | null
      trueDeg: number | null
      compassDeg: number | null
      note: string
    }
  | { kind: 'probe'; coverM: number | null; note: string; caution: string }
  | { kind: 'look'; photoIds: readonly string[]; sketchId: string | null }
  | { kind: 'stuck'; why: string }

/** Shown with every step that ends in digging. */
const DIGGING_CAUTION =
  'Before you dig, have buried cables and pipes marked as local rules ask. Probe and dig by hand near the head: its cable and outlet are buried too. Do not enter a pit that can cave in.'

/**
 * The steps to a buried head in the order of trust: near it by coordinate, to it by tapes, else by bearing and paces,
 * then down to it. `here` is where the reader stands, null on paper.
 * Answer  ends in 'stuck' with a sentence where the record has neither ties, nor paces, nor a coordinate.
 */
export function findIt(
  place: AsBuiltPlace,
  here: Fix | null,
  declinationDeg: number | null,
  system: UnitSystem,
): FindStep[] {
  const steps: FindStep[] = []
  if (place.fix) {
    const way = here && wayFromHere(here, place.fix, declinationDeg, system)
    steps.push(way ? { kind: 'walk', way } : { kind: 'go-to', fix: place.fix })
  }
  if (place.photoIds.length > 0 || place.sketchId !== null) {
    steps.push({ kind: 'look', photoIds: place.photoIds, sketchId: place.sketchId })
  }
  if (place.ties.length > 0) steps.push(swing(place))
  if (place.paced) steps.push(pace(place.paced, declinationDeg))
  const reached = steps.some((step) => step.kind !== 'look')
  if (!reached) {
    const why =
      'The record has no ties, no paces and no coordinate. Ask the owner, and look for the outlet and the cable; record ties once it is found.'
    return [...steps, { kind: 'stuck', why }]
  }
  steps.push({ kind: 'probe', coverM: place.coverM, note: probeNote(place.coverM), caution: DIGGING_CAUTION })
  return steps
}

function swing({ ties, side }: AsBuiltPlace): FindStep {
  const tapes = ties.map(({ slope, ...tie }) => {
    const level = levelLength(tie.tapeM, slope)
    return { ...tie, levelM: level.kind === 'level' ? level.lengthM : tie.tapeM }
  })
  return { kind: 'swing', tapes, side, note: swingNote(ties.length, side) }
}

function swingNote(ties: number, side: 'left' | 'right' | null): string {
  if (ties === 1) return 'One tape gives only an arc around its mark: probe along it.'
  if (ties > 2) return 'Hold all tapes at their lengths: the head lies where they meet.'
  if (side === null)
    return 'Two tapes meet in two places, one on each side of the line between the marks. Which one was not recorded: try both.'
  return `Two tapes meet in two places: take the one on the ${side} when walking from the first mark to the second.`
}

function pace(paced: NonNullable<AsBuiltPlace['paced']>, declinationDeg: number | null): FindStep {
  const { mark, bearing, paces, paceM } = paced
  const said = bearing && trueBearing(bearing, declinationDeg)
  const trueDeg = said?.kind === 'true' ? said.degrees : null
  const recorded = bearing?.north === 'magnetic' ? bearing.degrees : null
  const compassDeg = recorded ?? (trueDeg === null ? null : compassBearing(trueDeg, declinationDeg))
  return {
    kind: 'pace',
    mark,
    paces,
    distanceM: paces === null ? null : paces * paceM,
    trueDeg,
    compassDeg,
    note: paceNote(bearing, trueDeg, compassDeg),
  }
}

function paceNote(bearing: Bearing | null, trueDeg: number | null, compassDeg: number | null): string {
  if (bearing === null) return 'No bearing was recorded: paces alone give only an arc.'
  if (trueDeg === null)
    return 'The bearing is as a compass showed it then. Compass north moves over the years.'
  if (compassDeg === null)
    return 'The bearing is from true north. What a compass shows depends on the declination, which has not been entered.'
  return 'Bearing from true north, and by compass with the declination that was entered.'
}

function probeNote(coverM: number | null): string {
  return coverM === null
    ? 'The depth of cover was not recorded: probe carefully.'
    : 'Probe first, then dig by hand to the recorded cover. Soil may have been added or washed away since.'
}
