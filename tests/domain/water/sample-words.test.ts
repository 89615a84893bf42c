import { describe, expect, test } from 'vitest'
import { rankOfFinding } from '@/lib/domain/water/finding-order'
import { saySample } from '@/lib/domain/water/sample-words'
import { judgeSample } from '@/lib/domain/water/verdict'
import { CLEAR, sample } from './make'

const US = { scheme: 'us' as const, local: [], labHolding: {} }
const judge = (...lines: string[]) => judgeSample(sample(lines), US)
const BACTERIA = CLEAR.slice(0, 2)
const NITRATE = CLEAR.slice(2)
const HIGH = 'Nitrate-N | 14 | mg/L'

describe('what a sample says', () => {
  test.each([
    ['meets', CLEAR, 'Met the limits, for what was tested', 'at or below it'],
    ['exceeds', [HIGH, ...BACTERIA], 'Above a limit', 'Nitrate'],
    ['inconclusive', [...CLEAR, 'Arsenic | <20 | µg/L'], 'Cannot be said', 'Arsenic'],
    ['not-tested', BACTERIA, 'Not tested for all that counts', 'Nitrate'],
  ] as const)(
    '%s: names what it is about and the scheme, and never calls water safe',
    (word, rows, said, names) => {
      const verdict = judge(...rows)
      expect(verdict.verdict).toBe(word)
      const spoken = saySample(verdict)
      expect(spoken.word).toBe(said)
      expect(spoken.means).toContain(names)
      expect(spoken.means).toContain('US EPA')
      expect(spoken.notMeant.join(' ')).toContain('nothing of anything that was not tested')
      expect(`${spoken.word} ${spoken.means} ${spoken.notMeant.join(' ')}`).not.toMatch(
        /\b(safe|fine|good|ok)\b/i,
      )
    },
  )

  test('tells that boiling makes nitrate stronger, and what coliforms mean, only where they were found', () => {
    const nitrate = saySample(judge(HIGH, ...BACTERIA)).notMeant.join(' ')
    const bacteria = saySample(judge('Total coliform | Present', ...NITRATE)).notMeant.join(' ')
    expect(nitrate).toContain('Boiling does not take nitrate out')
    expect(nitrate).not.toContain('Coliforms')
    expect(bacteria).toContain('surface finds a way in')
    expect(bacteria).not.toContain('Boiling')
  })
})

test('findings are read with what decides and is worst first, values without a limit last', () => {
  const { findings } = judge(
    'Calcium | 40 | mg/L as Ca',
    'Iron | 2 | mg/L',
    ...CLEAR,
    'Arsenic | <20 | µg/L',
    'Lead | 30 | µg/L',
  )
  const order = [...findings].sort((a, b) => rankOfFinding(a) - rankOfFinding(b))
  const deciding = order.map(({ decides, verdict, reason }) =>
    decides && reason !== 'part-missing' ? verdict : 'beside',
  )
  const ranks = ['exceeds', 'inconclusive', 'not-tested', 'meets', 'beside']
  expect(deciding.map((word) => ranks.indexOf(word))).toEqual(
    deciding.map((word) => ranks.indexOf(word)).sort((a, b) => a - b),
  )
  expect(order[0]?.name).toBe('Lead')
  expect(new Set(deciding)).toContain('beside')
})
