import { describe, expect, test } from 'vitest'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { levelSeries, meterSeries, sayLevels, sayMeter } from '@/lib/domain/logbook/series'

const fact = (on: string, id: string, it: Fact): CurrentFact => ({
  id,
  spokenBy: id,
  visitId: 'v',
  on,
  time: null,
  fact: it,
  byName: null,
})
const hours = (on: string, h: number, explained: 'replaced' | 'rolled-over' | 'kept' | null = null) =>
  fact(on, `h${on}`, {
    kind: 'meter-reading',
    meter: 'hours',
    reading: { si: h * 3600, typed: '' },
    explained,
  })
const level = (on: string, si: number, state: 'rest' | 'pumping' = 'rest') =>
  fact(on, `l${on}${state}`, { kind: 'level-reading', level: { si, typed: '' }, state })
const plain = (text: string) => text.replaceAll('\u00a0', ' ')

describe('levels', () => {
  test('are told apart by state, and the static level of a test counts as one at rest', () => {
    const test = fact('2026-03-01', 't', {
      kind: 'recovery-test',
      static: { si: 3, typed: '' },
      readings: [{ elapsed: { si: 60, typed: '' }, level: { si: 4, typed: '' } }],
    })
    const series = levelSeries([level('2026-01-01', 2), level('2026-02-01', 5, 'pumping'), test])
    expect(series.rest.map((point) => point.value)).toEqual([2, 3])
    expect(series.pumping.map((point) => point.value)).toEqual([5])
  })

  test('are said with last, highest and deepest, and never as a trend', () => {
    const series = levelSeries([level('2026-01-01', 2), level('2026-02-01', 3.5), level('2026-03-01', 3)])
    expect(plain(sayLevels(series, 'metric'))).toBe(
      'Last at rest 3.00 m below the measuring point on 1 Mar 2026. Between 2.00 m (1 Jan 2026) and 3.50 m (1 Feb 2026) in 3 readings at rest.',
    )
    expect(sayLevels({ rest: [], pumping: [] }, 'us')).toBe('No water level has been read yet.')
    expect(sayLevels(levelSeries([level('2026-01-01', 2, 'pumping')]), 'us')).toMatch(
      /^1 level while pumping/,
    )
  })
})

describe('a meter', () => {
  test('begins a new stretch where it was replaced or rolled over, so that no line is drawn across', () => {
    const replaced = fact('2026-03-01', 'e', {
      kind: 'event',
      event: 'meter-replaced',
      meter: 'hours',
      oldReading: { si: 900 * 3600, typed: '' },
      newReading: { si: 0, typed: '' },
    })
    const facts = [
      hours('2026-01-01', 800),
      replaced,
      hours('2026-04-01', 20),
      hours('2026-05-01', 1, 'rolled-over'),
    ]
    expect(meterSeries(facts, 'hours', new Set()).map((s) => s.map((p) => p.value / 3600))).toEqual([
      [800, 900],
      [0, 20],
      [1],
    ])
    expect(meterSeries(facts, 'volume', new Set())).toEqual([])
  })

  test('is said without the readings that were set aside, which are counted', () => {
    const stretches = meterSeries(
      [hours('2026-01-01', 800), hours('2026-02-01', 3)],
      'hours',
      new Set(['h2026-02-01']),
    )
    expect(plain(sayMeter(stretches, 'hours', 'us'))).toBe(
      'Last read 800 h on Jan 1, 2026; 1 reading. 1 reading set aside and not used.',
    )
    const none = meterSeries([hours('2026-02-01', 3)], 'hours', new Set(['h2026-02-01']))
    expect(sayMeter(none, 'hours', 'us')).toBe(
      'No reading that can be used yet. 1 reading set aside and not used.',
    )
  })
})
