import { describe, expect, test } from 'vitest'
import { entryDraftSchema } from '@/lib/domain/logbook/kinds'
import type { TestedWell } from '@/lib/domain/logbook/test-result'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { TestKind } from '@/lib/forms/test/draft'
import { inUnits } from '@/lib/forms/test/say'
import { readTest } from '@/lib/forms/test-form'

const VISIT = '019a0000-0000-7000-8000-0000000000aa'
const well: TestedWell = {
  casingBoreM: 0.3,
  casingOutsideM: 0.32,
  pitDiameterM: 1,
  pitLengthM: null,
  pitWidthM: null,
  gravelPorosity: 0.3,
  wellDepthM: 5,
  intakeDepthM: 4.5,
}
const FIELDS = { visitId: VISIT, date: '2026-11-20', time: '09:00', by: 'Ada' }
const read = (kind: TestKind, fields: Record<string, string>, system: UnitSystem = 'metric') =>
  readTest(kind, { ...FIELDS, ...fields }, { wellId: 'w', today: '2026-11-20', system, well })
const payloads = (...args: Parameters<typeof read>) => {
  const reading = read(...args)
  if (!reading.ok) throw new Error(JSON.stringify(reading))
  return reading.drafts.map((draft) => draft.payload)
}
const errors = (...args: Parameters<typeof read>) => {
  const reading = read(...args)
  return reading.ok ? {} : reading.errors
}
const asked = (...args: Parameters<typeof read>) => {
  const reading = read(...args)
  return reading.ok ? {} : reading.questions
}

/** s = 1 m · exp(−t/20 min) above a static of 2 m, in the rows of the form. */
const rising = (factor = 1, staticM = 2) =>
  Object.fromEntries(
    [0, 2, 5, 10, 15, 20, 30, 40].flatMap((minutes, i) => [
      [`elapsed${i + 1}`, String(minutes)],
      [`level${i + 1}`, ((staticM + Math.exp(-minutes / 20)) * factor).toFixed(3)],
    ]),
  )

describe('a recovery', () => {
  test('is read with its flow and note, each line as the logbook takes it, with fixed ids', () => {
    const fields = { ...rising(), static: '2', flow: '12', pumpedMinutes: '40', note: 'Windy' }
    const reading = read('recovery', fields)
    if (!reading.ok) throw new Error(JSON.stringify(reading))
    for (const draft of reading.drafts) expect(entryDraftSchema.safeParse(draft).success).toBe(true)
    expect(reading.drafts.map((d) => d.payload.kind)).toEqual(['recovery-test', 'flow-reading', 'note'])
    expect(read('recovery', fields)).toEqual(reading)
    const [recovery] = reading.drafts
    expect(recovery?.payload).toMatchObject({
      static: { si: 2, typed: '2 m' },
      readings: [
        { elapsed: { si: 0 }, level: { si: 3, typed: '3.000 m' } },
        { elapsed: { si: 120 } },
        ...Array(6).fill({}),
      ],
    })
  })

  test('is put in order of time, whatever the order of its rows', () => {
    const rows = { elapsed1: '2 min', level1: '2.9', elapsed2: '30 s', level2: '2.97' }
    expect(payloads('recovery', rows)[0]).toMatchObject({
      readings: [{ elapsed: { si: 30 } }, { elapsed: { si: 120 } }],
    })
  })

  test('says at the field itself what is missing, twice there, or before the start', () => {
    expect(errors('recovery', { elapsed1: '1 min 35 s' })).toEqual({
      level1: expect.stringContaining('The reading at 1 min 35 s has no level'),
    })
    expect(errors('recovery', { level4: '2.5' })).toEqual({ elapsed4: expect.stringContaining('no time') })
    expect(
      errors('recovery', { elapsed1: '1', level1: '2.5', elapsed2: '60 s', level2: '2.4' }),
    ).toHaveProperty('elapsed2')
    expect(errors('recovery', { elapsed1: '-3 s', level1: '2.5' })).toHaveProperty('elapsed1')
    expect(errors('recovery', {})).toHaveProperty('readings')
    expect(errors('recovery', { ...rising(), pumpedMinutes: '40' })).toHaveProperty('flow')
    expect(errors('recovery', { ...rising(), visitId: 'x' })).toHaveProperty('visitId')
  })

  test.each([
    ['levels in feet', { ...rising(1 / 0.3048), static: '2' }, /look like feet/],
    ['above static', { ...rising(), static: '2.5' }, /above the static level/],
    [
      'rising then falling',
      {
        static: '2',
        ...Object.fromEntries(
          [3, 2.8, 2.6, 2.45, 2.35, 2.6, 2.8, 2.95, 3].flatMap((level, i) => [
            [`elapsed${i + 1}`, String(2 * i + 1)],
            [`level${i + 1}`, String(level)],
          ]),
        ),
      },
      /then fell/,
    ],
    [
      'the pump still running',
      {
        static: '2',
        ...Object.fromEntries(
          [2.4, 2.5, 2.6, 2.7, 2.8, 2.9].flatMap((level, i) => [
            [`elapsed${i + 1}`, String(2 * i + 1)],
            [`level${i + 1}`, String(level)],
          ]),
        ),
      },
      /pump/,
    ],
  ])('with %s is asked about, and kept when the person stands by it', (_, fields, message) => {
    expect(asked('recovery', fields)).toEqual({
      readings: expect.objectContaining({ message: expect.stringMatching(message) }),
    })
    const sure = payloads('recovery', { ...fields, 'answer:readings': 'sure' })
    expect(sure[0]).toMatchObject({ kind: 'recovery-test' })
  })

  test('of few or scattered readings is taken without a question: the report tells', () => {
    expect(payloads('recovery', { elapsed1: '1', level1: '2.9' })).toHaveLength(1)
  })

  test('takes each level in the unit written behind it', () => {
    const [fact] = payloads(
      'recovery',
      { elapsed1: '1', level1: `8' 6"`, elapsed2: '2', level2: '2.5 m' },
      'us',
    )
    expect(fact).toMatchObject({
      readings: [{ level: { si: 8.5 * 0.3048 } }, { level: { si: 2.5, typed: '2.5 m' } }],
    })
  })
})

describe('a drawdown', () => {
  const falling = {
    elapsed1: '5',
    level1: '2.4',
    elapsed2: '20',
    level2: '2.6',
    elapsed3: '60',
    level3: '2.7',
  }

  test('needs its flow, asks for a blank level at rest, and is stored with both', () => {
    expect(errors('drawdown', { ...falling, static: '2' })).toHaveProperty('flow')
    expect(asked('drawdown', { ...falling, flow: '20' })).toHaveProperty('static')
    expect(payloads('drawdown', { ...falling, flow: '20', 'answer:static': 'not-read' })[0]).toMatchObject({
      kind: 'drawdown-test',
      flow: { typed: '20 L/min' },
    })
  })

  test('that took more water out of the well than was pumped is asked about', () => {
    expect(asked('drawdown', { ...falling, static: '2', flow: '1' })).toEqual({
      readings: expect.objectContaining({ message: expect.stringContaining('times the water') }),
    })
  })
})

describe('a step test', () => {
  const steps = {
    ...{ flow1: '10', elapsed1: '60', level1: '2.3' },
    ...{ flow2: '20', elapsed2: '60', level2: '2.7' },
    ...{ flow3: '30', elapsed3: '60', level3: '3.2' },
  }
  test('is read in the order pumped', () => {
    expect(payloads('step', { ...steps, static: '2' })[0]).toMatchObject({
      kind: 'step-test',
      steps: [{ flow: { typed: '10 L/min' }, duration: { si: 3600 }, level: { si: 2.3 } }, {}, {}],
    })
  })
  test('with a level above the one at rest is asked about, however few its steps', () => {
    const first = { flow1: '10', elapsed1: '60', level1: '1.7', static: '2' }
    const questioned = {
      readings: expect.objectContaining({ message: expect.stringMatching(/step 1 stands above/) }),
    }
    expect(asked('step', first)).toEqual(questioned)
    expect(asked('step', { ...steps, ...first })).toEqual(questioned)
    expect(payloads('step', { ...first, 'answer:readings': 'sure' })).toHaveLength(1)
  })
  test('says what a step lacks, and refuses a flow of zero', () => {
    expect(errors('step', { static: '2', flow1: '10' })).toEqual({
      elapsed1: expect.any(String),
      level1: expect.any(String),
    })
    expect(errors('step', { ...steps, static: '2', flow2: '0' })).toHaveProperty('flow2')
    expect(errors('step', { static: '2' })).toHaveProperty('readings')
  })
})

test('lengths of a sentence are told in feet to a reader of feet, rates and areas are left alone', () => {
  expect(inUnits('Levels down to 8.00 m in 2.00 m²: read 1.50 m again.', 'us')).toBe(
    'Levels down to 26.25\u00a0ft in 2.00 m²: read 4.92\u00a0ft again.',
  )
  expect(inUnits('at 8.00 m', 'metric')).toBe('at 8.00 m')
})
