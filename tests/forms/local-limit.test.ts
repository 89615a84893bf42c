import { describe, expect, test } from 'vitest'
import { limitsOn, SCHEME_IDS } from '@/lib/domain/water/schemes'
import { limitKey, readLocalLimit, typedLimit } from '@/lib/forms/local-limit'

const ARSENIC = {
  analyte: 'arsenic',
  kind: 'health',
  max: '5',
  min: '',
  unit: 'µg/L',
  source: 'N.J.A.C. 7:10-5.2',
  date: '2006',
  from: '',
  until: '',
}

describe('a limit of the installer', () => {
  test('is read as typed, offered again as typed, and wins in every scheme', () => {
    const reading = readLocalLimit(ARSENIC)
    if (!reading.ok) throw new Error(JSON.stringify(reading.errors))
    expect(reading.limit).toEqual({
      analyte: 'arsenic',
      kind: 'health',
      max: 5,
      unit: 'µg/L',
      source: 'N.J.A.C. 7:10-5.2',
      date: '2006',
    })
    expect(readLocalLimit(typedLimit(reading.limit))).toEqual(reading)
    for (const scheme of SCHEME_IDS) {
      const [first, ...others] = limitsOn(scheme, 'arsenic', '2026-11-20', [reading.limit]).filter(
        ({ row }) => row.kind === 'health' || row.kind === 'action',
      )
      expect(first).toMatchObject({ local: true, maxHome: 0.005 })
      expect(others).toEqual([])
    }
  })

  test('with a least value and days keeps them, and is told from another by what it says', () => {
    const ph = {
      ...ARSENIC,
      analyte: 'pH',
      kind: 'aesthetic',
      max: '8.5',
      min: '6.5',
      unit: '',
      from: '2026-01-01',
    }
    const reading = readLocalLimit(ph)
    if (!reading.ok) throw new Error(JSON.stringify(reading.errors))
    expect(reading.limit).toMatchObject({ min: 6.5, max: 8.5, from: '2026-01-01' })
    expect(limitKey({ ...reading.limit, source: 'another' })).not.toBe(limitKey(reading.limit))
  })

  test.each([
    ['analyte', '', 'Say what'],
    ['analyte', 'gold', 'not a name known here'],
    ['analyte', 'coliform', 'Total coliform or Fecal coliform'],
    ['kind', 'law', 'Choose'],
    ['max', '', 'Enter the limit'],
    ['max', 'ten', 'must be a number'],
    ['max', '-1', 'must be a number'],
    ['max', '5 mg', 'must be a number'],
    ['min', '9', 'must be below the limit'],
    ['unit', 'NTU', 'is not a unit of Arsenic'],
    ['unit', '', 'is not a unit of Arsenic'],
    ['source', ' ', 'where the value comes from'],
    ['date', '', 'of which year'],
    ['from', '2026-02-30', ''],
  ])('is refused where %s is "%s"', (field, text, message) => {
    const reading = readLocalLimit({ ...ARSENIC, [field]: text })
    if (reading.ok) throw new Error('it was taken')
    expect(Object.keys(reading.errors)).toEqual([field])
    expect(reading.errors[field]).toContain(message)
  })

  test('must hold for a day at least', () => {
    const reading = readLocalLimit({ ...ARSENIC, from: '2026-05-01', until: '2026-05-01' })
    expect(reading).toEqual({
      ok: false,
      errors: { until: expect.stringContaining('ends before it begins') },
    })
  })
})
