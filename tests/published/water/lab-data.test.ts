/**
 * Real laboratory results through reading and judgment (origins: tests/published/data/water/README.md). The counts by verdict
 * are held against a second count that knows nothing of the product: it compares the numbers of the file, in the file's own units,
 * with the limits written out here.
 */
import { describe, expect, test } from 'vitest'
import { readResult } from '@/lib/domain/water/results'
import { seriesOf } from '@/lib/domain/water/series'
import type { Result, Sample } from '@/lib/domain/water/types'
import { judgeSample } from '@/lib/domain/water/verdict'
import { load, PER_UNIT, plainWord, potomacCells, potomacWord, type Row, type Tally } from './plain-judge'

const none = (): Tally => ({ meets: 0, exceeds: 0, inconclusive: 0 })

function sampleOf(id: string, sampledAt: string, results: Result[]): Sample {
  return {
    id,
    sampledAt,
    receivedAt: null,
    analysedAt: null,
    receivedTempC: null,
    lab: 'USGS',
    point: '',
    chlorinated: null,
    results,
    asked: [],
    unread: [],
  }
}

/** The product's word on one result by the health and action limits of US EPA. */
function productWord(result: Result, sampledAt: string): keyof Tally | null {
  const verdict = judgeSample(sampleOf('one', sampledAt, [result]), {
    scheme: 'us',
    local: [],
    labHolding: {},
  })
  const finding = verdict.findings.find(
    (each) =>
      each.analyte === result.analyte && (each.limit?.kind === 'health' || each.limit?.kind === 'action'),
  )
  const word = finding?.verdict
  return word === 'meets' || word === 'exceeds' || word === 'inconclusive' ? word : null
}

describe('30 wells of the Potomac basin, US Geological Survey through the Water Quality Portal, 2020 to 2023', () => {
  const rows = load('wqp_potomac_wells_2020_2023.csv')
  const judgeable = rows.filter((row) => PER_UNIT[row.CharacteristicName ?? ''] !== undefined)

  test('every row of a substance with a primary limit is read', () => {
    expect(judgeable.length).toBeGreaterThan(800)
    for (const row of judgeable)
      expect(readResult(potomacCells(row), { locale: 'en' }).kind, JSON.stringify(potomacCells(row))).toBe(
        'result',
      )
  })

  test('what is not read is told and not judged; nothing a household test holds is among it', () => {
    const kinds = new Map<string, number>()
    for (const row of rows) {
      const kind = readResult(potomacCells(row), { locale: 'en' }).kind
      kinds.set(kind, (kinds.get(kind) ?? 0) + 1)
    }
    expect(kinds.get('result')).toBeGreaterThan(rows.length * 0.75)
    // Oxygen, temperature, water level, isotope ratios, tons an acre-foot: not drinking-water tests.
    const unread = new Set(
      rows
        .filter((row) => readResult(potomacCells(row), { locale: 'en' }).kind !== 'result')
        .map((row) => row.CharacteristicName),
    )
    for (const name of [
      'Nitrate',
      'Arsenic',
      'Total Coliform',
      'pH',
      'Chloride',
      'Sodium',
      'Hardness, Ca, Mg',
    ])
      expect(unread).not.toContain(name)
  })

  test('no real value of the file is taken for the wrong unit', () => {
    const asked = rows.flatMap((row) => {
      const reading = readResult(potomacCells(row), { locale: 'en' })
      return reading.kind === 'result' && reading.result.questions.length > 0
        ? [`${row.CharacteristicName} ${reading.result.typed.result} ${reading.result.typed.unit}`]
        : []
    })
    expect(asked).toEqual([])
  })

  test.each(Object.keys(PER_UNIT))('%s: the counts by verdict agree with a second count', (name) => {
    const ours = none()
    const plain = none()
    for (const row of judgeable.filter((each) => each.CharacteristicName === name)) {
      const cells = potomacCells(row)
      const reading = readResult(cells, { locale: 'en' })
      if (reading.kind !== 'result') throw new Error(cells.result)
      const word = productWord(reading.result, row.ActivityStartDate ?? '')
      if (word === null) throw new Error(`${name} has no verdict`)
      ours[word] += 1
      const second = potomacWord(row)
      if (second === null) throw new Error(`${name} has no limit in the second count`)
      plain[second] += 1
    }
    expect(ours).toEqual(plain)
    expect(ours.meets + ours.exceeds + ours.inconclusive).toBeGreaterThan(0)
  })

  test('the one well with E. coli exceeds, and its bacteria are counted as written', () => {
    const bad = rows.filter((row) => row.ActivityIdentifier === 'nwispa.01.02301758')
    const results = bad.flatMap((row) => {
      const reading = readResult(potomacCells(row), { locale: 'en' })
      return reading.kind === 'result' ? [reading.result] : []
    })
    const verdict = judgeSample(sampleOf('x', '2023-08-01', results), {
      scheme: 'us',
      local: [],
      labHolding: {},
    })
    expect(verdict.verdict).toBe('exceeds')
    expect(verdict.findings.find((each) => each.analyte === 'e-coli')).toMatchObject({
      verdict: 'exceeds',
      measured: { low: 300 },
    })
    expect(verdict.findings.find((each) => each.analyte === 'total-coliform')).toMatchObject({
      measured: { low: 5200 },
    })
  })

  test('no sample without bacteria and nitrate meets, and none is lost: the samples by verdict', () => {
    const byActivity = new Map<string, Row[]>()
    for (const row of rows)
      byActivity.set(row.ActivityIdentifier ?? '', [
        ...(byActivity.get(row.ActivityIdentifier ?? '') ?? []),
        row,
      ])
    const words = { meets: 0, exceeds: 0, inconclusive: 0, 'not-tested': 0 }
    for (const [id, own] of byActivity) {
      const results = own.flatMap((row) => {
        const reading = readResult(potomacCells(row), { locale: 'en' })
        return reading.kind === 'result' ? [reading.result] : []
      })
      const { verdict } = judgeSample(sampleOf(id, own[0]?.ActivityStartDate ?? '', results), {
        scheme: 'us',
        local: [],
        labHolding: {},
      })
      words[verdict] += 1
      const hasBacteria = own.some((row) => row.CharacteristicName === 'Total Coliform')
      if (!hasBacteria) expect(verdict).not.toBe('meets')
    }
    expect(words.meets + words.exceeds + words.inconclusive + words['not-tested']).toBe(byActivity.size)
    expect(words.exceeds).toBeGreaterThan(0)
  })
})

describe('10 shallow wells sampled over decades, USGS (R package inldata)', () => {
  const rows = load('usgs_shallow_perched_wells.csv')
  const LIMITS: Record<string, [string, number]> = {
    'Chromium, wf': ['Chromium', 100],
    'Lead, wf': ['Lead', 15],
    'Arsenic, wf': ['Arsenic', 10],
    'Fluoride, wf': ['Fluoride', 4],
    'Nitrate, wf': ['Nitrate', 10],
    'Nitrite, wf': ['Nitrite', 1],
    'NO3+NO2, wf': ['NO3+NO2', 10],
  }
  const read = (row: Row): Result => {
    const [name] = LIMITS[row.parm_short_nm ?? ''] ?? [row.parm_short_nm?.split(',')[0] ?? '']
    // The agency's own key: here E is "estimated, between detection and reporting level".
    const reading = readResult(
      {
        analyte: name ?? '',
        result: `${row.remark_cd === '<' ? '<' : ''}${row.result_va}`,
        unit: row.unit_cd ?? '',
        reportingLimit: row.rpt_lev_va ?? '',
        qualifier: row.remark_cd === 'E' ? 'E' : '',
        method: '',
      },
      { locale: 'en', labKey: { E: 'pass' } },
    )
    if (reading.kind !== 'result') throw new Error(JSON.stringify([row, reading]))
    return reading.result
  }

  test.each(Object.entries(LIMITS))(
    '%s: the counts by verdict agree with a second count',
    (parameter, [, limit]) => {
      const ours = none()
      const plain = none()
      for (const row of rows.filter((each) => each.parm_short_nm === parameter)) {
        const result = read(row)
        const word = productWord({ ...result, questions: [] }, (row.sample_dt ?? '').slice(0, 10))
        if (word === null) throw new Error(parameter)
        ours[word] += 1
        const below = row.remark_cd === '<'
        // A non-detect cannot see less than the larger of its own bound and its reporting level.
        const bound = below ? String(Math.max(Number(row.result_va), Number(row.rpt_lev_va || 0))) : ''
        plain[plainWord(below ? '' : (row.result_va ?? ''), bound, limit)] += 1
      }
      expect(ours).toEqual(plain)
    },
  )

  test('the series of chromium in well TRA A 77 keeps its nine non-detects as such, and its trend counts them', () => {
    const one = rows.filter((row) => row.parm_short_nm === 'Chromium, wf' && row.site_nm === 'TRA A 77')
    const samples = one.map((row, i) => sampleOf(`c${i}`, (row.sample_dt ?? '').slice(0, 10), [read(row)]))
    const [series] = seriesOf(samples)
    expect(series?.points).toHaveLength(32)
    expect(series?.points.filter((point) => point.reads === 'below')).toHaveLength(9)
    expect(series?.trend).toMatchObject({ kind: 'trend', n: 32, nonDetects: 9 })
  })

  test('with more non-detects than values no trend is claimed (chromium in CWP 8: 30 of 37)', () => {
    const one = rows.filter((row) => row.parm_short_nm === 'Chromium, wf' && row.site_nm === 'CWP 8')
    const samples = one.map((row, i) => sampleOf(`c${i}`, (row.sample_dt ?? '').slice(0, 10), [read(row)]))
    expect(seriesOf(samples)[0]?.trend).toEqual({ kind: 'mostly-non-detect', nonDetects: 30, n: 37 })
  })
})
