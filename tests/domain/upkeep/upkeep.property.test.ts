import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  appraiseDuty,
  type ClosedSeason,
  type Duty,
  type MeterReading,
  projectCrossing,
  slug,
  trackUsage,
  usedSince,
} from '@/lib/domain/upkeep'
import { textDay } from './simulated-meters'
import { duty } from './wells'

const day = fc.integer({ min: 15_000, max: 21_500 }).map(textDay)
const monthDay = fc
  .integer({ min: 0, max: 365 })
  .map((n) => textDay(Date.UTC(2024, 0, 1) / 86_400_000 + n).slice(5))
const season: fc.Arbitrary<ClosedSeason> = fc.record({
  from: monthDay,
  to: monthDay,
  why: fc.constant('snow'),
})

/** Any readings at all: sound, backward, absurd, explained in any way. */
const wildReadings = fc
  .array(
    fc.record({
      on: day,
      value: fc.oneof(fc.integer({ min: 0, max: 3000 }), fc.constantFrom(0, 1e12, 999_999)),
      explained: fc.constantFrom<MeterReading['explained'][]>(
        null,
        null,
        null,
        'replaced',
        'rolled-over',
        'kept',
      ),
      replacedFrom: fc.option(fc.integer({ min: 0, max: 3000 })),
      replacedTo: fc.option(fc.integer({ min: 0, max: 100 })),
    }),
    { maxLength: 25 },
  )
  .map((list) => list.map((reading, i) => ({ ...reading, id: `r${i}` })))

/** Readings as a sound meter gives them: one a day at most, never backward, at an ordinary pace. */
const soundReadings = fc
  .array(fc.record({ days: fc.integer({ min: 5, max: 120 }), pace: fc.integer({ min: 0, max: 9 }) }), {
    minLength: 3,
    maxLength: 30,
  })
  .map((steps) => {
    let on = 16_000
    let value = 0
    return steps.map(({ days, pace }, i): MeterReading => {
      on += days
      value += pace * days
      return { on: textDay(on), value, id: `r${i}`, explained: null }
    })
  })

const anyDuty: fc.Arbitrary<Duty> = fc.record({
  key: fc.constant('d'),
  name: fc.constant('D'),
  consequence: fc.constantFrom<Duty['consequence'][]>('health', 'supply', 'wear'),
  everyMonths: fc.option(fc.integer({ min: 1, max: 60 })),
  everyRunS: fc.option(fc.integer({ min: 1, max: 5000 })),
  everyM3: fc.option(fc.integer({ min: 1, max: 5000 })),
  condition: fc.constant(null),
  lastDoneOn: fc.option(day),
})

describe('meters', () => {
  test('the order in which readings come does not matter', () => {
    fc.assert(
      fc.property(
        wildReadings.chain((list) =>
          fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length })),
        ),
        ([list, shuffled]) => {
          expect(trackUsage(shuffled, 1000)).toEqual(trackUsage(list, 1000))
        },
      ),
    )
  })

  test('every reading is either used, merged into its day, or set aside with a reason', () => {
    fc.assert(
      fc.property(wildReadings, (list) => {
        const { points, setAside } = trackUsage(list)
        const aside = new Set(setAside.map(({ id }) => id))
        expect(setAside.every(({ why }) => why.length > 0)).toBe(true)
        const days = new Set(points.map(({ on }) => on))
        for (const { id, on, explained } of list) {
          expect(aside.has(id) || days.has(on)).toBe(true)
          if (explained !== null) expect(aside.has(id)).toBe(false)
        }
      }),
    )
  })

  test('no use is ever negative, and time never runs backward', () => {
    fc.assert(
      fc.property(wildReadings, (list) => {
        const { points } = trackUsage(list, 1000)
        points.forEach(({ used, on }, i) => {
          expect(used === null || used >= 0).toBe(true)
          expect(i === 0 || (points[i - 1]?.on ?? '') < on).toBe(true)
        })
      }),
    )
  })

  test('a sound meter keeps every reading, and use adds up to what it shows', () => {
    fc.assert(
      fc.property(soundReadings, (list) => {
        const track = trackUsage(list)
        const [first, last] = [list[0], list[list.length - 1]]
        if (!first || !last) throw new Error('the generator made no reading')
        expect(track.setAside).toEqual([])
        const since = usedSince(track, first.on)
        expect(since.kind === 'used' && since.used).toBeCloseTo(last.value - first.value, 6)
      }),
    )
  })

  test('use since a later day is never more', () => {
    fc.assert(
      fc.property(soundReadings, day, fc.integer({ min: 0, max: 400 }), (list, from, more) => {
        const later = textDay(Date.parse(from) / 86_400_000 + more)
        const track = trackUsage(list)
        const [a, b] = [usedSince(track, from), usedSince(track, later)]
        if (a.kind === 'used' && b.kind === 'used') expect(b.used).toBeLessThanOrEqual(a.used + 1e-6)
      }),
    )
  })

  test('a higher limit is never reached sooner, and the interval holds its date', () => {
    fc.assert(
      fc.property(
        soundReadings,
        fc.integer({ min: 1, max: 4000 }),
        fc.integer({ min: 0, max: 4000 }),
        (list, limit, more) => {
          const since = list[0]?.on ?? ''
          const track = trackUsage(list)
          const [low, high] = [
            projectCrossing(track, since, limit),
            projectCrossing(track, since, limit + more),
          ]
          if (low.kind !== 'crossing') return
          expect(low.from <= low.due && (low.to === null || low.due <= low.to)).toBe(true)
          expect(low.due > since).toBe(true)
          if (high.kind === 'crossing') expect(high.due >= low.due).toBe(true)
        },
      ),
    )
  })
})

describe('due dates', () => {
  const usageOf = (hours: MeterReading[], volume: MeterReading[]) => ({
    hours: trackUsage(hours),
    volume: trackUsage(volume),
  })

  test('an extra limit never makes a duty due later', () => {
    fc.assert(
      fc.property(
        anyDuty,
        fc.array(day),
        wildReadings,
        wildReadings,
        fc.option(day),
        (full, done, hours, volume, installed) => {
          const usage = usageOf(hours, volume)
          const due = (given: Duty) =>
            appraiseDuty(given, done, usage, null, [], installed).due ?? '9999-12-31'
          const whole = due(full)
          for (const less of [{ everyMonths: null }, { everyRunS: null }, { everyM3: null }]) {
            expect(whole <= due({ ...full, ...less })).toBe(true)
          }
        },
      ),
    )
  })

  test('the due date and both ends of its interval are open days, in order, and after the work was last done', () => {
    fc.assert(
      fc.property(
        anyDuty,
        fc.array(day),
        soundReadings,
        season,
        fc.option(day),
        (given, done, readings, closed, installed) => {
          const standing = appraiseDuty(given, done, usageOf(readings, readings), closed, [], installed)
          const closedOn = (text: string) =>
            closed.from <= closed.to
              ? text.slice(5) >= closed.from && text.slice(5) <= closed.to
              : text.slice(5) >= closed.from || text.slice(5) <= closed.to
          // 365 days and the leap day: such a season leaves no open day in some year.
          fc.pre(!/leaves no open day/.test(standing.reason))
          const { due, from, to } = standing
          for (const date of [due, from, to]) if (date !== null) expect(closedOn(date)).toBe(false)
          if (due === null) return
          expect(from !== null && from <= due).toBe(true)
          expect(to === null || due <= to).toBe(true)
          if (standing.lastDoneOn !== null) expect(due > standing.lastDoneOn).toBe(true)
        },
      ),
      { numRuns: 500 },
    )
  })

  test('whatever the readings, there is a sentence and no crash', () => {
    fc.assert(
      fc.property(
        anyDuty,
        fc.array(day),
        wildReadings,
        season,
        fc.option(day),
        (given, done, readings, closed, installed) => {
          const { reason, due, basis } = appraiseDuty(
            given,
            done,
            usageOf(readings, readings),
            closed,
            [],
            installed,
          )
          expect(reason).toMatch(/^\S.*\.$/)
          expect(reason).not.toMatch(/NaN|undefined|null|Infinity/)
          expect((due === null) === (basis === null)).toBe(true)
        },
      ),
      { numRuns: 500 },
    )
  })

  test('one more day on which it was done never brings the due date nearer', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.array(day, { minLength: 1 }),
        day,
        (everyMonths, done, more) => {
          const due = (days: string[]) =>
            appraiseDuty(duty({ everyMonths }), days, { hours: null, volume: null }, null, [], null).due ?? ''
          expect(due([...done, more]) >= due(done)).toBe(true)
        },
      ),
    )
  })
})

describe('keys', () => {
  test.each([
    ['Change sediment cartridge', 'change-sediment-cartridge'],
    ['  CHANGE  sediment   cartridge ', 'change-sediment-cartridge'],
    ['Check valve & prime', 'check-valve-prime'],
    ["Owner's tap — 2nd", 'owners-tap-2nd'],
    ['Épuration d’eau', 'epuration-deau'],
    ['清洗水箱', '清洗水箱'],
  ])('%s becomes %s', (name, key) => {
    expect(slug(name)).toBe(key)
  })

  test('a key is its own key', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (name) => {
        fc.pre(/[\p{L}\p{N}]/u.test(name.normalize('NFKD')))
        expect(slug(slug(name))).toBe(slug(name))
      }),
    )
  })

  test('a name without a letter or digit has none', () => {
    expect(() => slug(' -- ')).toThrow(RangeError)
  })
})
