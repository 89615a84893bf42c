import { describe, expect, test } from 'vitest'
import { appraiseWater, WATER_SETTINGS } from '@/lib/domain/water/appraise'
import type { Chain } from '@/lib/domain/water/chain'
import type { WaterEvent } from '@/lib/domain/water/events'
import type { Sample } from '@/lib/domain/water/types'
import { CLEAR, sample } from './make'

const POSITIVE = ['Total coliform | Present', 'E. coli | 12 | MPN/100 mL', 'Nitrate-N | 1.2 | mg/L']
const on = (day: string, lines: readonly string[], change: Partial<Sample> = {}): Sample =>
  sample(lines, { id: `s-${day}`, sampledAt: `${day}T08:00`, ...change })
const by = 'R. Fern'
const proper = (day: string): WaterEvent => ({
  kind: 'disinfected',
  on: day,
  by,
  targetMgL: 100,
  contactHours: 12,
})
const stand = (samples: readonly Sample[], events: readonly WaterEvent[] = []) =>
  appraiseWater(samples, events, WATER_SETTINGS)
const state = (chain: Chain | null): string =>
  (chain?.steps ?? []).map((step) => `${step.step}:${step.state}`).join(' ')

const T = {
  positive: on('2025-06-02', POSITIVE),
  first: on('2025-06-20', CLEAR),
  second: on('2025-06-27', CLEAR),
}
const DONE: readonly WaterEvent[] = [
  { kind: 'notice', on: '2025-06-04', by },
  proper('2025-06-10'),
  { kind: 'flushed', on: '2025-06-11', by },
]

describe('a bacteria positive carried to its end', () => {
  test('opens a chain whose next step is the notice', () => {
    const standing = stand([T.positive])
    expect(standing.verdict).toBe('exceeds')
    expect(standing.chain).toMatchObject({
      key: 'bacteria',
      opened: { on: '2025-06-02', sampleId: 's-2025-06-02' },
      earliestResample: null,
    })
    expect(state(standing.chain)).toBe('notice:next disinfect:later flush:later wait:later resample:later')
    expect(standing.next[0]).toMatchObject({ kind: 'chain', step: 'notice' })
  })
  test('goes step by step, and says the first day on which a clear sample counts', () => {
    expect(state(stand([T.positive], DONE.slice(0, 1)).chain)).toBe(
      'notice:done disinfect:next flush:later wait:later resample:later',
    )
    expect(state(stand([T.positive], DONE.slice(0, 2)).chain)).toBe(
      'notice:done disinfect:done flush:next wait:later resample:later',
    )
    const waiting = stand([T.positive], DONE).chain
    expect(state(waiting)).toBe('notice:done disinfect:done flush:done wait:next resample:later')
    expect(waiting?.earliestResample).toBe('2025-06-15')
  })
  test('one clear sample is not the end: the verdict is inconclusive while it is open', () => {
    const standing = stand([T.positive, T.first], DONE)
    expect(standing).toMatchObject({
      verdict: 'inconclusive',
      chain: { clear: [{ on: '2025-06-20' }], earliestResample: '2025-06-27' },
    })
    expect(state(standing.chain)).toContain('resample:next')
  })
  test('the second clear sample closes it', () => {
    const standing = stand([T.positive, T.first, T.second], DONE)
    expect(standing.chain).toBeNull()
    expect(standing.verdict).toBe('meets')
    expect(standing.chains).toMatchObject([{ closed: { on: '2025-06-27', how: 'clear-samples' } }])
  })
  test('the order in which facts arrive does not matter', () => {
    expect(stand([T.second, T.positive, T.first], [...DONE].reverse())).toEqual(
      stand([T.positive, T.first, T.second], DONE),
    )
  })
  test.each([
    ['too soon after the chlorine', on('2025-06-13', CLEAR)],
    ['too soon after the first', on('2025-06-24', CLEAR)],
    ['late at the laboratory', on('2025-06-27', CLEAR, { receivedAt: '2025-06-30T08:00' })],
    ['warm', on('2025-06-27', CLEAR, { receivedTempC: 15 })],
    ['of water with chlorine in it', on('2025-06-27', CLEAR, { chlorinated: true })],
    ['taken after treatment', on('2025-06-27', CLEAR, { point: 'Kitchen tap, after treatment' })],
    ['that came to the laboratory nobody knows when', on('2025-06-27', CLEAR, { receivedAt: null })],
    [
      'able to see no fewer than ten',
      on('2025-06-27', ['Total coliform | <10 | MPN/100 mL', 'Nitrate-N | 1 | mg/L']),
    ],
    ['E. coli alone', on('2025-06-27', ['E. coli | Absent', 'Nitrate-N | 1 | mg/L'])],
  ] as const)('a sample %s does not clear it', (_, last) => {
    expect(stand([T.positive, T.first, last], DONE).chain).not.toBeNull()
  })
  test('while the last flush still found chlorine, a sample counts only where its sheet says there was none', () => {
    const found: WaterEvent[] = [
      ...DONE.slice(0, 2),
      { kind: 'flushed', on: '2025-06-11', by, chlorineGone: false },
    ]
    const unsaid = [on('2025-06-20', CLEAR, { chlorinated: null })]
    expect(stand([T.positive, ...unsaid], found).chain?.clear).toEqual([])
    expect(stand([T.positive, T.first], found).chain?.clear).toHaveLength(1)
    const later: WaterEvent[] = [...found, { kind: 'flushed', on: '2025-06-15', by, chlorineGone: true }]
    expect(stand([T.positive, ...unsaid], later).chain?.clear).toHaveLength(1)
  })
  test('a sheet that came in nobody knows when, or of treated water, still warns', () => {
    expect(stand([on('2025-06-02', POSITIVE, { receivedAt: null })]).chain?.key).toBe('bacteria')
    expect(stand([on('2025-06-02', POSITIVE, { point: 'after the UV lamp' })]).chain?.key).toBe('bacteria')
  })
  test('a late sample that finds bacteria is a positive all the same', () => {
    expect(stand([on('2025-06-02', POSITIVE, { receivedAt: '2025-06-09T08:00' })]).chain?.key).toBe(
      'bacteria',
    )
  })
  test('a new positive starts the count again', () => {
    const standing = stand(
      [T.positive, T.first, on('2025-06-27', POSITIVE), on('2025-07-20', CLEAR)],
      [...DONE, proper('2025-07-01')],
    )
    expect(standing.chain).toMatchObject({
      positives: [{ on: '2025-06-02' }, { on: '2025-06-27' }],
      clear: [{ on: '2025-07-20' }],
    })
  })
  test('a named person closes it with a reason; without either it stays open', () => {
    const close = (who: string, reason: string): WaterEvent => ({
      kind: 'chain-closed',
      on: '2025-07-01',
      by: who,
      reason,
    })
    expect(stand([T.positive], [close('R. Fern', 'well sealed and abandoned')]).chains).toMatchObject([
      { closed: { how: 'person', by: 'R. Fern', reason: 'well sealed and abandoned' } },
    ])
    expect(stand([T.positive], [close(' ', 'x')]).chain).not.toBeNull()
    expect(stand([T.positive], [close('R. Fern', '')]).chain).not.toBeNull()
    expect(stand([T.positive], [close('R. Fern', 'abandoned')]).verdict).toBe('exceeds')
  })
})

describe('bacteria that come back', () => {
  const again = on('2025-06-20', POSITIVE)
  test('after a proper disinfection are a fault of the well, with what to inspect', () => {
    const { chain } = stand([T.positive, again], DONE)
    expect(chain?.fault).toMatchObject({
      certain: true,
      disinfectedOn: '2025-06-10',
      positiveOn: '2025-06-20',
    })
    expect(chain?.fault?.text).toContain('fault in the well')
    const inspect = chain?.fault?.inspect.join(' ') ?? ''
    for (const word of ['seal', 'cap', 'Setback', 'Floods', 'ponding']) expect(inspect).toContain(word)
    expect(chain?.steps.find((step) => step.step === 'disinfect')?.text).toContain('fault')
  })
  test('after one whose strength was not written down are told as a likely fault', () => {
    const vague: WaterEvent = {
      kind: 'disinfected',
      on: '2025-06-10',
      by,
      targetMgL: null,
      contactHours: null,
    }
    expect(stand([T.positive, again], [vague]).chain?.fault).toMatchObject({ certain: false })
  })
  test.each([
    ['too weak', { targetMgL: 20, contactHours: 12 }],
    ['too short', { targetMgL: 100, contactHours: 2 }],
  ] as const)('after one that was %s prove nothing', (_, dose) => {
    expect(
      stand([T.positive, again], [{ kind: 'disinfected', on: '2025-06-10', by, ...dose }]).chain?.fault,
    ).toBeNull()
  })
  test('after the well itself was mended, or more than a year later, start anew', () => {
    const mended: WaterEvent = { kind: 'well-repaired', on: '2025-06-15', by, what: 'new seal' }
    expect(stand([T.positive, again], [...DONE, mended]).chain?.fault).toBeNull()
    expect(stand([T.positive, T.first, T.second, on('2026-06-11', POSITIVE)], DONE).chain?.fault).toBeNull()
    expect(
      stand([T.positive, T.first, T.second, on('2026-06-10', POSITIVE)], DONE).chain?.fault,
    ).toMatchObject({ certain: true })
  })
})

describe('other chains', () => {
  const high = on('2025-06-02', ['Total coliform | Absent', 'Nitrate-N | 14 | mg/L'])
  test('nitrate opens a chain of notice, remedy and samples; chlorine is no part of it', () => {
    const { chain } = stand([high], [proper('2025-06-05')])
    expect(chain?.key).toBe('nitrate')
    expect(state(chain)).toBe('notice:next remedy:later resample:later')
    expect(chain?.steps.find((step) => step.step === 'remedy')?.on).toBeNull()
  })
  test('two clear samples close it', () => {
    expect(stand([high, on('2025-07-01', CLEAR), on('2025-07-10', CLEAR)]).chain).toBeNull()
  })
  test('bacteria come first of several; each closes by its own samples', () => {
    const both = on('2025-06-02', [
      'Total coliform | Present',
      'Nitrate-N | 14 | mg/L',
      'Arsenic | 22 | ug/L',
    ])
    const standing = stand([both])
    expect(standing.chain?.key).toBe('bacteria')
    expect(standing.chains.map((chain) => chain.key).sort()).toEqual(['arsenic', 'bacteria', 'nitrate'])
    const later = stand([both, on('2025-07-01', CLEAR), on('2025-07-10', CLEAR)])
    expect(later.chain?.key).toBe('arsenic')
    expect(later.verdict).toBe('exceeds')
  })
  test('iron that only stains opens none', () =>
    expect(stand([on('2025-06-02', [...CLEAR, 'Iron | 2 | mg/L'])]).chains).toEqual([]))
})
