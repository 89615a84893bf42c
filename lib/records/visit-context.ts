import type { Viewer } from '@/lib/access/viewer'
import { meterReadings } from '@/lib/domain/logbook/appraise'
import { type CurrentFact, currentFacts } from '@/lib/domain/logbook/entries'
import type { StoredQuantity } from '@/lib/domain/logbook/kinds'
import type { Day } from '@/lib/domain/quantity/day'
import { trackUsage } from '@/lib/domain/upkeep'
import type { UsageTrack } from '@/lib/domain/upkeep/types'
import type { Db } from './db'
import { entryOf } from './rows'
import { wellPage } from './wells'

/** A reading as it was last written, to be shown beside the field for the next. */
export type LastReading = { on: Day; reading: StoredQuantity }

/** The fields of the visit form that show their last reading. */
export type LastField =
  | 'staticLevel'
  | 'pumpingLevel'
  | 'flow'
  | 'hourMeter'
  | 'volumeMeter'
  | 'pressureBefore'
  | 'pressureAfter'
  | 'brush1'
  | 'amps'
  | 'volts'

/** Everything the visit form must know of a well. */
export type VisitSetting = {
  wellId: string
  label: string
  name: string | null
  wellDepthM: number | null
  duties: { key: string; name: string; due: Day | null; lastDoneOn: Day | null }[]
  hours: UsageTrack
  volume: UsageTrack
  last: Partial<Record<LastField, LastReading>>
  /** Whether the visit that was asked about is in the logbook already. */
  stored: boolean
}

/**
 * The setting of a visit to a well; null when there is no such well for this viewer. For a `visitId` that is stored
 * already, the setting that it was stored in: without its own lines and what was recorded since.
 */
export function visitSetting(db: Db, viewer: Viewer, wellId: string, visitId?: string): VisitSetting | null {
  const page = wellPage(db, viewer, wellId)
  if (!page) return null
  const own = page.entries.filter((row) => row.visitId === visitId).map((row) => row.recordedAt)
  const since = own.sort()[0]
  const known =
    since === undefined
      ? page.entries
      : page.entries.filter((row) => row.visitId !== visitId && row.recordedAt <= since)
  const facts = currentFacts(known.map(entryOf))
  const standings = new Map(page.standing?.duties.map((duty) => [duty.key, duty]))
  return {
    wellId,
    label: page.well.label,
    name: page.well.name,
    wellDepthM: page.well.wellDepthM,
    duties: page.duties.map(({ key, name }) => ({
      key,
      name,
      due: standings.get(key)?.due ?? null,
      lastDoneOn: standings.get(key)?.lastDoneOn ?? null,
    })),
    hours: trackUsage(meterReadings(facts, 'hours')),
    volume: trackUsage(meterReadings(facts, 'volume')),
    last: lastReadings(facts),
    stored: since !== undefined,
  }
}

/** Facts come in order of time, so that the last word on each field is the one that stays. */
function lastReadings(facts: readonly CurrentFact[]): Partial<Record<LastField, LastReading>> {
  const last: Partial<Record<LastField, LastReading>> = {}
  const note = (field: LastField, on: Day, reading: StoredQuantity | undefined) => {
    if (reading) last[field] = { on, reading }
  }
  for (const { fact, on } of facts) {
    switch (fact.kind) {
      case 'level-reading':
        note(fact.state === 'rest' ? 'staticLevel' : 'pumpingLevel', on, fact.level)
        break
      case 'flow-reading':
        note('flow', on, fact.flow)
        break
      case 'meter-reading':
        note(fact.meter === 'hours' ? 'hourMeter' : 'volumeMeter', on, fact.reading)
        break
      case 'pressure-reading':
        note('pressureBefore', on, fact.before)
        note('pressureAfter', on, fact.after)
        break
      case 'brush-length':
        note('brush1', on, fact.lengths[0])
        break
      case 'electrical-reading':
        note('amps', on, fact.amps)
        note('volts', on, fact.volts)
        break
    }
  }
  return last
}
