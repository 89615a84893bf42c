import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  conflictWords,
  type DayStop,
  lengthText,
  moveCost,
  moveWords,
  orderRound,
  orderWithLocks,
  schedule,
  secondsOf,
  timeText,
  timetable,
  USUAL_DRIVING,
} from '@/lib/domain/place'

const YARD = { latitude: 44.155, longitude: -121.33 }
const frame = { day: '2026-11-26', yard: YARD, startAt: '08:00', endAt: '17:00', driving: USUAL_DRIVING }

/** Stops within some fifteen kilometres of the yard, some of whose owners mind the hour. */
const dayOf = (most: number) =>
  fc.array(
    fc.record({
      north: fc.integer({ min: -120, max: 120 }),
      east: fc.integer({ min: -120, max: 120 }),
      minutes: fc.integer({ min: 10, max: 60 }),
      from: fc.option(fc.constantFrom('09:00', '10:00', '13:00')),
      until: fc.option(fc.constantFrom('13:30', '15:00', '16:30')),
    }),
    { minLength: 2, maxLength: most },
  )

type Drawn = {
  north: number
  east: number
  minutes: number
  from: string | null
  until: string | null
}

const stopsOf = (drawn: readonly Drawn[]): DayStop[] =>
  drawn.map((d, i) => ({
    id: `s${i}`,
    at: { latitude: YARD.latitude + d.north / 1000, longitude: YARD.longitude + d.east / 1000 },
    minutes: d.minutes,
    notBefore: d.from,
    doneBy: d.until,
    onlyOn: null,
  }))

function tableOf(drawn: readonly Drawn[]) {
  const table = timetable(frame, stopsOf(drawn))
  if (!table) throw new Error('a yard was given')
  return table
}

describe('the cost of a move, as shown before it', () => {
  test('is what the timetable of the moved stops differs by', () => {
    fc.assert(
      fc.property(dayOf(8), fc.nat(), fc.nat(), (drawn, a, b) => {
        const table = tableOf(drawn)
        const n = drawn.length
        const order = table.routed.map((_, i) => i)
        const { order: moved, cost } = moveCost(table.problem, order, a % n, b % n)
        const after = timetable(
          frame,
          moved.flatMap((i) => table.routed[i] ?? []),
        )
        expect(after?.schedule.travelS).toBeCloseTo(table.schedule.travelS + cost.travelS, 6)
        expect(after?.schedule.homeS).toBeCloseTo(table.schedule.homeS + cost.homeS, 6)
        expect(after?.schedule.lateS).toBeCloseTo(table.schedule.lateS + cost.lateS, 6)
        const wasLate = new Set(table.schedule.stops.filter((s) => s.lateS > 1e-6).map((s) => s.id))
        const newly = after?.schedule.stops.filter((s) => s.lateS > 1e-6 && !wasLate.has(s.id)) ?? []
        expect(cost.newlyLate.map((s) => s.id).sort()).toEqual(newly.map((s) => s.id).sort())
      }),
    )
  })
})

describe('an order in which some stops keep their place', () => {
  test('holds every lock, names every stop once, and is never worse than the order it was given', () => {
    fc.assert(
      fc.property(dayOf(7), fc.array(fc.nat(6), { maxLength: 4 }), fc.nat(), (drawn, locks, turn) => {
        const { problem } = tableOf(drawn)
        const n = drawn.length
        const order = drawn.map((_, i) => (i + turn) % n)
        const locked = new Set(locks.filter((i) => i < n))
        const found = orderWithLocks(problem, order, locked)
        expect([...found].sort((a, b) => a - b)).toEqual(drawn.map((_, i) => i))
        order.forEach((stop, place) => {
          if (locked.has(stop)) expect(found[place]).toBe(stop)
        })
        const was = schedule(problem, order)
        const is = schedule(problem, found)
        expect(is.lateS).toBeLessThanOrEqual(was.lateS + 1e-6)
        if (Math.abs(is.lateS - was.lateS) < 1e-6) expect(is.travelS).toBeLessThanOrEqual(was.travelS + 1e-6)
      }),
      { numRuns: 60 },
    )
  })

  test('without a lock is the reckoned one, and with all of them nothing moves', () => {
    const { problem } = tableOf([
      { north: 100, east: 0, minutes: 20, from: null, until: null },
      { north: -100, east: 0, minutes: 20, from: null, until: null },
      { north: 90, east: 10, minutes: 20, from: null, until: null },
    ])
    expect(orderWithLocks(problem, [0, 1, 2], new Set())).toEqual(orderRound(problem).order)
    expect(orderWithLocks(problem, [0, 1, 2], new Set([0, 1, 2]))).toEqual([0, 1, 2])
    expect(() => orderWithLocks(problem, [0, 0, 2], new Set())).toThrow(RangeError)
  })

  test('with few stops is the best of all orders that hold the locks', () => {
    fc.assert(
      fc.property(dayOf(5), fc.nat(4), (drawn, lock) => {
        const { problem } = tableOf(drawn)
        const order = drawn.map((_, i) => i)
        const locked = new Set(lock < drawn.length ? [lock] : [])
        const cost = (tour: readonly number[]) => schedule(problem, tour)
        const best = permutations(order)
          .filter((tour) => tour.every((stop, place) => !locked.has(stop) || order[place] === stop))
          .map(cost)
          .reduce((a, b) =>
            b.lateS < a.lateS - 1e-6 || (b.lateS < a.lateS + 1e-6 && b.travelS < a.travelS) ? b : a,
          )
        const found = cost(orderWithLocks(problem, order, locked))
        expect(found.lateS).toBeLessThanOrEqual(best.lateS + 1e-6)
      }),
      { numRuns: 60 },
    )
  })
})

function permutations(things: readonly number[]): number[][] {
  if (things.length === 0) return [[]]
  return things.flatMap((one) =>
    permutations(things.filter((other) => other !== one)).map((p) => [one, ...p]),
  )
}

describe('a timetable', () => {
  test('leaves stops without a place out of the times, and says which', () => {
    const [one, two] = stopsOf([
      { north: 50, east: 0, minutes: 30, from: null, until: null },
      { north: 0, east: 0, minutes: 45, from: null, until: null },
    ])
    if (!one || !two) throw new Error('two stops were made')
    const table = timetable(frame, [{ ...two, at: null }, one])
    expect(table?.routed.map((s) => s.id)).toEqual(['s0'])
    expect(table?.unrouted.map((s) => s.id)).toEqual(['s1'])
    expect(table?.schedule.homeS).toBeCloseTo(8 * 3600 + (table?.schedule.travelS ?? 0) + 30 * 60, 6)
    expect(timetable({ ...frame, yard: null }, [one])).toBeNull()
  })

  test('says times and lengths as people do', () => {
    expect(secondsOf('08:30')).toBe(30_600)
    expect(() => secondsOf('8:30')).toThrow(RangeError)
    expect([timeText(30_600), timeText(90_000), timeText(30_629)]).toEqual([
      '08:30',
      '01:00 the next day',
      '08:30',
    ])
    expect([lengthText(720), lengthText(-3600), lengthText(4500), lengthText(0)]).toEqual([
      '12 min',
      '1 h',
      '1 h 15 min',
      '0 min',
    ])
  })

  test('says what a move costs and what cannot be kept', () => {
    const labelOf = (id: string) => (id === 'a' ? 'W012' : id)
    const cost = { travelS: 720, homeS: 720, lateS: 0, newlyLate: [] }
    expect(moveWords(cost, labelOf)).toBe('+12 min driving')
    expect(moveWords({ ...cost, travelS: -240, homeS: 0 }, labelOf)).toBe('−4 min driving')
    expect(moveWords({ ...cost, travelS: 10, homeS: -900 }, labelOf)).toBe('home 15 min sooner')
    expect(moveWords({ ...cost, travelS: 0, homeS: 0 }, labelOf)).toBe('no change')
    const late = { ...cost, lateS: 600, newlyLate: [{ id: 'a', byS: 600 }] }
    expect(moveWords(late, labelOf)).toBe('+12 min driving, W012 late by 10 min')
    expect(conflictWords({ kind: 'home-late', byS: 600 }, labelOf, '17:00')).toBe('Home 10 min after 17:00.')
    expect(conflictWords({ kind: 'late', id: 'a', byS: 600, alone: true }, labelOf, '17:00')).toContain(
      'even as the only stop',
    )
  })
})
