import { Temporal } from 'temporal-polyfill'
import { describe, expect, test } from 'vitest'
import { todayIn } from '@/lib/clock'
import { appraiseDuty, type ClosedSeason, type Duty, urgency } from '@/lib/domain/upkeep'
import { dice } from './simulated-meters'

/**
 * The date-only oracle: written from the rules with Temporal.PlainDate and plain loops, by none of our code.
 * Last done (logbook or register, else installation) plus months; moved out of the closed season.
 */
function oracleDue(well: Well): string | null {
  const known = [...well.doneOn, ...(well.lastDoneOn ? [well.lastDoneOn] : [])].sort()
  const anchorText = known.length > 0 ? known[known.length - 1] : well.installedOn
  if (!anchorText) return null
  const anchor = Temporal.PlainDate.from(anchorText)
  const due = anchor.add({ months: well.everyMonths }, { overflow: 'constrain' })
  const { closed } = well
  if (!closed || !oracleClosed(due, closed)) return due.toString()
  let before = due
  while (oracleClosed(before, closed)) before = before.subtract({ days: 1 })
  if (Temporal.PlainDate.compare(before, anchor) > 0) return before.toString()
  let after = due
  while (oracleClosed(after, closed)) after = after.add({ days: 1 })
  return after.toString()
}

function oracleClosed(day: Temporal.PlainDate, { from, to }: ClosedSeason): boolean {
  const number = (text: string) => Number(text.slice(0, 2)) * 100 + Number(text.slice(3))
  const at = day.month * 100 + day.day
  return number(from) <= number(to)
    ? at >= number(from) && at <= number(to)
    : at >= number(from) || at <= number(to)
}

/** The zone's offset by its rules, from Temporal, not from the formatter under test. */
function oracleUrgency(due: string | null, zone: string, instantMs: number): string {
  if (due === null) return 'unknown'
  const today = Temporal.Instant.fromEpochMilliseconds(instantMs).toZonedDateTimeISO(zone).toPlainDate()
  const ahead = today.until(Temporal.PlainDate.from(due), { largestUnit: 'days' }).days
  if (ahead < 0) return 'past'
  if (ahead <= 7) return 'week'
  return ahead <= 30 ? 'month' : 'later'
}

type Well = {
  everyMonths: number
  doneOn: string[]
  lastDoneOn: string | null
  installedOn: string | null
  closed: ClosedSeason | null
}

/** Days crowd around the awkward ones: month ends, leap days, year ends, both changes of the clock. */
function randomDay(rnd: () => number): string {
  const awkward = [
    '01-31',
    '02-28',
    '03-01',
    '03-08',
    '03-29',
    '04-05',
    '10-25',
    '11-01',
    '12-31',
    '01-01',
    '08-31',
  ]
  const year = 2018 + Math.floor(rnd() * 9)
  if (rnd() < 0.1) return year % 4 === 0 ? `${year}-02-29` : `${year}-02-28`
  if (rnd() < 0.4) return `${year}-${awkward[Math.floor(rnd() * awkward.length)]}`
  return Temporal.PlainDate.from(`${year}-01-01`)
    .add({ days: Math.floor(rnd() * 365) })
    .toString()
}

function randomWell(rnd: () => number): Well {
  const seasons = [
    ['12-01', '04-30'],
    ['11-15', '03-31'],
    ['02-29', '03-15'],
    ['10-01', '02-29'],
    ['05-01', '06-15'],
    ['01-01', '01-31'],
  ]
  const [from = '', to = ''] = seasons[Math.floor(rnd() * seasons.length)] ?? []
  return {
    everyMonths: [1, 2, 3, 6, 12, 18, 24, 36, 60][Math.floor(rnd() * 9)] ?? 12,
    doneOn: Array.from({ length: Math.floor(rnd() * 4) }, () => randomDay(rnd)),
    lastDoneOn: rnd() < 0.4 ? randomDay(rnd) : null,
    installedOn: rnd() < 0.8 ? randomDay(rnd) : null,
    closed: rnd() < 0.5 ? { from, to, why: 'snow' } : null,
  }
}

const dutyOf = (well: Well): Duty => ({
  key: 'visit',
  name: 'Visit',
  consequence: 'supply',
  everyMonths: well.everyMonths,
  everyRunS: null,
  everyM3: null,
  condition: null,
  lastDoneOn: well.lastDoneOn,
})

const ZONES = ['UTC', 'America/New_York', 'Pacific/Auckland', 'Pacific/Apia'] as const

/** The instants at which a date goes wrong if it goes wrong at all, half an hour to either side. */
const INSTANTS: readonly (readonly [name: string, iso: string])[] = [
  ['an ordinary noon', '2025-07-02T12:00:00Z'],
  ['a day back', '2025-07-01T12:00:00Z'],
  ['a day on', '2025-07-03T12:00:00Z'],
  ['ten years on', '2035-07-02T12:00:00Z'],
  ['leap day, 23:30 in New York', '2024-03-01T04:30:00Z'],
  ['leap day, 00:30 in Auckland', '2024-02-28T11:30:00Z'],
  ['leap day in UTC', '2024-02-29T00:30:00Z'],
  ['New York springs forward, before', '2025-03-09T04:30:00Z'],
  ['New York springs forward, after', '2025-03-10T03:30:00Z'],
  ['New York falls back, before', '2025-11-02T03:30:00Z'],
  ['New York falls back, after', '2025-11-03T04:30:00Z'],
  ['Auckland falls back, 00:30', '2025-04-05T11:30:00Z'],
  ['Auckland springs forward, 23:30', '2025-09-28T10:30:00Z'],
  ['year end, 23:30 in UTC', '2025-12-31T23:30:00Z'],
  ['year end, 00:30 in UTC', '2026-01-01T00:30:00Z'],
  ['year end, 23:30 in New York', '2026-01-01T04:30:00Z'],
  ['year end, 00:30 in Auckland', '2025-12-31T11:30:00Z'],
]

describe('due dates against a date-only oracle', () => {
  const rnd = dice(20_260_327)
  const wells = Array.from({ length: 1000 }, () => randomWell(rnd))
  const oracleDues = wells.map(oracleDue)
  const dues = wells.map((well) =>
    appraiseDuty(dutyOf(well), well.doneOn, { hours: null, volume: null }, well.closed, [], well.installedOn),
  )

  test('all 1,000 generated wells have the due date of the oracle', () => {
    expect(dues.map(({ due }) => due)).toEqual(oracleDues)
  })

  test('the generated wells cover leap days, month ends, moved dates and wells without a date', () => {
    expect(dues.filter(({ due }) => due?.endsWith('02-29')).length).toBeGreaterThan(3)
    expect(dues.filter(({ basis }) => basis === 'closed-season').length).toBeGreaterThan(50)
    expect(dues.filter(({ due }) => due === null).length).toBeGreaterThan(10)
  })

  test.each(ZONES)('in %s the due list at every clock jump is the oracle’s, 1,000 wells each', (zone) => {
    for (const [name, iso] of INSTANTS) {
      const instantMs = Date.parse(iso)
      const today = todayIn(zone, instantMs)
      const ours = dues.map(({ due }) => urgency(due, today))
      const theirs = oracleDues.map((due) => oracleUrgency(due, zone, instantMs))
      expect({ name, ours }).toEqual({ name, ours: theirs })
    }
  })

  test('the zone of the machine changes nothing', () => {
    const before = process.env.TZ
    try {
      for (const zone of ZONES) {
        process.env.TZ = zone
        // Proof that the switch took: the offset in July differs between the zones.
        const offset = new Date(Date.UTC(2025, 6, 2)).getTimezoneOffset()
        expect(offset).toBe(
          { UTC: 0, 'America/New_York': 240, 'Pacific/Auckland': -720, 'Pacific/Apia': -780 }[zone],
        )
        const again = wells.map((well) =>
          appraiseDuty(
            dutyOf(well),
            well.doneOn,
            { hours: null, volume: null },
            well.closed,
            [],
            well.installedOn,
          ),
        )
        expect(again).toEqual(dues)
        expect(todayIn('Pacific/Auckland', Date.parse('2025-12-31T11:30:00Z'))).toBe('2026-01-01')
      }
    } finally {
      if (before === undefined) delete process.env.TZ
      else process.env.TZ = before
    }
  })
})

describe('urgency', () => {
  test.each([
    ['2026-03-26', 'past'],
    ['2026-03-27', 'week'],
    ['2026-04-03', 'week'],
    ['2026-04-04', 'month'],
    ['2026-04-26', 'month'],
    ['2026-04-27', 'later'],
    [null, 'unknown'],
  ])('a duty due on %s is %s on 27 March 2026', (due, expected) => {
    expect(urgency(due, '2026-03-27')).toBe(expected)
  })
})
