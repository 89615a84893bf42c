import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { findAnalyte } from '@/lib/domain/water/analytes'
import { SCHEME_IDS } from '@/lib/domain/water/schemes'
import type { Result, Sample } from '@/lib/domain/water/types'
import { judgeSample } from '@/lib/domain/water/verdict'
import { RANK } from '@/lib/domain/water/verdict-types'
import { CLEAR, result, sample } from './make'

const IDS = [
  'total-coliform',
  'e-coli',
  'nitrate',
  'nitrite',
  'nitrate-nitrite',
  'arsenic',
  'lead',
  'manganese',
  'iron',
  'fluoride',
  'uranium',
  'pfhxs',
  'pfna',
  'hfpo-da',
  'pfbs',
  'trichloroethylene',
  'tetrachloroethylene',
] as const

/** Amounts around the limits of most analytes in their home units. */
const amount = fc.oneof(
  fc.constantFrom(0.001, 0.005, 0.01, 0.015, 0.1, 0.3, 1, 1.1, 2, 3, 10, 12, 50),
  fc.double({ min: 1e-4, max: 100, noNaN: true }),
)

const resultArb: fc.Arbitrary<Result> = fc
  .record({
    analyte: fc.constantFrom(...IDS),
    operator: fc.constantFrom(
      '=' as const,
      '<' as const,
      '>' as const,
      'absent' as const,
      'present' as const,
      'not-detected' as const,
      'trace' as const,
      'none' as const,
    ),
    value: amount,
    reportingLimit: fc.option(amount, { nil: null }),
    klass: fc.constantFrom(
      'pass' as const,
      'pass' as const,
      'pass' as const,
      'suspect' as const,
      'late' as const,
      'rejected' as const,
    ),
    asked: fc.boolean(),
  })
  .map(({ analyte, operator, value, reportingLimit, klass, asked }) => ({
    analyte,
    operator,
    value: ['=', '<', '>'].includes(operator) ? value : null,
    unit: findAnalyte(analyte)?.home ?? '',
    reportingLimit,
    qualifiers: klass === 'pass' ? [] : [{ code: 'X', meaning: 'test', class: klass, conflict: null }],
    countUnit: null,
    formFactors: analyte === 'nitrate' && asked ? [1, 0.2259] : null,
    typed: { analyte, result: String(value), unit: '', reportingLimit: '', qualifier: '', method: '' },
    questions: [],
  }))

const sampleArb: fc.Arbitrary<Sample> = fc
  .record({
    results: fc.array(resultArb, { minLength: 1, maxLength: 6 }),
    clean: fc.boolean(),
    late: fc.constantFrom(false, false, true),
    tempC: fc.constantFrom(null, 4, 4, 14),
    year: fc.constantFrom('2019', '2025', '2028', '2037'),
    askedAll: fc.boolean(),
  })
  .map(({ results, clean, late, tempC, year, askedAll }) => ({
    ...sample([], {
      sampledAt: `${year}-06-02T08:00`,
      receivedAt: late ? `${year}-06-09T08:00` : `${year}-06-02T12:00`,
    }),
    results: clean ? [...CLEAR.map(result), ...results.slice(0, 2)] : results,
    receivedTempC: tempC,
    asked: askedAll ? [...new Set(results.map((each) => each.analyte))] : [],
  }))

const scheme = fc.constantFrom(...SCHEME_IDS)
const rankOf = (each: Sample, id: (typeof SCHEME_IDS)[number]): number =>
  RANK[judgeSample(each, { scheme: id, local: [], labHolding: {} }).verdict]
const swap = (each: Sample, index: number, result: Result): Sample => ({
  ...each,
  results: each.results.map((old, i) => (i === index ? result : old)),
})

describe('the verdict is monotone', () => {
  test('lowering a measured value never worsens it', () => {
    fc.assert(
      fc.property(
        sampleArb,
        fc.nat(),
        fc.double({ min: 0, max: 1, noNaN: true }),
        scheme,
        (each, at, share, id) => {
          const index = at % each.results.length
          const old = each.results[index]
          if (!old || old.value === null || old.operator === '<') return
          expect(rankOf(swap(each, index, { ...old, value: old.value * share }), id)).toBeLessThanOrEqual(
            rankOf(each, id),
          )
        },
      ),
      { numRuns: 1000 },
    )
  })

  test('raising a reporting limit never improves it', () => {
    fc.assert(
      fc.property(
        sampleArb,
        fc.nat(),
        fc.double({ min: 1, max: 1000, noNaN: true }),
        scheme,
        (each, at, times, id) => {
          const index = at % each.results.length
          const old = each.results[index]
          if (!old) return
          const raised: Result = {
            ...old,
            value: old.operator === '<' && old.value !== null ? old.value * times : old.value,
            reportingLimit: old.reportingLimit === null ? null : old.reportingLimit * times,
          }
          expect(rankOf(swap(each, index, raised), id)).toBeGreaterThanOrEqual(rankOf(each, id))
        },
      ),
      { numRuns: 1000 },
    )
  })

  test('leaving a result out never turns a sample to "meets"', () => {
    fc.assert(
      fc.property(sampleArb, fc.nat(), scheme, (each, at, id) => {
        const index = at % each.results.length
        const old = each.results[index]
        if (!old) return
        expect(rankOf(swap(each, index, { ...old, leftOut: 'test' }), id)).toBeGreaterThan(RANK.meets)
      }),
      { numRuns: 500 },
    )
  })

  test('dropping a row of a sheet, whose tests are known, never turns a sample to "meets"', () => {
    fc.assert(
      fc.property(sampleArb, fc.nat(), scheme, (each, at, id) => {
        const whole = { ...each, asked: [...new Set(each.results.map((result) => result.analyte))] }
        const dropped = whole.results[at % whole.results.length]
        const rest = {
          ...whole,
          results: whole.results.filter((result) => result.analyte !== dropped?.analyte),
        }
        expect(rankOf(rest, id)).toBeGreaterThan(RANK.meets)
      }),
      { numRuns: 1000 },
    )
  })

  test('without bacteria, or without nitrate, no sample meets', () => {
    fc.assert(
      fc.property(
        sampleArb,
        fc.constantFrom<string[]>(['total-coliform', 'e-coli'], ['nitrate', 'nitrate-nitrite']),
        scheme,
        (each, gone, id) => {
          const rest = { ...each, results: each.results.filter((result) => !gone.includes(result.analyte)) }
          expect(rankOf(rest, id)).toBeGreaterThan(RANK.meets)
        },
      ),
      { numRuns: 1000 },
    )
  })

  test('these samples do meet sometimes, so the properties are not empty', () => {
    const met = fc
      .sample(sampleArb, { numRuns: 500, seed: 11 })
      .filter((each) => rankOf(each, 'us') === RANK.meets)
    expect(met.length).toBeGreaterThan(0)
  })
})
