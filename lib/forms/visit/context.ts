import type { Day, UnitSystem } from '@/lib/domain/quantity'
import type { UsageTrack } from '@/lib/domain/upkeep/types'

/** What the reading of a visit form must know of the well, the day and the person. */
export type VisitContext = {
  wellId: string
  today: Day
  system: UnitSystem
  /** Duties of the well by key, with the names that the form shows. */
  duties: readonly { key: string; name: string }[]
  /** What its meters have shown so far. */
  hours: MeterSoFar
  volume: MeterSoFar
  wellDepthM: number | null
}

export type MeterSoFar = Pick<UsageTrack, 'points' | 'perDayMax'>
