import { describe, expect, test } from 'vitest'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { NO_EQUIPMENT } from '@/lib/domain/logbook/equipment'
import { fittedLines } from '@/lib/domain/logbook/fitted'
import type { Fact } from '@/lib/domain/logbook/kinds'
import type { LiftStanding } from '@/lib/domain/logbook/lift-standing'
import { primeOf } from '@/lib/domain/logbook/prime-standing'
import { pumpStanding } from '@/lib/domain/logbook/pump-standing'
import { mostUrgent, sayForecast, sayInterval, sayLift } from '@/lib/domain/logbook/wear-words'
import type { Forecast } from '@/lib/domain/pump'

const TODAY = '2026-11-20'
const plain = (text: string) => text.replaceAll('\u00a0', ' ')
const fact = (on: string, it: Fact): CurrentFact => ({
  id: `${on} ${it.kind}`,
  spokenBy: '',
  visitId: on,
  on,
  time: null,
  byName: null,
  fact: it,
})
const date: Forecast = {
  kind: 'date',
  on: '2027-03-04',
  low: '2027-01-02',
  high: '2027-05-06',
  changeBy: '2027-02-03',
  why: 'from 4 pressure drops of this cartridge',
  warnings: [],
}
const said = (forecast: Forecast) =>
  sayForecast(forecast, ['The cartridge', 'its terminal drop'], TODAY, 'metric')

describe('the sentence of a part that wears', () => {
  test('names the day, its interval, the cheapest day and the reason', () => {
    expect(said(date)).toBe(
      'The cartridge reaches its terminal drop about 4 Mar 2027, 8 times in 10 between 2 Jan 2027 and 6 May 2027. Changing it by 3 Feb 2027 costs least, a late day counted 3 times an early one. This is reckoned from 4 pressure drops of this cartridge.',
    )
  })

  test('leaves an open end open', () => {
    expect(said({ ...date, high: null })).toContain('not before 2 Jan 2027; the late end is open')
  })

  test('tells what has passed as passed, and what was read as read', () => {
    expect(said({ ...date, on: '2026-11-01' })).toContain('will have reached its terminal drop')
    const read = '2026-11-01'
    expect(said({ ...date, on: read, low: read, high: read, changeBy: read })).toContain(
      'had reached its terminal drop when it was last read, on 1 Nov 2026',
    )
  })

  test('has no forecast left where the limit was passed when it was last read', () => {
    const passed = { ...date, on: '2026-02-14', low: '2026-02-14', high: '2026-02-15' }
    expect(said(passed)).toContain('had reached its terminal drop when it was last read, on')
    expect(said(passed)).not.toContain('8 times in 10')
  })

  test('falls back to the calendar and says so', () => {
    expect(said({ kind: 'cannot-say', why: '1 pressure drop of this cartridge, 3 needed' })).toBe(
      'When the cartridge reaches its terminal drop cannot be said: 1 pressure drop of this cartridge, 3 needed. Until then the calendar counts.',
    )
  })
})

describe('the interval of the well itself', () => {
  const standing = (costOfOther: number | null) => ({
    kind: 'known' as const,
    dutyId: 'd',
    duty: 'Change cartridge',
    terminalPa: 140_000,
    referenceFlowM3PerS: null,
    forecast: date,
    course: { kind: 'cannot-say' as const, why: '' },
    interval: {
      kind: 'interval' as const,
      days: 120,
      volumeM3: null,
      medianDays: 150,
      from: 3,
      costOfOther,
      why: 'three were followed',
    },
    fixedDays: 183,
  })

  test('is offered with what the fixed one costs beside it, and never imposed', () => {
    expect(sayInterval(standing(1.62), 'metric')).toBe(
      "This well's own cartridges suggest 120 days between changes: three were followed. The duty's fixed 183 days cost 1.6 times as much by that rule: the offer saves 38 %. It is an offer: the duty stays as you set it.",
    )
    expect(sayInterval(standing(1.01), 'metric')).toContain('cost about the same')
    expect(sayInterval(standing(null), 'metric')).not.toContain('cost ')
  })
})

describe('the lift in words', () => {
  const year = (spareM: number): LiftStanding => ({
    kind: 'year',
    months: [],
    tightest: { month: 9, staticM: 3, deepestStaticM: 3 + spareM, spareM, availableM: 3 + spareM },
    unknown: 2,
    flow: { on: TODAY, m3PerS: 4e-4 },
    drawdownM: 1,
    line: { pipes: [], kSum: 0, roughnessM: 0 },
    friction: { headM: 0, darcyM: 0, hazenWilliamsM: 0, apart: false },
    requiredM: 3,
    assumed: { required: true, bore: true, length: true, fittings: true, material: true },
    cartridge: { dropPa: 0, says: 'none read' },
  })

  test('names the month and what is left, and warns where that is little or less than nothing', () => {
    expect(plain(sayLift(year(2.5), 'metric'))).toBe(
      'Suction lift is least in September; 2.5 m are left then. Nothing is known of 2 of the twelve months.',
    )
    expect(sayLift(year(0.5), 'metric')).toContain('That is little')
    expect(plain(sayLift(year(-0.4), 'metric'))).toContain('it falls short by 0.4 m')
  })

  test('says what to enter', () => {
    expect(sayLift({ kind: 'cannot-say', enter: ['the altitude', 'a flow'] }, 'us')).toBe(
      'How much suction lift is left cannot be said. Enter the altitude; a flow.',
    )
  })
})

describe('what presses most', () => {
  const measured = (due: string | null) => [
    {
      name: 'Change cartridge',
      limits: [
        { basis: 'condition' as const, due, from: due, to: due, why: 'from 4 drops' },
        { basis: 'months' as const, due: '2020-01-01', from: null, to: null, why: '' },
      ],
    },
  ]
  const quiet = { prime: primeOf([]), pump: pumpStanding([], NO_EQUIPMENT, null) }
  const lost = ['2026-02-01', '2026-08-01'].map((on) => fact(on, { kind: 'event', event: 'prime-lost' }))
  const leaking = { ...quiet, prime: primeOf(lost) }

  test.each([
    ['2026-11-01', 'alarm', 'Limit passed'],
    ['2026-12-01', 'watch', 'Limit within 30 days'],
    ['2027-06-01', 'note', 'Next measured limit'],
  ])('a measured limit of %s is %s', (due, tone, word) => {
    expect(mostUrgent(measured(due), quiet, TODAY, 'us')).toMatchObject({ tone, word })
  })

  test('prime comes before a limit that is far, and after one that has passed', () => {
    expect(mostUrgent(measured('2027-06-01'), leaking, TODAY, 'us').word).toBe('Look at the check valve')
    expect(mostUrgent(measured('2026-11-01'), leaking, TODAY, 'us').word).toBe('Limit passed')
  })

  test('without anything measured nothing is called well', () => {
    expect(mostUrgent(measured(null), quiet, TODAY, 'us')).toMatchObject({
      tone: 'unsure',
      word: 'Cannot say',
    })
  })
})

describe('prime and parts by the logbook', () => {
  const valve = (on: string): CurrentFact =>
    fact(on, {
      kind: 'service-done',
      duties: ['test-check-valve'],
      names: [],
      parts: [{ part: 'check valve', model: 'brass 1 in', count: 1 }],
    })
  const loss = (on: string) => fact(on, { kind: 'event', event: 'prime-lost' })

  test('losses before the valve in place count no more', () => {
    expect(primeOf([loss('2025-01-01'), loss('2025-05-01'), valve('2025-06-01')]).losses).toEqual([])
  })

  test('a loss soon after the line was opened is put to that', () => {
    const opened = fact('2026-05-01', { kind: 'event', event: 'cartridge-changed' })
    expect(primeOf([opened, loss('2026-05-03')]).lookAt).toBe('fresh-work')
    expect(primeOf([opened, loss('2026-06-03')]).lookAt).toBe('watch')
  })

  test('what was fitted is told with its day, and no warranty is made up', () => {
    expect(fittedLines([valve('2025-06-01')])).toMatchObject([
      { part: 'check valve', model: 'brass 1 in', on: '2025-06-01', line: 0, warrantyMonths: null },
    ])
  })
})
