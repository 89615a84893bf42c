import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  conflictsOf,
  costAgainst,
  costPerStop,
  type LatLon,
  lineBetween,
  moveCost,
  moveStop,
  orderRound,
  type RoundProblem,
  type Stop,
  schedule,
  travelTimes,
  USUAL_DRIVING,
} from '@/lib/domain/place'

const YARD: LatLon = { latitude: 44.5, longitude: -72.6 }
const H = 3600
const free = { notBeforeS: null, doneByS: null }
const stop = (id: string, window: Partial<Stop['window']> = {}, serviceS = 1800): Stop => ({
  id,
  serviceS,
  window: { ...free, ...window },
})

/** Stops along a road, `minutes` from the yard each. */
function along(minutes: number[], stops: Stop[], endS: number | null = null): RoundProblem {
  const at = [0, ...minutes]
  return { travelS: at.map((a) => at.map((b) => Math.abs(a - b) * 60)), stops, startS: 8 * H, endS }
}

describe('driving times', () => {
  test('are the straight line, longer by the road, at the speed', () => {
    const place = { latitude: 44.6, longitude: -72.5 }
    const [[, seconds = 0] = []] = travelTimes([YARD, place], { roadFactor: 1.5, speedKmH: 60 })
    expect(seconds).toBeCloseTo((lineBetween(YARD, place).distanceM * 1.5) / (60 / 3.6), 6)
  })

  test('refuse a road shorter than a straight line and a truck that stands', () => {
    expect(() => travelTimes([YARD], { ...USUAL_DRIVING, roadFactor: 0.9 })).toThrow(RangeError)
    expect(() => travelTimes([YARD], { ...USUAL_DRIVING, speedKmH: 0 })).toThrow(RangeError)
  })
})

describe('a day in a given order', () => {
  test('waits for an owner who wants nobody before ten, and is home when all is done', () => {
    const problem = along([30, 60], [stop('a', { notBeforeS: 10 * H }), stop('b')])
    const day = schedule(problem, [0, 1])
    // 8:00, 30 min, waits from 8:30 to 10:00, works to 10:30, 30 min, works to 11:30, 60 min home.
    expect(day.stops[0]).toMatchObject({ arriveS: 8.5 * H, waitS: 1.5 * H, beginS: 10 * H, leaveS: 10.5 * H })
    expect(day.homeS).toBe(12.5 * H)
    expect(day).toMatchObject({ travelS: 2 * H, waitS: 1.5 * H, lateS: 0 })
  })

  test('says who is late and by how much, and who would be even alone', () => {
    const problem = along([30, 60], [stop('a', { doneByS: 9 * H }), stop('b', { doneByS: 9 * H })], 11 * H)
    const answer = orderRound(problem)
    expect(answer.conflicts).toContainEqual({ kind: 'late', id: 'b', byS: expect.any(Number), alone: true })
    const order = answer.order.map((i) => problem.stops[i]?.id)
    expect(order).toEqual(['a', 'b'])
    expect(conflictsOf(problem, schedule(problem, [1, 0]))).toContainEqual({
      kind: 'late',
      id: 'a',
      byS: 1.5 * H,
      alone: false,
    })
  })

  test('says when the truck is home late', () => {
    const answer = orderRound(along([60, 90], [stop('a'), stop('b')], 11 * H))
    expect(answer.conflicts).toEqual([{ kind: 'home-late', byS: H }])
  })

  test('empty is a day at the yard', () => {
    expect(orderRound(along([], [])).schedule).toMatchObject({ stops: [], travelS: 0, homeS: 8 * H })
  })

  test('refuses times that do not fit', () => {
    const problem = along([30], [stop('a')])
    expect(() => orderRound({ ...problem, stops: [stop('a'), stop('b')] })).toThrow(RangeError)
    expect(() =>
      orderRound({
        ...problem,
        travelS: [
          [0, 1],
          [2, 0],
        ],
      }),
    ).toThrow(/direction/)
    expect(() => schedule(problem, [4])).toThrow(RangeError)
  })
})

describe('what the human’s order costs', () => {
  const problem = along([10, 20, 30], [stop('a'), stop('b', { doneByS: 9.5 * H }), stop('c')])

  test('against the reckoned one, with whom it makes late', () => {
    // Out to c, back to a, out to b: 30 + 20 + 10 + 20 min against 60 min there and back.
    const cost = costAgainst(problem, [2, 0, 1], [0, 1, 2])
    expect(cost.travelS).toBe(20 * 60)
    expect(cost.newlyLate).toEqual([{ id: 'b', byS: expect.any(Number) }])
  })

  test('a move and its way back cancel out', () => {
    const there = moveCost(problem, [0, 1, 2], 2, 0)
    expect(there.order).toEqual([2, 0, 1])
    const back = moveCost(problem, there.order, 0, 2)
    expect(back.order).toEqual([0, 1, 2])
    expect(there.cost.travelS).toBe(20 * 60)
    expect(back.cost.travelS).toBe(-there.cost.travelS)
    expect(() => moveStop([0, 1, 2], 0, 3)).toThrow(RangeError)
  })

  test('stop by stop: what its place costs, nothing where it is well placed', () => {
    expect(costPerStop(problem, [0, 1, 2])).toEqual(
      ['a', 'b', 'c'].map((id, i) => ({ id, travelS: 0, lateS: 0, betterAt: i })),
    )
    const dear = costPerStop(problem, [2, 0, 1])
    expect(dear[0]).toMatchObject({ id: 'c', travelS: 20 * 60, betterAt: 2 })
    expect(dear[0]?.lateS).toBeGreaterThan(0)
  })
})

/** Every order of `n` things. */
function orders(n: number): number[][] {
  if (n === 0) return [[]]
  return orders(n - 1).flatMap((rest) =>
    Array.from({ length: n }, (_, k) => [...rest.slice(0, k), n - 1, ...rest.slice(k)]),
  )
}

const roundOf = (stops: number) =>
  fc
    .record({
      at: fc.array(fc.tuple(fc.integer({ min: -60, max: 60 }), fc.integer({ min: -60, max: 60 })), {
        minLength: stops,
        maxLength: stops,
      }),
      hours: fc.array(
        fc.record({
          notBefore: fc.option(fc.integer({ min: 8, max: 13 })),
          doneBy: fc.option(fc.integer({ min: 9, max: 17 })),
        }),
        { minLength: stops, maxLength: stops },
      ),
      end: fc.option(fc.integer({ min: 11, max: 18 })),
    })
    .map(({ at, hours, end }): RoundProblem => {
      const places = [[0, 0] as const, ...at]
      return {
        travelS: places.map(([x, y]) => places.map(([u, v]) => 60 * Math.hypot(x - u, y - v))),
        stops: hours.map(({ notBefore, doneBy }, i) => ({
          id: `${i}`,
          serviceS: 1200,
          window: {
            notBeforeS: notBefore === null ? null : notBefore * H,
            doneByS: doneBy === null ? null : doneBy * H,
          },
        })),
        startS: 8 * H,
        endS: end === null ? null : end * H,
      }
    })

describe('properties of the order', () => {
  test('of five stops no order is less late, nor as punctual with less driving', () => {
    fc.assert(
      fc.property(roundOf(5), (problem) => {
        const { schedule: found } = orderRound(problem)
        for (const order of orders(5)) {
          const other = schedule(problem, order)
          expect(other.lateS).toBeGreaterThan(found.lateS - 1e-3)
          if (other.lateS <= found.lateS + 1e-6) expect(other.travelS).toBeGreaterThan(found.travelS - 1e-3)
        }
      }),
      { numRuns: 60 },
    )
  })

  test('every stop once, the same answer twice, late ones and only they are named', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 16 }).chain(roundOf), (problem) => {
        const answer = orderRound(problem)
        expect([...answer.order].sort((a, b) => a - b)).toEqual(problem.stops.map((_, i) => i))
        expect(orderRound(problem)).toEqual(answer)
        const named = answer.conflicts.flatMap((c) => (c.kind === 'late' ? [c.id] : []))
        expect(named).toEqual(answer.schedule.stops.filter((s) => s.lateS > 1e-6).map((s) => s.id))
        expect(answer.conflicts.some((c) => c.kind === 'home-late')).toBe(answer.schedule.homeLateS > 1e-6)
      }),
      { numRuns: 25 },
    )
  })
})
