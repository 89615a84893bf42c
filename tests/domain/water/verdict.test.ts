import { describe, expect, test } from 'vitest'
import type { LocalLimit } from '@/lib/domain/water/schemes'
import { checkLocalLimit, SCHEME_IDS, schemeTitle, schemeWords } from '@/lib/domain/water/schemes'
import type { Sample } from '@/lib/domain/water/types'
import { type JudgeOptions, judgeSample } from '@/lib/domain/water/verdict'
import { CLEAR, result, sample } from './make'

const US: JudgeOptions = { scheme: 'us', local: [], labHolding: {} }
const judge = (lines: readonly string[], change: Partial<Sample> = {}, options: Partial<JudgeOptions> = {}) =>
  judgeSample(sample(lines, change), { ...US, ...options })
const find = (
  lines: readonly string[],
  analyte: string,
  change: Partial<Sample> = {},
  options: Partial<JudgeOptions> = {},
) => judge(lines, change, options).findings.filter((each) => each.analyte === analyte)

describe('a sample meets only when bacteria and nitrate are tested and clear', () => {
  test('bacteria absent, nitrate low', () => {
    expect(judge(CLEAR)).toMatchObject({ verdict: 'meets', notTested: [] })
  })
  test('the verdict names its scheme and edition', () => {
    expect(judge(CLEAR)).toMatchObject({
      scheme: 'us',
      asOf: '2025-06-02',
      edition: expect.stringContaining('40 CFR 141'),
    })
    for (const scheme of SCHEME_IDS) expect(schemeTitle(scheme).edition).toMatch(/\d{4}/)
  })
  test.each([
    [['Nitrate-N | 1.2 | mg/L'], 'Bacteria (total coliform, E. coli)'],
    [['E. coli | Absent', 'Nitrate-N | 1.2 | mg/L'], 'Total coliform'],
    [['Total coliform | Absent'], 'Nitrate'],
    [['Total coliform | Absent', 'Nitrate-N | N/A | mg/L'], 'Nitrate'],
  ] as const)('%j is not tested for %s', (lines, name) => {
    const verdict = judge(lines)
    expect(verdict.verdict).toBe('not-tested')
    expect(verdict.notTested).toContain(name)
  })
  test('nothing on the sheet is not tested', () => expect(judge([]).verdict).toBe('not-tested'))
  test('the acid-preserved sum covers nitrate', () => {
    expect(judge(['Total coliform | Absent', 'Nitrate + nitrite as N | 3.1 | mg/L']).verdict).toBe('meets')
  })
  test('a row that could not be read, or was asked and not reported, keeps a sheet from meeting', () => {
    expect(judge(CLEAR, { unread: [{ text: 'Arsenlc 12 ppb', why: 'no such name' }] }).verdict).toBe(
      'not-tested',
    )
    expect(judge(CLEAR, { asked: ['arsenic'] })).toMatchObject({
      verdict: 'not-tested',
      notTested: ['Arsenic'],
    })
  })
  test('no verdict, reason or text ever says safe', () => {
    const all = [judge(CLEAR), judge(['Total coliform | Present']), judge(['Arsenic | <20 | ug/L'])]
    expect(JSON.stringify(all)).not.toMatch(/\bsafe\b/i)
  })
})

/** line, verdict, reason under US EPA. */
const US_CASES: readonly (readonly [string, string, string, string])[] = [
  ['Total coliform | <1 | MPN/100 mL', 'total-coliform', 'meets', 'not-found'],
  ['Total coliform | <1.1 | MPN/100 mL', 'total-coliform', 'meets', 'not-found'],
  ['Total coliform | <2 | MPN/100 mL', 'total-coliform', 'inconclusive', 'reporting-limit-above-limit'],
  ['Total coliform | <10 | CFU/100 mL', 'total-coliform', 'inconclusive', 'reporting-limit-above-limit'],
  ['Total coliform | Present', 'total-coliform', 'exceeds', 'found'],
  ['Total coliform | >2419.6 | MPN/100 mL', 'total-coliform', 'exceeds', 'found'],
  ['Total coliform | TNTC | CFU/100 mL', 'total-coliform', 'exceeds', 'found'],
  ['Total coliform | 1 | CFU/100 mL', 'total-coliform', 'exceeds', 'found'],
  ['E. coli | 300 | MPN/100 mL', 'e-coli', 'exceeds', 'found'],
  [
    'Heterotrophic plate count | Present',
    'heterotrophic-plate-count',
    'inconclusive',
    'presence-without-count',
  ],
  [
    'Heterotrophic plate count | TNTC | CFU/mL',
    'heterotrophic-plate-count',
    'inconclusive',
    'presence-without-count',
  ],
  ['Nitrate-N | 10 | mg/L', 'nitrate', 'meets', 'at-or-below'],
  ['Nitrate-N | 10.1 | mg/L', 'nitrate', 'exceeds', 'above'],
  ['Nitrate | 44.2 | mg/L as NO3', 'nitrate', 'meets', 'at-or-below'],
  ['Nitrate | 44.3 | mg/L as NO3', 'nitrate', 'exceeds', 'above'],
  // 9 as N and 9 as NO3 (2.0 as N) both meet 10: which it is does not matter.
  ['Nitrate | 9 | mg/L', 'nitrate', 'meets', 'at-or-below'],
  ['Nitrate | 20 | mg/L', 'nitrate', 'inconclusive', 'form-not-said'],
  ['Nitrate | 60 | mg/L', 'nitrate', 'exceeds', 'above'],
  ['Nitrate-N | ND | mg/L', 'nitrate', 'inconclusive', 'reporting-limit-unknown'],
  ['Nitrate-N | ND | mg/L | 0.5', 'nitrate', 'meets', 'at-or-below'],
  ['Nitrate-N | 0 | mg/L', 'nitrate', 'inconclusive', 'reporting-limit-unknown'],
  ['Arsenic | <20 | ug/L', 'arsenic', 'inconclusive', 'reporting-limit-above-limit'],
  ['Arsenic | <10 | ug/L', 'arsenic', 'meets', 'at-or-below'],
  ['Arsenic | <5 | ug/L | 20', 'arsenic', 'inconclusive', 'reporting-limit-above-limit'],
  ['Arsenic | trace | ug/L | 20', 'arsenic', 'inconclusive', 'trace'],
  ['Arsenic | >8 | ug/L', 'arsenic', 'inconclusive', 'above-measuring-range'],
  ['Arsenic | >10.5 | ug/L', 'arsenic', 'exceeds', 'above'],
  ['Arsenic | 12 J | ug/L', 'arsenic', 'exceeds', 'above'],
  ['Arsenic | 8 H | ug/L', 'arsenic', 'inconclusive', 'late'],
  ['Arsenic | 12 H | ug/L', 'arsenic', 'exceeds', 'above'],
  ['Arsenic | 8 * | ug/L', 'arsenic', 'inconclusive', 'warm'],
  ['Arsenic | 8 B | ug/L', 'arsenic', 'inconclusive', 'suspect'],
  ['Arsenic | 12 R | ug/L', 'arsenic', 'inconclusive', 'rejected'],
  ['Lead | 12 | ug/L', 'lead', 'meets', 'at-or-below'],
  ['Lead | 12 | mg/L', 'lead', 'exceeds', 'above'],
  ['pH | 6.5', 'ph', 'meets', 'at-or-below'],
  ['pH | 6.4', 'ph', 'exceeds', 'below-minimum'],
  ['pH | 8.6', 'ph', 'exceeds', 'above'],
  ['Calcium | 80 | mg/L', 'calcium', 'no-limit', 'no-limit'],
]

describe('US EPA, result by result', () => {
  test.each(US_CASES)('%s', (line, analyte, verdict, reason) => {
    expect(find([line], analyte)[0]).toMatchObject({ verdict, reason })
  })
  test('each finding carries its limit, source, section, date and whether the value was read', () => {
    expect(find(['Nitrate-N | 12 | mg/L'], 'nitrate')[0]?.limit).toMatchObject({
      max: 10,
      unit: 'mg/L as N',
      source: '40 CFR part 141 (US EPA)',
      section: '141.62(b)(7)',
      date: 'in force',
      seen: 'seen',
    })
    expect(find(['Atrazine | <0.1 | ug/L'], 'atrazine')[0]?.limit?.seen).toBe('memory')
  })
  test('taste and stain do not decide, but are found', () => {
    const verdict = judge([...CLEAR, 'Iron | 1.1 | mg/L'])
    expect(verdict.verdict).toBe('meets')
    expect(
      verdict.findings.find((each) => each.analyte === 'iron' && each.limit?.kind === 'aesthetic'),
    ).toMatchObject({ verdict: 'exceeds', decides: false })
  })
  test('manganese above the advisory for babies decides', () => {
    expect(judge([...CLEAR, 'Manganese | 0.4 | mg/L']).verdict).toBe('exceeds')
  })
  test('a proposed radon value never decides', () => {
    expect(judge([...CLEAR, 'Radon | 5000 | pCi/L']).verdict).toBe('meets')
  })
  test('of two results of one analyte the worse counts', () => {
    expect(judge([...CLEAR, 'Lead | 2 | ug/L', 'Lead, first draw | 22 | ug/L']).verdict).toBe('exceeds')
  })
  test('a result left out is never a pass', () => {
    const left = sample(CLEAR)
    const results = left.results.map((each) =>
      each.analyte === 'nitrate' ? { ...each, leftOut: 'bottle broken' } : each,
    )
    expect(judgeSample({ ...left, results }, US).verdict).toBe('inconclusive')
  })
})

describe('late and warm samples', () => {
  test.each([
    ['2025-06-03T14:00', 'meets'],
    ['2025-06-03T14:01', 'inconclusive'],
    ['2025-06-04', 'inconclusive'],
    ['2025-06-03', 'meets'],
    ['2025-06-01T09:00', 'inconclusive'],
  ] as const)(
    'coliform taken 2 June 08:00, received %s: %s (30 h, Maine Environmental Laboratory)',
    (receivedAt, verdict) => {
      expect(find(['Total coliform | Absent'], 'total-coliform', { receivedAt })[0]?.verdict).toBe(verdict)
    },
  )
  test('48 h for nitrate: a sample of 48.5 h is late', () => {
    expect(
      find(['Nitrate-N | 1 | mg/L'], 'nitrate', { receivedAt: null, analysedAt: '2025-06-04T08:30' })[0],
    ).toMatchObject({ verdict: 'inconclusive', reason: 'late' })
    expect(
      find(['Nitrate-N | 1 | mg/L'], 'nitrate', { receivedAt: null, analysedAt: '2025-06-04T08:00' })[0]
        ?.verdict,
    ).toBe('meets')
  })
  test('a late positive is still a positive', () => {
    expect(judge(['Total coliform | Present'], { receivedAt: '2025-06-06T08:00' }).verdict).toBe('exceeds')
  })
  test('a laboratory with 6 hours wins over the table', () => {
    expect(
      find(
        ['Total coliform | Absent'],
        'total-coliform',
        { receivedAt: '2025-06-02T15:00' },
        { labHolding: { 'total-coliform': 6 } },
      )[0]?.reason,
    ).toBe('late')
  })
  test('warm bacteria bottles are inconclusive', () => {
    expect(find(['Total coliform | Absent'], 'total-coliform', { receivedTempC: 14 })[0]).toMatchObject({
      verdict: 'inconclusive',
      reason: 'warm',
    })
    expect(find(['Total coliform | Absent'], 'total-coliform', { receivedTempC: 10 })[0]?.verdict).toBe(
      'meets',
    )
  })
  test('a laboratory pH is flagged, not rejected', () => {
    const [ph] = find(['pH | 7.2'], 'ph')
    expect(ph?.verdict).toBe('meets')
    expect(ph?.cautions.join()).toContain('guide')
  })
  test('a sheet without the time of arrival is said to lack it', () => {
    const [coliform] = find(['Total coliform | Absent'], 'total-coliform', { receivedAt: null })
    expect(coliform?.cautions.join()).toContain('does not say when')
  })
})

describe('sums', () => {
  test.each([
    ['us', ['Nitrate-N | 9.5 | mg/L', 'Nitrite-N | 0.9 | mg/L'], 'nitrate-nitrite', 'exceeds'],
    ['us', ['Nitrate-N | 9.1 | mg/L', 'Nitrite-N | 0.9 | mg/L'], 'nitrate-nitrite', 'meets'],
    ['us', ['Nitrate-N | 9.5 | mg/L', 'Nitrite-N | <0.9 | mg/L'], 'nitrate-nitrite', 'inconclusive'],
    ['us', ['Nitrate-N | 9.5 | mg/L'], 'nitrate-nitrite', 'not-tested'],
    [
      'who',
      ['Nitrate | 40 | mg/L as NO3', 'Nitrite | 1.0 | mg/L as NO2'],
      'nitrate-nitrite-ratio',
      'exceeds',
    ],
    ['eu', ['Nitrate | 46 | mg/L as NO3', 'Nitrite | 0.05 | mg/L as NO2'], 'nitrate-nitrite-ratio', 'meets'],
    ['us-ny', ['Iron | 0.28 | mg/L', 'Manganese | 0.25 | mg/L'], 'iron-manganese', 'exceeds'],
    ['us-ny', ['Iron | 0.2 | mg/L', 'Manganese | 0.25 | mg/L'], 'iron-manganese', 'meets'],
    [
      'us',
      ['PFHxS | 5 | ng/L', 'PFNA | 4 | ng/L', 'HFPO-DA | 2 | ng/L', 'PFBS | 200 | ng/L'],
      'pfas-hazard-index',
      'exceeds',
    ],
    [
      'us',
      ['PFHxS | 5 | ng/L', 'PFNA | 2 | ng/L', 'HFPO-DA | <2 | ng/L', 'PFBS | 20 | ng/L'],
      'pfas-hazard-index',
      'meets',
    ],
    ['us', ['PFHxS | 5 | ng/L', 'PFNA | 2 | ng/L'], 'pfas-hazard-index', 'not-tested'],
    ['eu', ['TCE | 6 | ug/L', 'PCE | 5 | ug/L'], 'tce-pce', 'exceeds'],
  ] as const)('%s %j: %s %s', (scheme, lines, id, verdict) => {
    expect(find(lines, id, {}, { scheme })[0]?.verdict).toBe(verdict)
  })
  test('a late part can make a sum exceed but never meet', () => {
    expect(
      find(['Nitrate-N | 5 | mg/L', 'Nitrite-N | 0.1 | mg/L'], 'nitrate-nitrite', {
        receivedAt: '2025-06-09T08:00',
      })[0]?.verdict,
    ).toBe('inconclusive')
  })
  test('the same water: EPA fails it, WHO and EU pass it (nitrate 46 mg/L as NO3)', () => {
    const lines = [
      'Total coliform | Absent',
      'E. coli | Absent',
      'Nitrate | 46 | mg/L as NO3',
      'Nitrite | 0.05 | mg/L as NO2',
    ]
    expect(judge(lines).verdict).toBe('exceeds')
    expect(judge(lines, {}, { scheme: 'who' }).verdict).toBe('meets')
    expect(judge(lines, {}, { scheme: 'eu' }).verdict).toBe('meets')
  })
})

describe('E. coli by way of total coliform, where the scheme has no limit for total coliform (WHO)', () => {
  const who = { scheme: 'who' as const }
  test('no coliforms at all is no E. coli', () => {
    expect(judge(['Total coliform | Absent', 'Nitrate-N | 1 | mg/L'], {}, who).verdict).toBe('meets')
  })
  test('coliforms without an E. coli test are inconclusive', () => {
    expect(judge(['Total coliform | Present', 'Nitrate-N | 1 | mg/L'], {}, who).verdict).toBe('inconclusive')
  })
  test('a late total coliform covers nothing', () => {
    expect(
      judge(['Total coliform | Absent', 'Nitrate-N | 1 | mg/L'], { receivedAt: '2025-06-05T08:00' }, who)
        .verdict,
    ).toBe('inconclusive')
  })
  test('E. coli alone is enough for WHO, not for US EPA', () => {
    expect(judge(['E. coli | Absent', 'Nitrate-N | 1 | mg/L'], {}, who).verdict).toBe('meets')
    expect(judge(['E. coli | Absent', 'Nitrate-N | 1 | mg/L']).verdict).toBe('not-tested')
  })
})

describe('limits that change with a date', () => {
  const lead = (sampledAt: string, options: Partial<JudgeOptions> = {}) =>
    find(['Lead | 12 | ug/L'], 'lead', { sampledAt }, options)[0]
  test('US lead: 15 until 31 October 2027, 10 from 1 November 2027 (89 FR 86418)', () => {
    expect(lead('2027-10-31T08:00')).toMatchObject({
      verdict: 'meets',
      limit: { max: 0.015, until: '2027-11-01' },
      later: { from: '2027-11-01', max: 0.01 },
    })
    expect(lead('2027-11-01T08:00')).toMatchObject({
      verdict: 'exceeds',
      limit: { max: 0.01, from: '2027-11-01' },
    })
  })
  test('EU lead: 10 until 2036, then 5', () => {
    const eu = { scheme: 'eu' as const }
    expect(find(['Lead | 7 | ug/L'], 'lead', { sampledAt: '2036-01-11T08:00' }, eu)[0]).toMatchObject({
      verdict: 'meets',
      later: { from: '2036-01-12', max: 5 },
    })
    expect(find(['Lead | 7 | ug/L'], 'lead', { sampledAt: '2036-01-12T08:00' }, eu)[0]?.verdict).toBe(
      'exceeds',
    )
  })
  test('PFAS limits begin with their rule and say that they are under review', () => {
    expect(find(['PFOA | 6 | ng/L'], 'pfoa', { sampledAt: '2023-05-01T08:00' })[0]?.verdict).toBe('no-limit')
    expect(find(['PFHxS | 12 | ng/L'], 'pfhxs')[0]).toMatchObject({
      verdict: 'exceeds',
      limit: { status: expect.stringContaining('rescind') },
    })
  })
})

describe('local values win', () => {
  const local: LocalLimit[] = [
    {
      analyte: 'manganese',
      kind: 'health',
      max: 0.1,
      unit: 'mg/L',
      source: 'Sorrel valley ordinance 12',
      date: '2024',
    },
  ]
  test('a stricter local value replaces the published one of its kind, with its source', () => {
    expect(
      find(['Manganese | 0.2 | mg/L'], 'manganese', {}, { local }).find((each) => each.limit?.local),
    ).toMatchObject({ verdict: 'exceeds', limit: { source: 'Sorrel valley ordinance 12' } })
  })
  test('a laxer one wins as well', () => {
    const lax: LocalLimit[] = [
      { analyte: 'nitrate', kind: 'health', max: 15, unit: 'mg/L as N', source: 'order 3', date: '2024' },
    ]
    const [nitrate, ...more] = find(['Nitrate-N | 12 | mg/L'], 'nitrate', {}, { local: lax })
    expect(more).toEqual([])
    expect(nitrate?.verdict).toBe('meets')
    // The published value does not vanish: it stands beside the verdict, and the scheme is not named alone.
    expect(nitrate?.cautions.join()).toMatch(/allows more than the published limit of 10 mg\/L as N \(40 CFR/)
    expect(schemeWords('us', nitrate ? [nitrate] : [])).toBe('US EPA with limits of the outfit’s own')
  })
  test('New York takes the place of the US aesthetic value for manganese', () => {
    expect(
      find(['Manganese | 0.2 | mg/L'], 'manganese', {}, { scheme: 'us-ny' }).map((each) => each.limit?.max),
    ).toEqual([0.3, 0.3, 1, 0.3])
  })
  test('a local limit that cannot be used is refused in words', () => {
    const [good] = local
    if (!good) throw new Error('one')
    expect(checkLocalLimit(good)).toBeNull()
    expect(checkLocalLimit({ ...good, source: ' ' })).toContain('source')
    expect(checkLocalLimit({ ...good, unit: 'furlong' })).toContain('unit')
    expect(checkLocalLimit({ ...good, analyte: 'gold' })).toContain('gold')
    expect(checkLocalLimit({ ...good, max: Number.NaN })).toContain('number')
  })
})

test('any pesticide has the EU limit of 0.1 µg/L for each', () => {
  expect(find(['Atrazine | 0.2 | ug/L'], 'atrazine', {}, { scheme: 'eu' })[0]).toMatchObject({
    verdict: 'exceeds',
    limit: { max: 0.1 },
  })
})

test('a result read is judged the same after a trip through JSON', () => {
  const plain = sample(CLEAR)
  expect(judgeSample(JSON.parse(JSON.stringify(plain)), US)).toEqual(judgeSample(plain, US))
  expect(result('Lead | 1 | ug/L').value).toBe(0.001)
})
