/** USGS health-based screening levels for substances without a primary limit. */
import type { LimitRow } from '../types'

const ADVISORY_NON_CANCER_HBSL = {
  kind: 'advisory',
  source: 'USGS Health-Based Screening Levels database',
  section: 'non-cancer HBSL',
  date: '2023-04-04',
  seen: 'seen',
  via: 'USGS export of benchmarks of 4 April 2023 (R package inldata 1.2.5)',
  decides: true,
} as const

export const US_SCREENING: readonly LimitRow[] = [
  {
    ...ADVISORY_NON_CANCER_HBSL,
    analyte: 'manganese',
    max: 0.3,
    unit: 'mg/L',
    basis: 'non-cancer health-based screening level',
  },
  {
    ...ADVISORY_NON_CANCER_HBSL,
    analyte: 'boron',
    max: 5,
    unit: 'mg/L',
    basis: 'non-cancer health-based screening level',
  },
  {
    ...ADVISORY_NON_CANCER_HBSL,
    analyte: 'iron',
    max: 4,
    unit: 'mg/L',
    decides: false,
    basis: 'non-cancer health-based screening level',
  },
]
