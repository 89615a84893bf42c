/** The sources the holding tables share, and the shape of their rows. */
import type { Sourced } from '../types'

export type HoldingRow = Sourced & {
  analytes: readonly string[]
  /** Other names for the bottle on the sampling sheet. */
  bottle: string
  container: string
  preservation: string
  maxTempC: number | null
  holdHours: number
  holdText: string
  /** For water that was chlorinated before the bottle was filled; absent: for all. */
  chlorinated?: boolean
  /** The time is too short for any laboratory: flagged, but no reason to doubt the number. */
  flagOnly?: boolean
  note?: string
}

export const MAINE = {
  source: 'Maine Environmental Laboratory, Sample Acceptance Rules for Drinking Water',
  date: '2024-08-19',
  seen: 'seen',
} as const
export const CFR136 = {
  source: '40 CFR 136.3 Table II',
  section: 'as reprinted in Florida DEP-SOP-001/01 FS 1000, Table FS1000-4',
  date: '2014-03-01',
  seen: 'seen',
} as const
export const CFR136_1995 = {
  source: '40 CFR 136.3 Table II',
  section: 'as reprinted in a field-photometer manual',
  date: '1995-07-01',
  seen: 'seen',
} as const
export const ACID_METALS = {
  ...MAINE,
  bottle: 'metals',
  preservation: 'nitric acid to pH < 2, within 14 days',
  maxTempC: null,
  holdHours: 4383,
  holdText: '6 months',
} as const
