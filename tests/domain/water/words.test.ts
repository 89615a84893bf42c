import { describe, expect, test } from 'vitest'
import { summarizeWater } from '@/lib/domain/logbook/water-summary'
import { appraiseWater, WATER_SETTINGS } from '@/lib/domain/water/appraise'
import type { WaterEvent } from '@/lib/domain/water/events'
import { writeNotice } from '@/lib/domain/water/notice'
import { earliestEnd, noticeFactsOf, openChainsOf } from '@/lib/domain/water/notice-facts'
import { saySeries, sayTrend } from '@/lib/domain/water/series-words'
import { freshFrom, sayWater } from '@/lib/domain/water/standing-words'
import type { Sample } from '@/lib/domain/water/types'
import { CLEAR, sample } from './make'

const show = (day: string) => day
const stand = (samples: Sample[], events: WaterEvent[] = []) => appraiseWater(samples, events, WATER_SETTINGS)
const said = (samples: Sample[], today: string, events: WaterEvent[] = []) =>
  sayWater(summarizeWater(stand(samples, events)), today, show)
const at = (day: string, lines: readonly string[], id = day) =>
  sample(lines, { id, sampledAt: `${day}T08:00` })

const GERMS = [
  'Total coliform | 18.9 | MPN/100 mL',
  'E. coli | 4.1 | MPN/100 mL',
  'Nitrate-N | 1.2 | mg/L | 0.1',
]
const NITRATE = ['Total coliform | Absent', 'E. coli | Absent', 'Nitrate-N | 12.4 | mg/L | 0.1']

describe('what is said of a well', () => {
  test('is never "safe" or "fine", and never calm where nothing is known, late, inconclusive or open', () => {
    const cases: [string, Sample[], string][] = [
      ['unsure', [], '2025-07-01'],
      ['calm', [at('2025-06-02', CLEAR)], '2025-07-01'],
      ['unsure', [at('2025-06-02', CLEAR)], '2027-07-01'],
      ['unsure', [at('2025-06-02', CLEAR.slice(2))], '2025-07-01'],
      ['watch', [sample(CLEAR, { receivedAt: '2025-06-06T12:00' })], '2025-07-01'],
      ['alarm', [at('2025-06-02', GERMS)], '2025-07-01'],
      ['alarm', [at('2025-06-02', NITRATE)], '2025-07-01'],
    ]
    for (const [tone, samples, today] of cases) {
      const answer = said(samples, today)
      expect(answer.tone, answer.says).toBe(tone)
      expect(`${answer.word} ${answer.says}`).not.toMatch(/\b(safe|fine|good|clean|potable|drinkable)\b/i)
    }
  })

  test('what was clear before a flood is not calm after it, and a sale changes no water', () => {
    const clear = [at('2025-06-02', CLEAR)]
    const since = (event: 'flooded' | 'opened' | 'sold' | 'infant') =>
      said(clear, '2025-07-01', [{ kind: 'test-again', on: '2025-06-20', event }])
    expect(since('flooded')).toMatchObject({ tone: 'unsure', word: 'Not tested since it changed' })
    expect(since('flooded').says).toContain('on 2025-06-20: a flood, or surface water over the well')
    expect(since('opened').tone).toBe('unsure')
    expect(since('sold').tone).toBe('calm')
    expect(since('infant').tone).toBe('calm')
    const again = [...clear, at('2025-06-25', CLEAR)]
    expect(said(again, '2025-07-01', [{ kind: 'test-again', on: '2025-06-20', event: 'flooded' }]).tone).toBe(
      'calm',
    )
  })

  test('a later sheet without bacteria does not make an old bacteria test young', () => {
    const samples = [
      at('2024-06-02', CLEAR),
      at('2025-08-01', ['Nitrate-N | 1.2 | mg/L', 'Iron | 0.1 | mg/L']),
    ]
    const standing = stand(samples)
    expect(standing).toMatchObject({ verdict: 'meets', asOf: '2025-08-01', restsOn: '2024-06-02' })
    expect(said(samples, '2025-09-02').tone).toBe('calm')
    expect(said(samples, '2025-09-03')).toMatchObject({ tone: 'unsure', word: 'Tested too long ago' })
  })

  test('a sample after treatment can warn, and says nothing good of the well', () => {
    const tap = { point: 'Kitchen tap, after treatment' }
    expect(said([sample(CLEAR, tap)], '2025-07-01').tone).toBe('unsure')
    expect(said([sample(NITRATE, tap)], '2025-07-01').tone).toBe('alarm')
    const raw = at('2025-06-01', [...CLEAR, 'Arsenic | 22 | ug/L'])
    const treated = sample([...CLEAR, 'Arsenic | <1 | ug/L'], {
      id: 't',
      sampledAt: '2025-06-20T08:00',
      ...tap,
    })
    expect(stand([raw, treated]).findings.find(({ analyte }) => analyte === 'arsenic')).toMatchObject({
      verdict: 'exceeds',
      sampledOn: '2025-06-01',
    })
    expect(stand([raw, treated]).duties.find(({ group }) => group === 'bacteria')?.lastOn).toBe('2025-06-01')
  })

  test('a bacteria test of water with chlorine in it says nothing good of the well', () => {
    const chlorinated = sample(CLEAR, { chlorinated: true })
    expect(said([chlorinated], '2025-07-01').tone).toBe('watch')
    expect(stand([chlorinated]).duties.find(({ group }) => group === 'bacteria')?.lastOn).toBeNull()
  })

  test('a clear test speaks for fifteen months to the day, and then says nothing of the water now', () => {
    expect(freshFrom('2026-09-02')).toBe('2025-06-02')
    expect(said([at('2025-06-02', CLEAR)], '2026-09-02').tone).toBe('calm')
    const later = said([at('2025-06-02', CLEAR)], '2026-09-03')
    expect(later.tone).toBe('unsure')
    expect(later.says).toContain('says nothing of the water now')
  })

  test('names every chain that is open', () => {
    const both = said(
      [at('2025-06-02', [...GERMS.slice(0, 2), 'Nitrate-N | 12.4 | mg/L | 0.1'])],
      '2025-07-01',
    )
    expect(both.says).toBe(
      'Bacteria since 2025-06-02; Nitrate since 2025-06-02: not cleared yet. The notice to the household holds until it is.',
    )
  })
})

describe('the notice taken from a standing', () => {
  const contact = { name: 'Maren', phone: '555-0100', address: '' }
  const noticeOf = (samples: Sample[], events: WaterEvent[] = []) => {
    const standing = stand(samples, events)
    const facts = noticeFactsOf(standing, openChainsOf(standing))
    const notice = writeNotice({ well: 'Weir House', ...facts, doing: null, contact, locale: 'en-US' })
    if (notice.kind === 'cannot-say') throw new Error(notice.need.join())
    return notice
  }

  test('tells bacteria with their counts, and that none is allowed', () => {
    const notice = noticeOf([at('2025-06-02', GERMS)])
    expect(notice.kind).toBe('boil')
    expect(notice.elements.found).toBe(
      'Bacteria were found in the water of Weir House: Total coliform 18.9 per 100 mL, E. coli 4.1 per 100 mL. The limit is none in 100 mL.',
    )
  })

  test('tells nitrate in the form of its limit, and never to boil; also where bacteria are open too', () => {
    const alone = noticeOf([at('2025-06-02', NITRATE)])
    expect(alone.elements.found).toContain(': 12.4 mg/L as N. The limit is 10 mg/L as N.')
    for (const notice of [alone, noticeOf([at('2025-06-02', [...GERMS.slice(0, 2), NITRATE[2] ?? ''])])]) {
      expect(notice.kind).toBe('do-not-drink')
      expect(notice.title).toBe('Do not drink this water')
      expect(notice.text).not.toMatch(/full boil|boiled or bottled/)
    }
  })

  test('says when it can end: seven days after the first clear sample, or after the wait and one more', () => {
    const done: WaterEvent[] = [
      { kind: 'disinfected', on: '2025-06-05', by: 'Joss', targetMgL: 100, contactHours: 12 },
    ]
    const before = openChainsOf(stand([at('2025-06-02', GERMS)]))[0]
    const waiting = openChainsOf(stand([at('2025-06-02', GERMS)], done))[0]
    const half = openChainsOf(stand([at('2025-06-02', GERMS), at('2025-06-12', CLEAR)], done))[0]
    // Five days of use after the fifth, then two clear samples a week apart.
    expect([before, waiting, half].map((chain) => chain && earliestEnd(chain))).toEqual([
      null,
      '2025-06-17',
      '2025-06-19',
    ])
    expect(noticeOf([at('2025-06-02', GERMS)], done).elements.until).toContain('June 17, 2025')
  })
})

describe('a series in words', () => {
  const series = (values: readonly string[]) => {
    const samples = values.map((value, i) => at(`20${10 + i}-06-02`, [`Nitrate-N | ${value} | mg/L | 0.5`]))
    const found = stand(samples).series.find(({ analyte }) => analyte === 'nitrate')
    if (!found) throw new Error('no series')
    return saySeries(found, show)
  }

  test('keeps non-detects as "less than", and claims no trend from them', () => {
    expect(series(['<0.5', '0.7'])).toBe(
      '2 results from 2010-06-02 to 2011-06-02, 1 of them below the reporting limit; the last is 0.7 mg/L as N. No trend is told from 2 of the 8 results that it needs.',
    )
    expect(series(['<0.5', '<0.5', '<0.5', '<0.5', '<0.5', '0.6', '0.7', '0.8', '<0.5'])).toContain(
      'No trend is told: 6 of 9 results are non-detects, more than half.',
    )
  })

  test('tells a steady rise with its slope and limits, and a level record as neither', () => {
    const rising = series(['<0.5', '1', '1.5', '2', '2.5', '3', '3.5', '4', '4.5', '5'])
    expect(rising).toMatch(
      /It rises by 0\.5 mg\/L as N a year \(95 % limits .+\), by 10 results, 1 of them non-detects/,
    )
    expect(series(['2', '2.1', '1.9', '2', '2.1', '1.9', '2', '2.05', '1.95'])).toContain(
      'Neither a rise nor a fall is shown by 9 results',
    )
  })

  test('says nothing of a trend of counts', () => {
    expect(sayTrend({ kind: 'not-a-substance' }, '')).toBe('')
  })
})
