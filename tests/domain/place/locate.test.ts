import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  apartM,
  type Candidate,
  chooseCandidate,
  ellipseReach,
  type Located,
  locate,
  type PlacedMark,
  placeMarks,
  type SaidOfPlace,
  squaredReach,
  type Tie,
  USUAL_OPTIONS,
} from '@/lib/domain/place'
import { diceFrom } from '@/tests/sim/dice'

const mark = (name: string, eastM: number, northM: number, sigmaM = 0): PlacedMark => ({
  name,
  eastM,
  northM,
  sigmaM,
})
const tie = (name: string, tapeM: number, sigmaM: number | null = null): Tie => ({
  mark: name,
  tapeM,
  slope: { kind: 'level' },
  sigmaM,
})
const found = (located: Located) => {
  if (located.kind !== 'located') throw new Error(located.reason)
  return located
}
const DOOR = mark('door', 0, 0)
const POST = mark('post', 20, 0)
const OAK = mark('oak', 8, 25)
const WELL = { eastM: 9, northM: 11 }
const tapes = (...marks: PlacedMark[]) => marks.map((m) => tie(m.name, apartM(m, WELL)))
const NOTHING: SaidOfPlace = { side: null, coordinate: null, paced: null, declinationDeg: null }

describe('what cannot be placed says why and what to do', () => {
  test('tapes that are together too short', () => {
    const answer = locate([DOOR, POST], [tie('door', 8.2), tie('post', 10.6)])
    expect(answer).toMatchObject({
      kind: 'no-place',
      reason: expect.stringContaining('1.20\u00a0m too short for marks 20.00\u00a0m apart'),
      doThis: expect.stringContaining('"door"'),
    })
  })

  test('a tape that reaches beyond the other', () => {
    const answer = locate([DOOR, POST], [tie('door', 35), tie('post', 10)])
    expect(answer).toMatchObject({
      kind: 'no-place',
      reason: expect.stringContaining('the tape from "door" reaches 5.00\u00a0m beyond'),
    })
  })

  test('one tie, no tie, a mark without place, one mark twice', () => {
    expect(locate([DOOR], [tie('door', 8)])).toMatchObject({ reason: expect.stringContaining('is one') })
    expect(locate([DOOR], [])).toMatchObject({ reason: expect.stringContaining('are none') })
    expect(locate([DOOR], [tie('gate', 8)])).toMatchObject({ reason: expect.stringContaining('"gate"') })
    expect(locate([DOOR, { ...DOOR, name: 'sill' }], [tie('door', 8), tie('sill', 8)])).toMatchObject({
      reason: expect.stringContaining('same point'),
    })
  })

  test('a tape shorter than its rise', () => {
    const steep: Tie = { mark: 'door', tapeM: 3, slope: { kind: 'rise', riseM: -4 }, sigmaM: null }
    expect(locate([DOOR, POST], [steep, tie('post', 10)])).toMatchObject({
      reason: expect.stringContaining('rise'),
    })
  })
})

describe('a tape on a slope', () => {
  test('counts with its level length: 5 m over a rise of 3 m are 4 m', () => {
    const sloped: Tie = { mark: 'door', tapeM: 5, slope: { kind: 'rise', riseM: 3 }, sigmaM: 0.01 }
    const angled: Tie = { mark: 'post', tapeM: 20, slope: { kind: 'angle', degrees: -60 }, sigmaM: 0.01 }
    const { candidates } = found(locate([DOOR, mark('post', 8, 0)], [sloped, angled]))
    expect(candidates[0]?.residuals.map((r) => r.lengthM)).toEqual([4, expect.closeTo(10, 9)])
  })
})

describe('tapes that only just meet', () => {
  test('give one place on the line, well known along it and poorly across', () => {
    const { candidates } = found(locate([DOOR, POST], [tie('door', 8, 0.05), tie('post', 11.95, 0.05)]))
    expect(candidates).toHaveLength(1)
    expect(candidates[0]).toMatchObject({ side: 'on-the-line', weak: expect.stringContaining('0 degrees') })
    expect(candidates[0]?.at.eastM).toBeCloseTo(8.025, 6)
    expect(candidates[0]?.ellipse.majorBearingDeg).toBeCloseTo(0, 6)
    expect(candidates[0]?.ellipse.semiMajorM).toBeGreaterThan(10 * (candidates[0]?.ellipse.semiMinorM ?? 0))
  })
})

describe('marks in a line', () => {
  test('leave two places, however many they are', () => {
    const wall = [DOOR, POST, mark('corner', 35, 0)]
    const { candidates } = found(locate(wall, tapes(...wall)))
    expect(candidates.map((c) => c.side).sort()).toEqual(['left', 'right'])
  })

  test('around the well leave one', () => {
    const { candidates, misfit } = found(locate([DOOR, POST, OAK], tapes(DOOR, POST, OAK)))
    expect(candidates).toHaveLength(1)
    expect(apartM(candidates[0]?.at ?? DOOR, WELL)).toBeLessThan(1e-6)
    expect(misfit).toMatchObject({ kind: 'fits', falseAlarm: 0.01 })
  })
})

describe('a tie that does not fit', () => {
  const BARN = mark('barn', 30, 22)
  test('is named where four ties can tell', () => {
    const ties = tapes(DOOR, POST, OAK, BARN).map((t) =>
      t.mark === 'oak' ? { ...t, tapeM: t.tapeM + 1 } : t,
    )
    expect(found(locate([DOOR, POST, OAK, BARN], ties)).misfit).toMatchObject({
      kind: 'does-not-fit',
      suspects: ['oak'],
      why: 'The tie from "oak" does not fit the others: measure it again.',
    })
  })

  test('is one of three where three ties cannot', () => {
    const ties = tapes(DOOR, POST, OAK).map((t) => (t.mark === 'oak' ? { ...t, tapeM: t.tapeM + 2 } : t))
    const { misfit } = found(locate([DOOR, POST, OAK], ties))
    if (misfit.kind !== 'does-not-fit') throw new Error('the ties fit')
    expect([...misfit.suspects].sort()).toEqual(['door', 'oak', 'post'])
    expect(misfit.why).toContain('a fourth')
  })

  test('cannot be seen with two', () => {
    expect(found(locate([DOOR, POST], tapes(DOOR, POST))).misfit.kind).toBe('no-check')
  })
})

describe('which of two places', () => {
  const { candidates } = found(locate([DOOR, POST], tapes(DOOR, POST)))
  const choose = (said: Partial<SaidOfPlace>) =>
    chooseCandidate(candidates, { ...NOTHING, ...said }, USUAL_OPTIONS)
  const isWell = (c: Candidate) => apartM(c.at, WELL) < 1e-6

  test('stays open until something tells', () => {
    expect(choose({})).toMatchObject({ kind: 'two', why: expect.stringContaining('which') })
  })

  test('is decided by the side, and a coordinate on the other side is a doubt', () => {
    const wrong = { at: { eastM: 9, northM: -11 }, accuracyM: 3 }
    const choice = choose({ side: 'left', coordinate: wrong })
    if (choice.kind !== 'one') throw new Error(choice.why)
    expect(isWell(choice.chosen.candidate)).toBe(true)
    expect(choice.by).toBe('side')
    expect(choice.doubts).toEqual([expect.stringContaining('22.00\u00a0m north of the coordinate')])
  })

  test('is decided by a good coordinate, not by a rough one or one without accuracy', () => {
    const near = { eastM: 10, northM: 12 }
    expect(choose({ coordinate: { at: near, accuracyM: 5 } })).toMatchObject({
      kind: 'one',
      by: 'coordinate',
      doubts: [],
    })
    expect(choose({ coordinate: { at: near, accuracyM: 30 } }).kind).toBe('two')
    expect(choose({ coordinate: { at: near, accuracyM: null } }).kind).toBe('two')
  })

  test('is decided by a true bearing, and by a compass bearing only with a declination', () => {
    // From the door the well lies on atan2(9, 11) = 39.3°, 14.2 m; a declination of 12° east makes that 27° by compass.
    const paced = (degrees: number, north: 'true' | 'magnetic') => ({
      from: DOOR,
      fromName: 'door',
      bearing: { degrees, north },
      paces: 19,
      paceM: 0.75,
    })
    expect(choose({ paced: paced(40, 'true') })).toMatchObject({ kind: 'one', by: 'paces' })
    expect(choose({ paced: paced(27, 'magnetic') }).kind).toBe('two')
    const declared = choose({ paced: paced(27, 'magnetic'), declinationDeg: 12 })
    expect(declared).toMatchObject({ kind: 'one', by: 'paces', doubts: [] })
    const far = choose({ side: 'left', paced: { ...paced(40, 'true'), paces: 40 } })
    expect(far).toMatchObject({ kind: 'one', doubts: [expect.stringContaining('40 paces are 30.00\u00a0m')] })
  })
})

describe('marks known by the distances between them', () => {
  const spans = (...pairs: [PlacedMark, PlacedMark][]) =>
    pairs.map(([a, b]) => ({ from: a.name, to: b.name, tapeM: apartM(a, b), sigmaM: 0.01 }))
  const names = [
    { name: 'door', side: null },
    { name: 'post', side: null },
    { name: 'oak', side: 'left' as const },
  ]

  test('give the same well as their coordinates', () => {
    const placed = placeMarks({
      kind: 'spans',
      marks: names,
      spans: spans([DOOR, POST], [POST, OAK], [OAK, DOOR]),
      firstToSecondDeg: 90,
    })
    if (placed.kind !== 'placed') throw new Error(placed.reason)
    expect(placed.northUp).toBe(true)
    const { candidates } = found(locate(placed.marks, tapes(DOOR, POST, OAK)))
    expect(apartM(candidates[0]?.at ?? DOOR, WELL)).toBeLessThan(1e-6)
  })

  test('say which distance or side is missing', () => {
    const without = placeMarks({
      kind: 'spans',
      marks: names,
      spans: spans([POST, OAK]),
      firstToSecondDeg: null,
    })
    expect(without).toMatchObject({ kind: 'no-place', reason: expect.stringContaining('"door" to "post"') })
    const sideless = placeMarks({
      kind: 'spans',
      marks: names.map((n) => ({ ...n, side: null })),
      spans: spans([DOOR, POST], [POST, OAK], [OAK, DOOR]),
      firstToSecondDeg: null,
    })
    expect(sideless).toMatchObject({ kind: 'no-place', doThis: expect.stringContaining('hand') })
  })

  test('by satellite are laid flat around the first', () => {
    const placed = placeMarks({
      kind: 'geographic',
      marks: [
        { name: 'door', latitude: 44.5, longitude: -72.5, accuracyM: 1 },
        { name: 'post', latitude: 44.5, longitude: -72.49975, accuracyM: 1 },
      ],
    })
    if (placed.kind !== 'placed') throw new Error(placed.reason)
    // One degree of longitude at latitude 44.5° is 79.54 km.
    expect(placed.marks[1]?.eastM).toBeCloseTo(0.00025 * 79_541, 1)
    expect(placed.marks[1]?.northM).toBeCloseTo(0, 3)
    expect(placed.marks[1]?.sigmaM).toBeCloseTo(1 / 2.4477, 4)
  })

  test('need names of their own', () => {
    expect(placeMarks({ kind: 'local', marks: [DOOR, DOOR], origin: null }).kind).toBe('no-place')
  })
})

/** Share of `throws` simulated measurements whose ellipse holds the well. */
function coverage(marks: PlacedMark[], sigmaM: number, probability: number, seed: number): number {
  const throws = 2500
  const dice = diceFrom(seed)
  let held = 0
  for (let i = 0; i < throws; i++) {
    const ties = marks.map((m) => tie(m.name, apartM(m, WELL) + sigmaM * dice.normal(), sigmaM))
    const { candidates } = found(locate(marks, ties, { ...USUAL_OPTIONS, probability }))
    const nearest = candidates.reduce((a, b) => (apartM(a.at, WELL) <= apartM(b.at, WELL) ? a : b))
    const offset = { eastM: WELL.eastM - nearest.at.eastM, northM: WELL.northM - nearest.at.northM }
    if (squaredReach(nearest.covariance, offset) <= ellipseReach(probability) ** 2) held++
  }
  return held / throws
}

describe('the error ellipse holds the well as often as it says, within 2 points', () => {
  test.each([
    ['two tapes', [DOOR, POST], 0.05, 0.95],
    ['two tapes, one standard ellipse', [DOOR, POST], 0.05, 0.3935],
    ['three tapes', [DOOR, POST, OAK], 0.1, 0.95],
    ['three tapes, nine in ten', [DOOR, POST, OAK], 0.1, 0.9],
    ['two tapes that meet at 30 degrees', [mark('a', 9, 31), mark('b', 19, 28.32)], 0.05, 0.95],
  ] as const)('%s', (_, marks, sigmaM, probability) => {
    expect(Math.abs(coverage([...marks], sigmaM, probability, 20_261) - probability)).toBeLessThan(0.02)
  })

  test('and ties that are as good as they say are called wrong as seldom as is said', () => {
    const dice = diceFrom(77)
    const marks = [DOOR, POST, OAK]
    const throws = 2500
    let called = 0
    for (let i = 0; i < throws; i++) {
      const ties = marks.map((m) => tie(m.name, apartM(m, WELL) + 0.05 * dice.normal(), 0.05))
      if (found(locate(marks, ties, { ...USUAL_OPTIONS, falseAlarm: 0.05 })).misfit.kind === 'does-not-fit')
        called++
    }
    expect(Math.abs(called / throws - 0.05)).toBeLessThan(0.01)
  })
})

describe('properties', () => {
  const point = fc.record({
    eastM: fc.double({ min: -40, max: 40, noNaN: true }),
    northM: fc.double({ min: -40, max: 40, noNaN: true }),
  })

  test('turning the whole ground turns the answer', () => {
    fc.assert(
      fc.property(point, fc.double({ min: 0, max: 6.28, noNaN: true }), (well, turn) => {
        fc.pre([DOOR, POST, OAK].every((m) => apartM(m, well) > 1))
        const turned = <P extends { eastM: number; northM: number }>(p: P) => ({
          ...p,
          eastM: p.eastM * Math.cos(turn) - p.northM * Math.sin(turn),
          northM: p.eastM * Math.sin(turn) + p.northM * Math.cos(turn),
        })
        const marks = [DOOR, POST, OAK]
        const ties = marks.map((m) => tie(m.name, apartM(m, well)))
        const answers = found(locate(marks.map(turned), ties)).candidates
        expect(answers.some((c) => apartM(c.at, turned(well)) < 1e-4)).toBe(true)
      }),
    )
  })

  test('exact tapes always bring the well back among the candidates, or say that it is on the line', () => {
    fc.assert(
      fc.property(point, fc.constantFrom(2, 3), (well, count) => {
        const wall = [DOOR, POST, mark('corner', 35, 0)].slice(0, count)
        fc.pre(wall.every((m) => apartM(m, well) > 0.5))
        const { candidates } = found(
          locate(
            wall,
            wall.map((m) => tie(m.name, apartM(m, well))),
          ),
        )
        const near = candidates.some((c) =>
          c.side === 'on-the-line'
            ? squaredReach(c.covariance, {
                eastM: well.eastM - c.at.eastM,
                northM: well.northM - c.at.northM,
              }) < 9
            : apartM(c.at, well) < 0.01,
        )
        expect(near).toBe(true)
      }),
    )
  })
})
