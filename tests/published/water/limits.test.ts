/** Every row of the limit tables against the published figure, both ways. Sources stand beside each row of the data file. */
import { describe, expect, test } from 'vitest'
import { findAnalyte } from '@/lib/domain/water/analytes'
import { EUROPEAN_UNION } from '@/lib/domain/water/tables/limits-eu'
import { NEW_YORK } from '@/lib/domain/water/tables/limits-new-york'
import { US_ADVISORIES } from '@/lib/domain/water/tables/limits-us-advisories'
import { US_PRIMARY } from '@/lib/domain/water/tables/limits-us-primary'
import { US_SCREENING } from '@/lib/domain/water/tables/limits-us-screening'
import { US_SECONDARY } from '@/lib/domain/water/tables/limits-us-secondary'
import { WHO } from '@/lib/domain/water/tables/limits-who'
import type { LimitRow } from '@/lib/domain/water/types'
import limits from '../data/water/limits.json'

type Published = {
  analyte: string
  cas: string | null
  casSeen: string | null
  characteristicName: string | null
  scheme: string
  kind: string
  value: number | null
  unit: string
  seen: string
  interim?: number
  min?: number
}
const published = limits as Published[]

const LISTS: Record<string, readonly LimitRow[]> = {
  'US-EPA-NPDWR': US_PRIMARY,
  'US-EPA-NSDWR': US_SECONDARY,
  'US-EPA-HA': US_ADVISORIES,
  'USGS-HBSL': US_SCREENING,
  'US-NY-DOH-private-well': NEW_YORK,
  'WHO-GDWQ4-2022': WHO,
  'EU-2020/2184': EUROPEAN_UNION.filter((row) => row.unit !== 'Bq/L'),
  'EU-2013/51/Euratom': EUROPEAN_UNION.filter((row) => row.unit === 'Bq/L'),
}

const IDS: Record<string, string> = {
  'Coliform bacteria': 'total-coliform',
  'Pesticide, each': 'pesticide-each',
  'PFAS sum of 20': 'pfas-sum-20',
  'Ammonia/ammonium': 'ammonia',
  'PFAS hazard index (PFHxS, PFNA, HFPO-DA, PFBS)': 'pfas-hazard-index',
  'Chromium (total)': 'chromium',
  'Radium-226 + radium-228': 'radium-226-228',
  Odor: 'odour',
  'Radon-222': 'radon',
}
const idOf = (name: string): string =>
  IDS[name] ??
  name
    .toLowerCase()
    .replace(/ \(total\)/, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')

describe('every published limit is in the table of its list, with the same number, unit and mark', () => {
  test.each(published.map((row) => [`${row.scheme}: ${row.analyte} ${row.value} ${row.unit}`, row] as const))(
    '%s',
    (_, row) => {
      const list = LISTS[row.scheme] ?? []
      // The coliform rule is 5 % of a public system's samples a month; for one well the table says "any detection".
      const perCent = row.unit.startsWith('%')
      const value = perCent ? 0 : row.value
      const found = list.filter(
        (each) => each.analyte === idOf(row.analyte) && each.kind === row.kind && each.max === value,
      )
      expect(found, 'one row of that value').toHaveLength(1)
      const [ours] = found
      if (!perCent) expect(row.unit.startsWith(ours?.unit ?? '?')).toBe(true)
      expect(ours?.seen).toBe(row.seen)
      if (row.interim !== undefined)
        expect(list.some((each) => each.analyte === idOf(row.analyte) && each.max === row.interim)).toBe(true)
      if (idOf(row.analyte) === 'ph') expect(ours?.min).toBe(row.min)
    },
  )

  test.each(Object.entries(LISTS))(
    'the table %s holds nothing that is not published there',
    (scheme, rows) => {
      // EU lead and chromium until 2036 are the interim values beside the rows published for 2036.
      const extra = rows.filter(
        (row) =>
          !published.some(
            (each) =>
              each.scheme === scheme &&
              idOf(each.analyte) === row.analyte &&
              (each.value === row.max || each.interim === row.max || each.unit.startsWith('%')),
          ),
      )
      expect(extra.map((row) => `${row.analyte} ${row.max}`)).toEqual(
        scheme === 'EU-2020/2184' ? ['chromium 50'] : [],
      )
    },
  )

  test('every row names its source, its date and whether the value was seen', () => {
    for (const row of Object.values(LISTS).flat()) {
      expect(row.source.length).toBeGreaterThan(10)
      expect(row.date).not.toBe('')
      expect(['seen', 'memory']).toContain(row.seen)
    }
  })
})

describe('CAS numbers and WQX names agree with the EPA domain list', () => {
  test.each(published.map((row) => [row.analyte, row] as const))('%s', (_, row) => {
    const analyte = findAnalyte(idOf(row.analyte))
    if (row.analyte === 'Pesticide, each') return expect(analyte).toBeUndefined()
    expect(analyte, `an analyte for ${row.analyte}`).toBeDefined()
    expect(analyte?.cas ?? null).toBe(row.cas)
    if (row.cas !== null) expect(analyte?.casSeen ?? 'seen').toBe(row.casSeen)
    if (row.characteristicName !== null) expect(analyte?.wqx).toBe(row.characteristicName)
  })
})
