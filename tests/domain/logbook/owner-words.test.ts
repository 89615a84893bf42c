import { describe, expect, test } from 'vitest'
import { OWNER_ADVICE, OWNER_CAUTION } from '@/lib/domain/logbook/owner-advice'
import { sayYieldToOwner } from '@/lib/domain/logbook/owner-words'
import type { YieldSummary } from '@/lib/domain/logbook/yield-summary'
import { grade } from '../water/reading-grade'

const SUMMARY: YieldSummary = {
  tests: 12,
  capacity: { m2PerS: 0.001, on: '2026-08-01' },
  suspicion: 0.1,
  flag: false,
  cause: 'steady',
  sentence: '',
  next: '',
  outlook: { to75Percent: null, belowDemand: null, why: '' },
  declineOdds: 1,
  baseline: { m2PerS: 0.0011, since: '2019-05-02' },
  change: null,
  points: [],
}
const say = (more: Partial<YieldSummary>) => sayYieldToOwner({ ...SUMMARY, ...more }, (day) => day)

describe('how a well holds up, told to its household', () => {
  test.each([
    [{ tests: 0 }, /Nobody has tested/],
    [{ cause: 'unclear' as const }, /not enough to say/],
    [{ cause: 'steady' as const }, /gives what it gave/],
    [{ cause: 'pump' as const }, /pump gives less/],
    [{ cause: 'water-table' as const }, /stands lower/],
    [{ cause: 'well' as const, change: -0.05 }, /too early to be sure/],
    [
      { cause: 'well' as const, flag: true, change: -0.18 },
      /about 18 % less than on 2019-05-02: it is slowly clogging/,
    ],
  ])('%j', (more, words) => {
    expect(say(more)).toMatch(words)
  })

  test('names a day only where the outlook has one', () => {
    const belowDemand = { on: '2028-01-05', low: null, high: null }
    expect(say({ cause: 'well', flag: true, change: -0.2 })).not.toMatch(/too little for your need/)
    expect(
      say({ cause: 'well', flag: true, change: -0.2, outlook: { to75Percent: null, belowDemand, why: '' } }),
    ).toContain('2028-01-05')
  })

  test('is for grade 8 at most', () => {
    for (const cause of ['steady', 'unclear', 'pump', 'water-table', 'well'] as const)
      for (const flag of [true, false])
        expect(grade(say({ cause, flag, change: -0.2 })), cause).toBeLessThanOrEqual(8 - 1)
  })
})

describe('what to do first', () => {
  test.each(OWNER_ADVICE.map((advice) => [advice.key, advice] as const))(
    'if it %s: grade 8 at most',
    (_key, { steps }) => {
      // The measure counts up to one grade low.
      expect(grade(steps.join(' '))).toBeLessThanOrEqual(8 - 1)
    },
  )

  test('says not to drink wherever water may be unfit, and never that boiling helps against metals', () => {
    for (const key of ['floods', 'tastes-odd', 'ill', 'unused'])
      expect(OWNER_ADVICE.find((advice) => advice.key === key)?.steps.join(' '), key).toMatch(/drink/i)
    const all = OWNER_ADVICE.flatMap(({ steps }) => steps).join(' ')
    expect(all).toMatch(/Boiling does not help against metals/)
    expect(all).not.toMatch(/safe/i)
    expect(OWNER_CAUTION).toMatch(/local rules/)
  })
})
