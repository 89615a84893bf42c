import { expect, test } from 'vitest'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { type Fact, factSchema } from '@/lib/domain/logbook/kinds'
import { logbookRows } from '@/lib/exchange/export-logbook'

const line = (fact: Fact, id: string): CurrentFact => ({
  id,
  spokenBy: id,
  visitId: 'v',
  on: '2026-09-03',
  time: '09:40',
  byName: 'Maren',
  fact,
})
const results = [{ analyte: 'E. coli', result: 'Absent' }]
const plain: Fact = { kind: 'sample', sampledAt: '2026-09-03T09:40', lab: 'Sorrel Lab', results }

test('a sample that says more than the samples file has columns for goes to the entries file, whole', () => {
  const more: Fact[] = [
    { ...plain, sampleId: '2', chlorinated: 'no' },
    {
      ...plain,
      sampleId: '3',
      results: [{ ...results[0], analyte: 'E. coli', result: '4', qualifier: 'J' }],
    },
    { kind: 'water-step', step: 'flushed', chlorineGone: 'yes' },
  ]
  const rows = logbookRows(
    'W1',
    [plain, ...more].map((fact, i) => line(fact, String(i))),
    'us',
  )
  expect(rows.samples).toHaveLength(1)
  expect(rows.entries.map((row) => factSchema.parse(JSON.parse(String(row.entry))))).toEqual(
    expect.arrayContaining(more),
  )
  expect(rows.entries).toHaveLength(3)
})
