import { describe, expect, test } from 'vitest'
import { describeFact } from '@/lib/domain/logbook/describe'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { nextTest, sayWaterToOwner } from '@/lib/domain/logbook/owner-water'
import { levelsByYear, type RestLevel, restLevels, sayYears } from '@/lib/domain/logbook/owner-years'
import { typedTexts } from '@/lib/domain/logbook/typed-text'
import type { WaterSummary } from '@/lib/domain/logbook/water-summary'
import { grade } from '../water/reading-grade'

const TODAY = '2026-11-20'
const show = (day: string) => day
/** The measure counts up to one grade low. */
const GRADE_MAX = 8 - 1

const WATER: WaterSummary = {
  verdict: 'meets',
  asOf: '2026-10-02',
  restsOn: '2026-10-02',
  changed: null,
  schemeName: 'US EPA',
  edition: '',
  exceeds: [],
  chains: [],
  notice: null,
}
const chain = {
  key: 'bacteria',
  name: 'Bacteria',
  openedOn: '2026-11-02',
  next: '',
  earliest: null,
  notice: 'boil' as const,
  fault: null,
}
const CASES: [Partial<WaterSummary>, string, RegExp][] = [
  [{}, 'calm', /met the limits for what was tested/],
  [{ chains: [chain] }, 'alarm', /open since 2026-11-02/],
  [{ asOf: null, restsOn: null, verdict: 'not-tested' }, 'unsure', /never tested|No test/],
  [{ verdict: 'exceeds', exceeds: ['Nitrate'] }, 'alarm', /too much of this: Nitrate/],
  [{ verdict: 'inconclusive' }, 'watch', /does not answer/],
  [{ verdict: 'not-tested' }, 'unsure', /does not answer/],
  [{ restsOn: '2024-05-01', asOf: '2026-10-02' }, 'unsure', /On 2024-05-01 .* too long ago/],
  [{ changed: { on: '2026-11-01', words: 'it was flooded' } }, 'unsure', /it was flooded/],
]

describe('whether the water is fit, told to its household', () => {
  test.each(CASES)('%j is %s', (more, tone, words) => {
    const said = sayWaterToOwner({ ...WATER, ...more }, TODAY, show)
    expect(said.tone).toBe(tone)
    expect(`${said.word} ${said.says}`).toMatch(words)
    expect(`${said.word} ${said.says}`).not.toMatch(/\bsafe\b|\bfine\b/i)
    expect(grade(said.says)).toBeLessThanOrEqual(GRADE_MAX)
  })

  test('an open chain comes before a clear last sheet', () => {
    expect(sayWaterToOwner({ ...WATER, verdict: 'meets', chains: [chain] }, TODAY, show).tone).toBe('alarm')
  })

  test('the next test is the earliest that has a day, and no other duty', () => {
    const item = (key: string, due: string | null) =>
      ({ key, due }) as Parameters<typeof nextTest>[0]['duties'][number]
    expect(
      nextTest({
        duties: [item('change-sediment-cartridge', '2026-01-01'), item('nitrate-sample', '2027-03-01')],
        waterItems: [item('water-test-bacteria', '2026-12-01')],
      }),
    ).toEqual({ on: '2026-12-01' })
    expect(nextTest({ duties: [item('bacteria-sample', null)], waterItems: [] })).toBeNull()
  })
})

describe('this year against other years', () => {
  const at = (on: string, levelM: number): RestLevel => ({ on, levelM })
  const say = (levels: RestLevel[]) => sayYears(levels, TODAY, (m) => `${m} m`, show)
  const novembers = [
    at('2023-11-10', 2.1),
    at('2024-05-01', 1.2),
    at('2024-11-20', 2.4),
    at('2025-10-30', 2.2),
  ]

  test.each([
    [[], /Nobody has read/],
    [[at('2026-02-01', 2)], /too long ago/],
    [[at('2025-11-01', 2), at('2026-11-01', 2)], /too few other years/],
    [
      [...novembers, at('2026-11-05', 2.3)],
      /between 2.1 m down and 2.4 m down before \(3 years\).*much like/,
    ],
    [[...novembers, at('2026-11-05', 2.6)], /lower than it was before/],
    [[...novembers, at('2026-11-05', 1.9)], /higher than it was before/],
    [[...novembers, at('2026-11-05', -0.1)], /0.1 m above the mark/],
  ])('%j', (levels, words) => {
    expect(say(levels)).toMatch(words)
    expect(grade(say(levels))).toBeLessThanOrEqual(GRADE_MAX)
  })

  test('a spring level is not held against autumn: the May of 2024 does not count', () => {
    const without = novembers.filter(({ on }) => !on.includes('-05-'))
    expect(say([...novembers, at('2026-11-05', 1.5)])).toBe(say([...without, at('2026-11-05', 1.5)]))
  })

  test('the years come newest first, each with its range; levels while pumping do not count', () => {
    const fact = (on: string, said: Fact): CurrentFact => ({
      id: on,
      spokenBy: on,
      visitId: on,
      on,
      time: null,
      fact: said,
      byName: null,
    })
    const level = (si: number, state: 'rest' | 'pumping'): Fact => ({
      kind: 'level-reading',
      level: { si, typed: '' },
      state,
    })
    const levels = restLevels([
      fact('2025-03-01', level(1, 'rest')),
      fact('2025-09-01', level(2, 'rest')),
      fact('2025-09-02', level(9, 'pumping')),
      fact('2026-03-01', { kind: 'recovery-test', static: { si: 1.5, typed: '' }, readings: [] }),
    ])
    expect(levelsByYear(levels)).toEqual([
      { year: 2026, readings: 1, shallowestM: 1.5, deepestM: 1.5 },
      { year: 2025, readings: 2, shallowestM: 1, deepestM: 2 },
    ])
  })
})

test.each<[Fact, RegExp]>([
  [{ kind: 'tank-level', level: 'three-quarters' }, /^Tank three quarters full\.$/],
  [
    { kind: 'visit-request', about: 'flow', urgent: true, text: 'Barely a trickle', phone: '555 0100' },
    /urgent: too little water, or none\. “Barely a trickle” Call back: 555 0100\.$/,
  ],
  [
    { kind: 'visit-answer', of: 'x', state: 'planned', on: '2026-11-24' },
    /^Visit planned for Nov 24, 2026\.$/,
  ],
  [{ kind: 'visit-answer', of: 'x', state: 'not-coming', text: 'Not ours' }, /^No visit\. “Not ours”$/],
  [{ kind: 'confirmation', of: 'x', verdict: 'confirmed' }, /^Looked at and confirmed\.$/],
  [{ kind: 'confirmation', of: 'x', verdict: 'queried', text: 'Which tap?' }, /“Which tap\?”$/],
  [{ kind: 'owner-answer', of: 'x', text: 'The kitchen' }, /“The kitchen”$/],
])('%j reads as a sentence', (fact, words) => {
  expect(describeFact(fact, 'us')).toMatch(words)
  expect(typedTexts(fact)).toEqual([])
})
