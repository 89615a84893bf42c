/** New York: values recommended for new private wells. */
import type { LimitRow } from '../types'

const HEALTH_RECOMMENDED_RESIDENTIAL_WAT = {
  kind: 'health',
  source: 'NYS DOH Individual Water Supply Wells Fact Sheet #3',
  section: 'Recommended Residential Water Quality Testing',
  date: 'undated',
  seen: 'seen',
  via: 'NYS DOH Fact Sheet #3',
} as const

const AESTHETIC_RECOMMENDED_RESIDENTIAL = {
  kind: 'aesthetic',
  source: 'NYS DOH Individual Water Supply Wells Fact Sheet #3',
  section: 'Recommended Residential Water Quality Testing',
  date: 'undated',
  seen: 'seen',
  via: 'NYS DOH Fact Sheet #3',
} as const

export const NEW_YORK: readonly LimitRow[] = [
  {
    ...HEALTH_RECOMMENDED_RESIDENTIAL_WAT,
    analyte: 'total-coliform',
    max: 0,
    unit: 'per 100 mL',
    basis: 'recommended for new private wells',
  },
  {
    ...HEALTH_RECOMMENDED_RESIDENTIAL_WAT,
    analyte: 'arsenic',
    max: 0.01,
    unit: 'mg/L',
    basis: 'recommended for new private wells',
  },
  {
    analyte: 'lead',
    kind: 'action',
    max: 0.015,
    unit: 'mg/L',
    basis: 'recommended for new private wells',
    source: 'NYS DOH Individual Water Supply Wells Fact Sheet #3',
    section: 'Recommended Residential Water Quality Testing',
    date: 'undated',
    seen: 'seen',
    via: 'NYS DOH Fact Sheet #3',
  },
  {
    ...HEALTH_RECOMMENDED_RESIDENTIAL_WAT,
    analyte: 'nitrate',
    max: 10,
    unit: 'mg/L as N',
    basis: 'recommended for new private wells',
  },
  {
    ...HEALTH_RECOMMENDED_RESIDENTIAL_WAT,
    analyte: 'nitrite',
    max: 1,
    unit: 'mg/L as N',
    basis: 'recommended for new private wells',
  },
  {
    ...AESTHETIC_RECOMMENDED_RESIDENTIAL,
    analyte: 'chloride',
    max: 250,
    unit: 'mg/L',
    basis: 'recommended for new private wells',
  },
  {
    ...AESTHETIC_RECOMMENDED_RESIDENTIAL,
    analyte: 'iron',
    max: 0.3,
    unit: 'mg/L',
    basis: 'recommended for new private wells',
  },
  {
    ...AESTHETIC_RECOMMENDED_RESIDENTIAL,
    analyte: 'manganese',
    max: 0.3,
    unit: 'mg/L',
    basis: 'recommended for new private wells',
  },
  {
    ...AESTHETIC_RECOMMENDED_RESIDENTIAL,
    analyte: 'iron-manganese',
    max: 0.5,
    unit: 'mg/L',
    basis: 'recommended for new private wells',
  },
  {
    ...AESTHETIC_RECOMMENDED_RESIDENTIAL,
    analyte: 'turbidity',
    max: 5,
    unit: 'NTU',
    basis: 'recommended for new private wells',
  },
  {
    ...AESTHETIC_RECOMMENDED_RESIDENTIAL,
    analyte: 'sulfate',
    max: 250,
    unit: 'mg/L',
    basis: 'recommended for new private wells',
  },
]
