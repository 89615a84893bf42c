import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  conflictWords,
  type DayStop,
  daysNotWished,
  isUnwishedDay,
  proposeRounds,
  readVisitDays,
  timetable,
  USUAL_DRIVING,
  visitDayNumbers,
  visitDaysWords,
  type WellDue,
  type WorkDay,
  weekday,
} from '@/lib/domain/place'
import { addDays } from '@/lib/domain/quantity'

const YARD = { latitude: 44.5, longitude: -72.6 }
const stored = (text: string) => {
  const reading = readVisitDays(text)
  return reading.ok ? reading.stored : reading.message
}

describe('days of the week as people write them', () => {
  test.each([
    ['Tue, Sat', 'Tue, Sat'],
    ['only Tuesdays and Saturdays', 'Tue, Sat'],
    ['saturday/tues', 'Tue, Sat'],
    ['Thurs; Wed', 'Wed, Thu'],
    ['Mon-Fri', 'Mon, Tue, Wed, Thu, Fri'],
    ['weekdays', 'Mon, Tue, Wed, Thu, Fri'],
    ['Sat to Mon', 'Mon, Sat, Sun'],
    ['weekends or Wed.', 'Wed, Sat, Sun'],
    ['Mon – Sun', null],
    ['  ', null],
  ])('%j is stored as %j', (typed, expected) => {
    expect(stored(typed)).toBe(expected)
  })

  test.each(['not before ten', 'T', '2,6', 'Mon-Wed-Fri', 'only', 'x'.repeat(200)])(
    '%j is asked about, never guessed',
    (typed) => {
      expect(readVisitDays(typed)).toMatchObject({ ok: false })
    },
  )

  test('what is stored reads back as itself, and its days and the others make up the week', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { minLength: 1, maxLength: 6 }), (days) => {
        const notOn = [1, 2, 3, 4, 5, 6, 7].filter((day) => !days.includes(day))
        const names = days.map((day) => ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'][day - 1]).join(' ')
        const text = stored(names)
        expect(stored(text ?? '')).toBe(text)
        expect(visitDayNumbers(text)).toEqual([...days].sort())
        expect(daysNotWished(text)).toEqual(notOn)
      }),
    )
    expect(daysNotWished(null)).toEqual([])
    expect(() => visitDayNumbers('Tuesday')).toThrow(RangeError)
  })

  test('says them in words', () => {
    expect(visitDaysWords('Tue, Sat')).toBe('only on Tuesday or Saturday')
    expect(visitDaysWords('Mon')).toBe('only on Monday')
    expect(visitDaysWords(null)).toBe('')
  })

  // Apollo 11 landed on Sunday 20 July 1969; 1 January 2000 was a Saturday, 29 February 2024 a Thursday (from memory).
  test('counts days of the week as the calendar does', () => {
    expect([weekday('1969-07-20'), weekday('2000-01-01'), weekday('2024-02-29')]).toEqual([7, 6, 4])
    expect(isUnwishedDay('Tue, Sat', '2000-01-01')).toBe(false)
    expect(isUnwishedDay('Tue, Sat', '2000-01-02')).toBe(true)
    expect(isUnwishedDay(null, '2000-01-02')).toBe(false)
  })
})

// A Thursday.
const FIRST = '2026-11-26'
const workDay = (day: string, hours = 8): WorkDay => ({ day, startS: 8 * 3600, endS: (8 + hours) * 3600 })
const well = (id: string, visitDays: string | null): WellDue => ({
  id,
  label: id,
  at: { latitude: 44.55, longitude: -72.6 },
  closed: null,
  wishes: { window: { notBeforeS: null, doneByS: null }, notOn: daysNotWished(visitDays) },
  notes: [],
  duties: [
    {
      key: 'bacteria-sample',
      name: 'Bacteria sample',
      consequence: 'health',
      due: '2026-11-01',
      from: null,
      serviceS: 3600,
    },
  ],
})
const settings = { driving: USUAL_DRIVING, setUpS: 0, soonDays: 30 }

describe('a proposal', () => {
  test('goes to no well on a day that its owner does not wish, whatever the days', () => {
    const days = fc.uniqueArray(fc.integer({ min: 0, max: 6 }), { minLength: 1, maxLength: 6 })
    const wishes = fc.array(
      fc.option(fc.uniqueArray(fc.constantFrom('Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'), { minLength: 1 })),
      { minLength: 1, maxLength: 5 },
    )
    fc.assert(
      fc.property(days, wishes, (offsets, drawn) => {
        const wells = drawn.map((wish, i) => well(`w${i}`, stored((wish ?? []).join(' '))))
        const dated = [...offsets].sort().map((n) => workDay(addDays(FIRST, n)))
        const proposal = proposeRounds(wells, dated, YARD, settings)
        const seen = proposal.days.flatMap(({ day, stops }) => stops.map(({ wellId }) => ({ day, wellId })))
        for (const { day, wellId } of seen)
          expect(wells.find(({ id }) => id === wellId)?.wishes.notOn).not.toContain(weekday(day))
        for (const one of wells)
          expect(
            seen.filter(({ wellId }) => wellId === one.id).length +
              proposal.leftOut.filter(({ wellId }) => wellId === one.id).length,
          ).toBe(1)
      }),
      { numRuns: 60 },
    )
  })

  test('names the days wished where none of the round is one, and where they are full', () => {
    const left = (wells: WellDue[], days: WorkDay[]) => proposeRounds(wells, days, YARD, settings).leftOut
    expect(left([well('a', 'Tue, Sat')], [workDay(FIRST)])).toMatchObject([
      {
        code: 'owner-away',
        why: 'The owner wishes visits only on Tuesday or Saturday, and none of these days is one.',
      },
    ])
    const short = [workDay(FIRST, 2), workDay(addDays(FIRST, 1), 2)]
    expect(left([well('a', 'Fri'), well('b', 'Fri')], short)).toMatchObject([
      { code: 'no-room', why: 'The days on which the owner wishes visits are full.' },
    ])
  })
})

test('the timetable of a day names the stops whose owners do not wish that day, with or without a place', () => {
  const stop = (id: string, onlyOn: string | null, at: DayStop['at'] = YARD): DayStop => ({
    id,
    at,
    minutes: 20,
    notBefore: null,
    doneBy: null,
    onlyOn,
  })
  const frame = { day: FIRST, yard: YARD, startAt: '08:00', endAt: '17:00', driving: USUAL_DRIVING }
  const stops = [stop('a', 'Tue, Sat'), stop('b', 'Thu'), stop('c', null), stop('d', 'Mon', null)]
  const table = timetable(frame, stops)
  expect(table?.conflicts.map((one) => (one.kind === 'home-late' ? 'home' : one.id))).toEqual(['a', 'd'])
  const [conflict] = table?.conflicts ?? []
  if (!conflict) throw new Error('a conflict was expected')
  expect(conflictWords(conflict, (id) => `Well ${id}`, '17:00')).toBe(
    'Well a: the owner wishes visits only on Tuesday or Saturday, and this round is on a Thursday.',
  )
})
