import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { describeFact } from '@/lib/domain/logbook/describe'
import { EVENTS, type Fact, METER_EXPLANATIONS, PART_KINDS } from '@/lib/domain/logbook/kinds'
import { typedTexts } from '@/lib/domain/logbook/typed-text'

const FOOT = 0.3048
const PSI = 6894.757293168
const GALLON = 0.003785411784
const GPM = GALLON / 60
const q = (si: number, typed = '') => ({ si, typed })

/** No-break spaces stand between number and unit; a plain one is easier to read in a test. */
const say = (fact: Fact, system: 'us' | 'metric' = 'us') =>
  describeFact(fact, system).replaceAll('\u00a0', ' ')

describe('a sentence for every kind of line', () => {
  const CASES: [Fact, us: string, metric?: string][] = [
    [
      {
        kind: 'service-done',
        duties: ['change-sediment-cartridge', 'inspect-cap-and-seal'],
        names: ['Change sediment cartridge'],
        parts: [
          { part: 'cartridge', model: '20 in, 5 micron', count: 1 },
          { part: 'o-rings', count: 2 },
        ],
      },
      'Done: Change sediment cartridge; inspect cap and seal. Fitted: cartridge (20 in, 5 micron) and 2 × o-rings.',
    ],
    [
      { kind: 'meter-reading', meter: 'hours', reading: q(1204.5 * 3600), explained: null },
      'Hour meter read 1,204.5 h.',
    ],
    [
      { kind: 'meter-reading', meter: 'volume', reading: q(1200 * GALLON), explained: 'kept' },
      'Volume meter read 1,200 gal (asked about and kept as read).',
      'Volume meter read 4,542 L (asked about and kept as read).',
    ],
    [
      { kind: 'level-reading', level: q(12.4 * FOOT), state: 'rest' },
      'Water level at rest 12.4 ft below the measuring point.',
      'Water level at rest 3.78 m below the measuring point.',
    ],
    [
      { kind: 'level-reading', level: q(-0.5 * FOOT), state: 'pumping' },
      'Water level while pumping 0.5 ft above the measuring point.',
    ],
    [
      { kind: 'flow-reading', flow: q(9 * GPM), pumped: q(900) },
      'Flow 9.0 gal/min after 15 min of pumping.',
      'Flow 34.1 L/min after 15 min of pumping.',
    ],
    [{ kind: 'flow-reading', flow: q(0) }, 'Flow 0.0 gal/min.'],
    [
      { kind: 'pressure-reading', before: q(44.5 * PSI), after: q(38 * PSI) },
      'Pressure 44.5 psi before the cartridge and 38.0 psi after it, a drop of 6.5 psi.',
    ],
    [
      { kind: 'pressure-reading', before: q(38 * PSI), after: q(40 * PSI) },
      'Pressure 38.0 psi before the cartridge and 40.0 psi after it, a rise of 2.0 psi.',
    ],
    [{ kind: 'pressure-reading', after: q(38 * PSI) }, 'Pressure 38.0 psi after the cartridge.'],
    [
      { kind: 'brush-length', lengths: [q(0.0134), q(0.0132)] },
      'Brush lengths 0.528 in and 0.52 in.',
      'Brush lengths 13.4 mm and 13.2 mm.',
    ],
    [{ kind: 'brush-length', lengths: [q(0.0127)] }, 'Brush length 0.50 in.'],
    [{ kind: 'electrical-reading', amps: q(7), volts: q(50) }, 'Pump drew 7.0 A at 50 V.'],
    [{ kind: 'electrical-reading', volts: q(50) }, 'Supply at the pump 50 V.'],
    [
      {
        kind: 'recovery-test',
        static: q(8 * FOOT),
        readings: [
          { elapsed: q(600), level: q(8.2 * FOOT) },
          { elapsed: q(60), level: q(11 * FOOT) },
        ],
      },
      'Recovery test: 2 readings over 10 min, from 11.0 ft to 8.2 ft; static level 8.0 ft.',
    ],
    [
      { kind: 'drawdown-test', flow: q(9 * GPM), readings: [{ elapsed: q(60), level: q(11 * FOOT) }] },
      'Drawdown test at 9.0 gal/min: one reading, 11.0 ft after 1 min.',
    ],
    [
      { kind: 'step-test', steps: [{ flow: q(3 * GPM), duration: q(1800), level: q(10 * FOOT) }] },
      'Step test: 3.0 gal/min for 30 min to 10.0 ft.',
    ],
    [
      {
        kind: 'sample',
        sampledAt: '2026-09-03T09:40',
        lab: 'Sorrel County Laboratory',
        point: 'kitchen tap',
        results: [
          { analyte: 'Total coliform', result: 'Absent' },
          { analyte: 'Nitrate as N', result: '<0.5', unit: 'mg/L' },
          { analyte: 'Lead', result: '' },
        ],
      },
      'Water sample of Sep 3, 2026, at kitchen tap, tested by Sorrel County Laboratory: Total coliform Absent; Nitrate as N <0.5 mg/L; Lead no result written.',
    ],
    [
      { kind: 'sanitary-inspection', form: 'dug well', answers: { q1: 'yes', q2: 'no', q3: 'not-sure' } },
      'Sanitary inspection (dug well): 1 of 3 questions show a risk, 1 not sure.',
    ],
    [
      { kind: 'water-step', step: 'notice', notice: 'boil', to: 'the Mabe household', how: 'by hand' },
      'Boil notice given to the Mabe household (by hand).',
    ],
    [
      { kind: 'water-step', step: 'notice', notice: 'do-not-drink', to: 'all', chain: 'nitrate' },
      'Do-not-drink notice (Nitrate) given to all.',
    ],
    [
      {
        kind: 'water-step',
        step: 'disinfected',
        targetMgL: 100,
        product: 'plain bleach',
        strengthPercent: 5.25,
        volume: q(0.4 * GALLON),
        contact: q(12 * 3600),
      },
      'Disinfected: to 100 mg/L of chlorine, 0.4 gal of plain bleach at 5.25%, left to stand 12 h.',
      'Disinfected: to 100 mg/L of chlorine, 1.5 L of plain bleach at 5.25%, left to stand 12 h.',
    ],
    [
      { kind: 'water-step', step: 'disinfected', massG: 300, strengthPercent: 65 },
      'Disinfected: 300 g of product at 65%; strength and time not written down.',
    ],
    [{ kind: 'water-step', step: 'disinfected' }, 'Disinfected; strength and time not written down.'],
    [
      { kind: 'water-step', step: 'flushed', chlorineGone: 'not-tested', where: 'outside tap' },
      'Flushed (outside tap); not tested for chlorine.',
    ],
    [
      { kind: 'water-step', step: 'remedied', what: 'filter fitted.', chain: 'arsenic' },
      'Remedy (Arsenic): filter fitted.',
    ],
    [{ kind: 'water-step', step: 'well-repaired', what: 'new seal' }, 'Well repaired: new seal.'],
    [
      { kind: 'water-step', step: 'chain-closed', by: 'Robin Fern', reason: 'well abandoned' },
      'Chain closed by Robin Fern, not by clear samples: well abandoned.',
    ],
    [
      { kind: 'water-step', step: 'test-again', event: 'flooded' },
      'Reason to test the water again: a flood, or surface water over the well.',
    ],
    [{ kind: 'event', event: 'ran-dry' }, 'Ran dry.'],
    [
      {
        kind: 'event',
        event: 'meter-replaced',
        meter: 'hours',
        oldReading: q(7200 * 3600),
        newReading: q(0),
      },
      'Hour meter replaced: the old one read 7,200 h and the new one begins at 0 h.',
    ],
    [{ kind: 'note', text: 'Lid was loose' }, 'Lid was loose'],
  ]

  test.each(CASES)('%j', (fact, us, metric) => {
    expect(say(fact)).toBe(us)
    if (metric) expect(say(fact, 'metric')).toBe(metric)
  })

  test('counts the results of a long sheet that it does not list', () => {
    const results = Array.from({ length: 20 }, (_, i) => ({ analyte: `Analyte ${i}`, result: '1' }))
    expect(say({ kind: 'sample', sampledAt: '2026-09-03', results })).toMatch(/Analyte 5 1; and 14 more\.$/)
  })

  test('says nothing of "safe", "passes" or zero where a result is missing', () => {
    const words = say({ kind: 'sample', sampledAt: 'spring', results: [{ analyte: 'Lead', result: '' }] })
    expect(words).toBe('Water sample of spring: Lead no result written.')
  })
})

const amount = fc.record({
  si: fc.double({ min: 0, max: 1e6, noNaN: true }),
  typed: fc.string({ maxLength: 12 }),
})
const maybe = fc.option(amount, { nil: undefined })
const anyFact: fc.Arbitrary<Fact> = fc.oneof(
  fc.record({
    kind: fc.constant('meter-reading' as const),
    meter: fc.constantFrom('hours' as const, 'volume' as const),
    reading: amount,
    explained: fc.constantFrom(null, ...METER_EXPLANATIONS),
  }),
  fc.record({
    kind: fc.constant('level-reading' as const),
    level: amount,
    state: fc.constantFrom('rest' as const, 'pumping' as const),
  }),
  fc.record({
    kind: fc.constant('event' as const),
    event: fc.constantFrom(...EVENTS),
    oldReading: maybe,
    newReading: maybe,
  }),
  fc.record({
    kind: fc.constant('service-done' as const),
    duties: fc.array(fc.string({ minLength: 1 }), { minLength: 1, maxLength: 3 }),
    names: fc.array(fc.string(), { maxLength: 3 }),
    parts: fc.array(
      fc.record({ part: fc.constantFrom(...PART_KINDS), count: fc.integer({ min: 1, max: 9 }) }),
      { maxLength: 3 },
    ),
  }),
)

test('any line is one sentence that ends with a full stop and shows no raw value', () => {
  fc.assert(
    fc.property(anyFact, fc.constantFrom('us' as const, 'metric' as const), (fact, system) => {
      const words = describeFact(fact, system)
      expect(words).toMatch(/\.$/)
      expect(words).not.toMatch(/NaN|undefined|null|\[object/)
    }),
  )
})

test('gives back what was typed for each quantity, and nothing for what was not typed', () => {
  const fact: Fact = { kind: 'pressure-reading', before: q(1, '44.5 psi'), after: q(2, ' ') }
  expect(typedTexts(fact)).toEqual([{ what: 'pressure before', typed: '44.5 psi' }])
  expect(typedTexts({ kind: 'note', text: 'x' })).toEqual([])
})
