import { describe, expect, test } from 'vitest'
import {
  type AsBuiltPlace,
  compassBearing,
  compassWord,
  findIt,
  fullTurn,
  pointAt,
  sayStep,
  trueBearing,
  turnBetween,
  wayFromHere,
} from '@/lib/domain/place'

const WELL = { latitude: 44.5, longitude: -72.5, accuracyM: 4.5 }
const from = (distanceM: number, bearingDeg: number, accuracyM: number | null) => ({
  ...pointAt(WELL, fullTurn(bearingDeg + 180), distanceM),
  accuracyM,
})

describe('the way from here', () => {
  test('is said with distance, direction and both accuracies together', () => {
    // √(4² + 4.5²) = 6.02
    expect(wayFromHere(from(18, 45, 4), WELL, null, 'metric')).toMatchObject({
      words: '18\u00a0m, north-east, ±6\u00a0m',
      near: false,
      compassDeg: null,
      northNote: expect.stringContaining('has not been entered'),
    })
    expect(wayFromHere(from(18, 45, 4), WELL, null, 'us').words).toBe('59\u00a0ft, north-east, ±20\u00a0ft')
  })

  test('stops pointing where the errors are as large as the distance', () => {
    const way = wayFromHere(from(5, 45, 4), WELL, 10, 'metric')
    expect(way).toMatchObject({ near: true, words: 'within 6\u00a0m of here: swing the tapes' })
  })

  test('never makes up an accuracy', () => {
    const way = wayFromHere(from(18, 200, null), WELL, null, 'metric')
    expect(way).toMatchObject({ accuracyM: null, words: '18\u00a0m, south, accuracy unknown', near: false })
  })

  test('gives the compass bearing only with a declination that was entered', () => {
    // 15° west: true 80° is 95° by compass.
    const way = wayFromHere(from(50, 80, 4), WELL, -15, 'metric')
    expect(way.trueDeg).toBeCloseTo(80, 2)
    expect(way.compassDeg).toBeCloseTo(95, 2)
    expect(way.northNote).toBe('80° from true north. 95° by compass, with the declination that was entered.')
  })

  test('on the spot itself has no direction', () => {
    expect(wayFromHere(WELL, { ...WELL, accuracyM: null }, 3, 'metric')).toMatchObject({
      trueDeg: null,
      compassDeg: null,
      words: '0\u00a0m, accuracy unknown',
    })
  })

  test('far away is said in kilometres or miles', () => {
    expect(sayStep(2449, 'metric')).toBe('2.4\u00a0km')
    expect(sayStep(2449, 'us')).toBe('1.5\u00a0mi')
  })
})

describe('bearings', () => {
  test.each([
    [0, 'north'],
    [22.4, 'north'],
    [22.6, 'north-east'],
    [180, 'south'],
    [337.6, 'north'],
    [-90, 'west'],
  ])('%s degrees are %s', (degrees, word) => {
    expect(compassWord(degrees)).toBe(word)
  })

  test('declination turns compass bearings into true ones and back; without it nothing is said', () => {
    expect(trueBearing({ degrees: 355, north: 'magnetic' }, 12)).toEqual({ kind: 'true', degrees: 7 })
    expect(compassBearing(7, 12)).toBe(355)
    expect(trueBearing({ degrees: 355, north: 'magnetic' }, null).kind).toBe('cannot-say')
    expect(trueBearing({ degrees: -5, north: 'true' }, null)).toEqual({ kind: 'true', degrees: 355 })
    expect([turnBetween(350, 10), turnBetween(10, 350), turnBetween(0, 180)]).toEqual([20, -20, 180])
    expect(fullTurn(-1e-20)).toBe(0)
  })
})

const BARE: AsBuiltPlace = {
  fix: null,
  ties: [],
  side: null,
  paced: null,
  coverM: null,
  sketchId: null,
  photoIds: [],
}
const tie = (mark: string, tapeM: number) => ({
  mark,
  about: null,
  photoId: null,
  tapeM,
  slope: { kind: 'level' as const },
})
const kinds = (place: Partial<AsBuiltPlace>) =>
  findIt({ ...BARE, ...place }, null, null, 'metric').map((step) => step.kind)

describe('the steps to a buried head', () => {
  test('go from the coordinate to the tapes to the probe', () => {
    const place = { fix: WELL, ties: [tie('door', 8), tie('post', 9)], photoIds: ['p'], coverM: 0.6 }
    expect(kinds(place)).toEqual(['go-to', 'look', 'swing', 'probe'])
    const steps = findIt({ ...BARE, ...place }, from(40, 10, 5), null, 'metric')
    expect(steps[0]).toMatchObject({ kind: 'walk', way: { words: expect.stringContaining('40') } })
    expect(steps.at(-1)).toMatchObject({
      kind: 'probe',
      coverM: 0.6,
      caution: expect.stringContaining('cables'),
    })
  })

  test('say what tapes alone leave open', () => {
    const note = (place: Partial<AsBuiltPlace>) => {
      const swing = findIt({ ...BARE, ...place }, null, null, 'metric').find((s) => s.kind === 'swing')
      return swing?.kind === 'swing' ? swing.note : ''
    }
    expect(note({ ties: [tie('door', 8)] })).toContain('arc')
    expect(note({ ties: [tie('door', 8), tie('post', 9)] })).toContain('try both')
    expect(note({ ties: [tie('door', 8), tie('post', 9)], side: 'left' })).toContain('on the left')
    expect(note({ ties: [tie('door', 8), tie('post', 9), tie('oak', 7)] })).toContain('all tapes')
  })

  test('give a compass bearing as it was read, and a true one only with a declination', () => {
    const paced = {
      mark: 'door',
      bearing: { degrees: 27, north: 'magnetic' as const },
      paces: 19,
      paceM: 0.75,
    }
    const step = (declinationDeg: number | null) =>
      findIt({ ...BARE, paced }, null, declinationDeg, 'metric').find((s) => s.kind === 'pace')
    expect(step(null)).toMatchObject({ compassDeg: 27, trueDeg: null, distanceM: 14.25 })
    expect(step(12)).toMatchObject({ compassDeg: 27, trueDeg: 39 })
    const trueOnly = { ...paced, bearing: { degrees: 39, north: 'true' as const }, paces: null }
    expect(findIt({ ...BARE, paced: trueOnly }, null, null, 'metric')[0]).toMatchObject({
      compassDeg: null,
      trueDeg: 39,
      distanceM: null,
      note: expect.stringContaining('declination'),
    })
  })

  test('end in a plain word where nothing was recorded', () => {
    expect(kinds({ photoIds: ['p'] })).toEqual(['look', 'stuck'])
    expect(kinds({})).toEqual(['stuck'])
  })
})
