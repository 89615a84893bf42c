/** Where a buried head lies by what the logbook holds, how sure that is, and what does not fit. */
import {
  type AsBuiltPlace,
  type Bearing,
  type Choice,
  chooseCandidate,
  type Fix,
  fromLocal,
  type LatLon,
  type Located,
  locate,
  type MarksGiven,
  type MarksPlaced,
  type Paced,
  placeMarks,
  type TapeSlope,
  type Tie,
  toLocal,
  trueBearing,
  USUAL_OPTIONS,
} from '@/lib/domain/place'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { CurrentFact } from './entries'
import type { PlaceFact } from './place-kinds'
import { findingsOf, type PlaceFinding } from './place-words'

/** A walker's pace where none was measured, m. Common practice, no published source. */
export const USUAL_PACE_M = 0.75

export type MeasuredPlace = Omit<CurrentFact, 'fact'> & { fact: PlaceFact }

/** What the latest measurement of a place comes to. Null where there is nothing to reckon it from. */
export type PlaceFound = {
  /** Null where no mark was named, or only names are known. */
  marks: MarksPlaced | null
  located: Located | null
  choice: Choice | null
  /** The coordinate that the ties give; null where the marks have no place on the globe. */
  fromTies: Fix | null
  findings: PlaceFinding[]
}

/** A photo of a place; `about` says what it shows: a mark by its name, "sketch", "head", "way in", or null. */
export type PlacePhoto = { id: string; about: string | null }

/** All that leads to a head, as a find sheet shows it: made the same on the server and on a phone without signal. */
export type PlaceSheet = {
  found: PlaceFound | null
  asBuilt: AsBuiltPlace
  /** Declination that was entered with the measurement, degrees, east positive. */
  declinationDeg: number | null
}

/** What a find sheet shows of a measured place and its photos; `fact` null where it was never measured. */
export function placeSheet(
  fact: PlaceFact | null,
  register: LatLon | null,
  photos: readonly PlacePhoto[],
  system: UnitSystem,
): PlaceSheet {
  const found = fact && placeFound(fact, register, system)
  const photoOf = (about: string) => photos.find((photo) => photo.about === about)?.id ?? null
  const photoIds = photos.map((photo) => photo.id)
  return {
    found,
    asBuilt: asBuiltPlace(fact, found, register, photoOf, photoIds),
    declinationDeg: fact?.declinationDeg ?? null,
  }
}

/** The measurements of a place that stand, the latest first: it is the one that counts. */
export function measuredPlaces(facts: readonly CurrentFact[]): MeasuredPlace[] {
  return facts
    .flatMap(({ fact, ...line }) => (fact.kind === 'place-measured' ? [{ ...line, fact }] : []))
    .reverse()
}

/**
 * Reckons a measured place: marks, the point from the ties with its 95 % ellipse, and everything held against
 * everything else. `register` is the coordinate of the register, used where the measurement brings none; its accuracy
 * is not known.
 */
export function placeFound(fact: PlaceFact, register: LatLon | null, system: UnitSystem): PlaceFound {
  const options = { ...USUAL_OPTIONS, system }
  const given = marksGiven(fact)
  const marks = given && placeMarks(given)
  const placed = marks?.kind === 'placed' ? marks : null
  const located = placed && fact.ties.length > 0 ? locate(placed.marks, fact.ties.map(tieOf), options) : null
  const coordinate = coordinateOf(fact, register)
  const choice =
    placed && located?.kind === 'located'
      ? chooseCandidate(
          located.candidates,
          {
            side: fact.side ?? null,
            coordinate:
              coordinate && placed.origin
                ? { at: toLocal(placed.origin, coordinate), accuracyM: coordinate.accuracyM }
                : null,
            paced: pacedFrom(fact, placed),
            declinationDeg: fact.declinationDeg ?? null,
          },
          options,
        )
      : null
  const chosen = choice?.kind === 'one' ? choice.chosen.candidate : null
  // Ties that do not fit each other give no position that anybody could drive to.
  const fits = located?.kind === 'located' && located.misfit.kind !== 'does-not-fit'
  const fromTies =
    chosen && placed?.origin && fits
      ? { ...fromLocal(placed.origin, chosen.at), accuracyM: onGlobe(fact, chosen.ellipse.semiMajorM) }
      : null
  const found = { marks, located, choice, fromTies }
  return { ...found, findings: findingsOf(fact, found, system) }
}

/**
 * What the steps to a head are made of. The hand on which it lies is the one written down, else the one that a
 * coordinate or paces chose. `photoOf` gives the photo of a mark, of the sketch ("sketch"), or null.
 */
export function asBuiltPlace(
  fact: PlaceFact | null,
  found: PlaceFound | null,
  register: LatLon | null,
  photoOf: (about: string) => string | null,
  photoIds: readonly string[],
): AsBuiltPlace {
  const side = found?.choice?.kind === 'one' ? found.choice.chosen.candidate.side : null
  const about = new Map<string, string | undefined>(fact?.marks.list.map((mark) => [mark.name, mark.about]))
  return {
    fix: fact?.fix
      ? fixOf(fact.fix)
      : register
        ? { ...register, accuracyM: null }
        : (found?.fromTies ?? null),
    ties: (fact?.ties ?? []).map((tie) => ({
      ...tieOf(tie),
      about: about.get(tie.mark) ?? null,
      photoId: photoOf(tie.mark),
    })),
    side: fact?.side ?? (side === 'left' || side === 'right' ? side : null),
    paced: fact?.paced
      ? {
          mark: fact.paced.mark,
          bearing: fact.paced.bearing ?? null,
          paces: fact.paced.paces ?? null,
          paceM: fact.paced.pace?.si ?? USUAL_PACE_M,
        }
      : null,
    coverM: fact?.cover?.si ?? null,
    sketchId: photoOf('sketch'),
    photoIds,
  }
}

const fixOf = ({ latitude, longitude, accuracy }: NonNullable<PlaceFact['fix']>): Fix => ({
  latitude,
  longitude,
  accuracyM: accuracy?.si ?? null,
})

function coordinateOf(fact: PlaceFact, register: LatLon | null): Fix | null {
  if (fact.fix) return fixOf(fact.fix)
  return register && { ...register, accuracyM: null }
}

/** Null where the marks have names alone. */
function marksGiven(fact: PlaceFact): MarksGiven | null {
  const { marks } = fact
  switch (marks.given) {
    case 'names':
      return null
    case 'local':
      return {
        kind: 'local',
        origin: marks.origin ?? null,
        marks: marks.list.map(({ name, east, north }) => ({ name, eastM: east.si, northM: north.si })),
      }
    case 'geographic':
      return {
        kind: 'geographic',
        // A position without its accuracy is taken for a phone's usual one.
        marks: marks.list.map(({ name, latitude, longitude, accuracy }) => ({
          name,
          latitude,
          longitude,
          accuracyM: accuracy?.si ?? USUAL_PHONE_M,
        })),
      }
    case 'spans':
      return {
        kind: 'spans',
        marks: marks.list.map(({ name, side }) => ({ name, side: side ?? null })),
        spans: marks.spans.map(({ from, to, tape }) => ({ from, to, tapeM: tape.si, sigmaM: null })),
        firstToSecondDeg: trueDegrees(marks.firstToSecond, fact),
      }
  }
}

/** Null where there is no bearing, or one by compass without the declination: the picture then has no north. */
function trueDegrees(bearing: Bearing | undefined, { declinationDeg }: PlaceFact): number | null {
  const said = bearing && trueBearing(bearing, declinationDeg ?? null)
  return said?.kind === 'true' ? said.degrees : null
}

/** What a phone says in the open, m, 95 %. Common practice, no published source. */
const USUAL_PHONE_M = 10

function tieOf({ mark, tape, slope }: PlaceFact['ties'][number]): Tie {
  return { mark, tapeM: tape.si, slope: slopeOf(slope), sigmaM: null }
}

function slopeOf(slope: PlaceFact['ties'][number]['slope']): TapeSlope {
  if (!slope) return { kind: 'level' }
  return 'rise' in slope ? { kind: 'rise', riseM: slope.rise.si } : { kind: 'angle', degrees: slope.degrees }
}

/** A bearing cannot be held against a frame without a north: only the paces are. */
function pacedFrom({ paced }: PlaceFact, { marks, northUp }: MarksPlaced & { kind: 'placed' }): Paced | null {
  const from = paced && marks.find((mark) => mark.name === paced.mark)
  if (!paced || !from) return null
  return {
    from,
    fromName: paced.mark,
    bearing: northUp ? (paced.bearing ?? null) : null,
    paces: paced.paces ?? null,
    paceM: paced.pace?.si ?? USUAL_PACE_M,
  }
}

/** The zero point of local marks is a position of its own, with an accuracy that nobody noted. */
function onGlobe({ marks }: PlaceFact, reachM: number): number | null {
  return marks.given === 'geographic' ? reachM : null
}
