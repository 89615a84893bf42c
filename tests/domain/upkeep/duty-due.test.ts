import { describe, expect, test } from 'vitest'
import { appraiseDuty, type ClosedSeason, trackUsage } from '@/lib/domain/upkeep'
import { duty, NO_METERS, read } from './wells'

const SNOW: ClosedSeason = { from: '12-01', to: '04-30', why: 'snow' }
const yearly = duty({ everyMonths: 12 })

describe('a duty done early or late counts from the day it was done, never from the plan', () => {
  test.each([
    ['on its day', null, ['2025-03-10'], '2026-03-10'],
    ['six weeks early', '2024-03-10', ['2025-01-27'], '2026-01-27'],
    ['three months late', '2024-03-10', ['2025-06-10'], '2026-06-10'],
    ['late, then early', '2023-03-10', ['2024-05-01', '2025-02-01'], '2026-02-01'],
    ['written down late, after a newer entry', null, ['2025-03-10', '2024-11-02'], '2026-03-10'],
    ['in the register later than in the logbook', '2025-04-01', ['2025-03-10'], '2026-04-01'],
  ])('%s', (_, lastDoneOn, doneOn, due) => {
    const standing = appraiseDuty({ ...yearly, lastDoneOn }, doneOn, NO_METERS, null, [], null)
    expect(standing).toMatchObject({ due, basis: 'months', from: due, to: due })
  })
})

describe('calendar months', () => {
  test.each([
    ['2025-01-31', 1, '2025-02-28'],
    ['2024-01-31', 1, '2024-02-29'],
    ['2024-02-29', 12, '2025-02-28'],
    ['2024-02-29', 48, '2028-02-29'],
    ['2025-08-31', 6, '2026-02-28'],
    ['2025-12-31', 2, '2026-02-28'],
    ['2025-01-31', 2, '2025-03-31'],
  ])('%s plus %i months is %s', (lastDoneOn, everyMonths, due) => {
    expect(appraiseDuty(duty({ everyMonths, lastDoneOn }), [], NO_METERS, null, [], null).due).toBe(due)
  })

  test('the reason gives the interval and the day it counts from', () => {
    expect(appraiseDuty(yearly, ['2025-03-10'], NO_METERS, null, [], null).reason).toBe(
      'Due 10 Mar 2026: every 12 months, last done 10 Mar 2025.',
    )
  })

  test('a duty never done counts from installation, and says so', () => {
    const standing = appraiseDuty(yearly, [], NO_METERS, null, [], '2025-05-02')
    expect(standing).toMatchObject({ due: '2026-05-02', lastDoneOn: null })
    expect(standing.reason).toBe(
      'Due 2 May 2026: every 12 months, counted from installation on 2 May 2025 because it was never written down as done.',
    )
  })

  test('with nothing to count from there is no date, and the reason says what to enter', () => {
    const standing = appraiseDuty(yearly, [], NO_METERS, null, [], null)
    expect(standing).toMatchObject({ due: null, basis: null, from: null, to: null })
    expect(standing.reason).toBe(
      'There is nothing to count from: enter when this was last done, or when the well was installed.',
    )
  })

  test('a duty without a limit has no date, and the reason says so', () => {
    const standing = appraiseDuty(duty(), ['2025-03-10'], NO_METERS, null, [], null)
    expect(standing).toMatchObject({ due: null, limits: [] })
    expect(standing.reason).toMatch(/^No limit is set/)
  })

  test('a date beyond the calendar is refused in words, not thrown', () => {
    const standing = appraiseDuty(duty({ everyMonths: 5000 }), ['2025-03-10'], NO_METERS, null, [], null)
    expect(standing.due).toBeNull()
    expect(standing.reason).toMatch(/beyond the calendar/)
  })

  test.each([0, -3, 1.5])('every %d months is a fault of the caller', (everyMonths) => {
    expect(() => appraiseDuty(duty({ everyMonths }), ['2025-03-10'], NO_METERS, null, [], null)).toThrow(
      RangeError,
    )
  })
})

describe('the closed season', () => {
  test('brings a due day forward to the last open day, and names the day it had', () => {
    const standing = appraiseDuty(yearly, ['2025-02-10'], NO_METERS, SNOW, [], null)
    expect(standing).toMatchObject({ due: '2025-11-30', basis: 'closed-season' })
    const october = appraiseDuty(duty({ everyMonths: 3 }), ['2025-10-10'], NO_METERS, SNOW, [], null)
    expect(october).toMatchObject({
      due: '2025-11-30',
      from: '2025-11-30',
      to: '2025-11-30',
      basis: 'closed-season',
    })
    expect(october.reason).toBe(
      'Due 10 Jan 2026: every 3 months, last done 10 Oct 2025. 10 Jan 2026 falls in the closed season from 1 Dec to 30 Apr (snow), so it is brought forward to 30 Nov 2025.',
    )
  })

  test.each([
    ['its first day', '2025-09-01', '2025-11-30', 'closed-season'],
    ['its last day', '2025-01-30', '2025-05-01', 'closed-season'],
    ['the day before', '2025-08-30', '2025-11-30', 'months'],
    ['the day after', '2025-02-01', '2025-05-01', 'months'],
  ])('both its ends are closed days: %s', (_, doneOn, due, basis) => {
    const quarterly = duty({ everyMonths: 3 })
    expect(appraiseDuty(quarterly, [doneOn], NO_METERS, SNOW, [], null)).toMatchObject({ due, basis })
  })

  test('work done on the last open day waits for the first open day after', () => {
    const standing = appraiseDuty(duty({ everyMonths: 1 }), ['2025-11-30'], NO_METERS, SNOW, [], null)
    expect(standing).toMatchObject({ due: '2026-05-01', basis: 'closed-season' })
    expect(standing.reason).toMatch(/had begun when it was last done, so it waits until 1 May 2026/)
  })

  test('a season that leaves no open day moves nothing, and asks for mending', () => {
    const always = { from: '01-01', to: '12-31', why: 'mistake' }
    const standing = appraiseDuty(yearly, ['2025-03-10'], NO_METERS, always, [], null)
    expect(standing).toMatchObject({ due: '2026-03-10', basis: 'months' })
    expect(standing.reason).toMatch(/leaves no open day/)
  })

  test.each(['13-01', '02-30', '1-1', ''])('a season from "%s" is a fault of the caller', (from) => {
    expect(() =>
      appraiseDuty(yearly, ['2025-03-10'], NO_METERS, { from, to: '04-30', why: '' }, [], null),
    ).toThrow(RangeError)
  })
})

const H = 3600
/** 2 h a day, read every month for a year. */
const steady = trackUsage(
  ['2025-01-01', '2025-02-01', '2025-03-01', '2025-04-01', '2025-05-01', '2025-06-01', '2025-07-01'].map(
    (on) => read(on, 2 * H * ((Date.parse(on) - Date.parse('2025-01-01')) / 86_400_000)),
  ),
)

describe('limits by meter', () => {
  test('run hours already passed give the day inside the readings', () => {
    const standing = appraiseDuty(
      duty({ everyRunS: 200 * H }),
      ['2025-01-01'],
      { hours: steady, volume: null },
      null,
      [],
      null,
    )
    // 200 h at 2 h a day is 100 days: 11 April, between the readings of 1 April and 1 May.
    expect(standing).toMatchObject({
      due: '2025-04-11',
      basis: 'hours',
      from: '2025-04-02',
      to: '2025-05-01',
    })
    expect(standing.limits[0]).toMatchObject({ used: 362 * H, limit: 200 * H })
    expect(standing.reason.replace(/\u00a0/g, ' ')).toBe(
      'Due 11 Apr 2025: 362 h of 200 h since 1 Jan 2025: the limit was passed about 11 Apr 2025.',
    )
  })

  test('the earliest limit wins, whichever it is', () => {
    const usage = { hours: steady, volume: null }
    const hoursFirst = duty({ everyMonths: 12, everyRunS: 200 * H })
    const monthsFirst = duty({ everyMonths: 2, everyRunS: 200 * H })
    expect(appraiseDuty(hoursFirst, ['2025-01-01'], usage, null, [], null).basis).toBe('hours')
    expect(appraiseDuty(monthsFirst, ['2025-01-01'], usage, null, [], null)).toMatchObject({
      due: '2025-03-01',
      basis: 'months',
    })
  })

  test('too few readings fall back to the calendar, and the reason says so', () => {
    const few = trackUsage([read('2025-01-01', 0), read('2025-02-01', 62 * H)])
    const standing = appraiseDuty(
      duty({ everyMonths: 12, everyRunS: 1000 * H }),
      ['2025-01-01'],
      { hours: few, volume: null },
      null,
      [],
      null,
    )
    expect(standing).toMatchObject({ due: '2026-01-01', basis: 'months' })
    expect(standing.reason).toMatch(/3 meter readings that follow each other are needed .* there are 2\.$/)
    expect(standing.limits[1]).toMatchObject({ due: null, used: 62 * H })
  })

  test('no meter at all falls back to the calendar, and the reason says so', () => {
    const standing = appraiseDuty(
      duty({ everyMonths: 12, everyM3: 100 }),
      ['2025-01-01'],
      NO_METERS,
      null,
      [],
      null,
    )
    expect(standing.reason).toBe(
      'Due 1 Jan 2026: every 12 months, last done 1 Jan 2025. Volume cannot be counted: no reading of the volume meter yet.',
    )
  })

  test('a meter that stands still gives no date', () => {
    const still = trackUsage([read('2025-01-01', 5), read('2025-03-01', 5), read('2025-06-01', 5)])
    const standing = appraiseDuty(
      duty({ everyM3: 100 }),
      ['2025-01-01'],
      { hours: null, volume: still },
      null,
      [],
      null,
    )
    expect(standing.due).toBeNull()
    expect(standing.reason).toMatch(/the meter has not moved/)
  })
})

describe('measured conditions', () => {
  const brushes = duty({ everyMonths: 24, condition: { kind: 'brush_length', limitSi: 0.008 } })

  test('a forecast that comes first wins, with its interval', () => {
    const forecast = {
      kind: 'brush_length' as const,
      due: '2025-09-01',
      from: '2025-07-15',
      to: '2025-12-01',
      why: 'brushes reach 8 mm at 2,100 h',
    }
    expect(appraiseDuty(brushes, ['2025-01-01'], NO_METERS, null, [forecast], null)).toMatchObject({
      due: '2025-09-01',
      basis: 'condition',
      from: '2025-07-15',
      to: '2025-12-01',
      reason: 'Due 1 Sep 2025: brushes reach 8 mm at 2,100 h.',
    })
  })

  test('an open end closes at the calendar limit, which comes no later', () => {
    const forecast = {
      kind: 'brush_length' as const,
      due: '2026-01-01',
      from: '2025-07-15',
      to: null,
      why: 'wear',
    }
    expect(appraiseDuty(brushes, ['2025-01-01'], NO_METERS, null, [forecast], null)).toMatchObject({
      from: '2025-07-15',
      to: '2027-01-01',
    })
  })

  test('an interval open to the early side stays open', () => {
    const forecast = {
      kind: 'brush_length' as const,
      due: '2025-09-01',
      from: null,
      to: '2025-12-01',
      why: 'wear',
    }
    expect(appraiseDuty(brushes, ['2025-01-01'], NO_METERS, null, [forecast], null).from).toBeNull()
  })

  test('no reading yet, or one that cannot say, falls back to the calendar', () => {
    const cannot = { kind: 'brush_length' as const, cannotSay: 'one brush reading, and two are needed' }
    expect(appraiseDuty(brushes, ['2025-01-01'], NO_METERS, null, [], null).reason).toMatch(
      /No reading of the brush length yet\.$/,
    )
    expect(appraiseDuty(brushes, ['2025-01-01'], NO_METERS, null, [cannot], null).reason).toMatch(
      /One brush reading, and two are needed\.$/,
    )
  })
})
