import { appraiseWater, type WaterStanding } from '@/lib/domain/water/appraise'
import type { WaterEvent } from '@/lib/domain/water/events'
import { readResult } from '@/lib/domain/water/results'
import type { Result, Sample } from '@/lib/domain/water/types'
import type { CurrentFact } from './entries'
import type { ReckonSettings } from './settings'

type SampleFact = Extract<CurrentFact['fact'], { kind: 'sample' }>

/** What the logbook says of a well's water, by the scheme and the local limits of the settings. Pure, like appraise. */
export function waterStanding(
  facts: readonly CurrentFact[],
  { water }: Pick<ReckonSettings, 'water'>,
): WaterStanding {
  const samples = facts.flatMap(({ fact, id }) => (fact.kind === 'sample' ? [sampleOf(fact, id)] : []))
  return appraiseWater(samples, waterEvents(facts), water)
}

/** A row that cannot be read is kept as unread: it can never help a sample to "meets". */
function sampleOf(fact: SampleFact, id: string): Sample {
  const results: Result[] = []
  const unread: string[] = []
  for (const row of fact.results) {
    const reading = readResult(
      {
        analyte: row.analyte,
        result: row.result,
        unit: row.unit ?? '',
        reportingLimit: row.reportingLimit ?? '',
        qualifier: '',
        method: row.method ?? '',
      },
      { locale: 'en' },
    )
    if (reading.kind === 'result') results.push(reading.result)
    else unread.push([row.analyte, row.result, row.unit].filter(Boolean).join(' '))
  }
  return {
    id,
    sampledAt: fact.sampledAt,
    receivedAt: fact.receivedAt ?? null,
    analysedAt: null,
    receivedTempC: null,
    lab: fact.lab ?? '',
    point: fact.point ?? '',
    chlorinated: null,
    results,
    asked: [],
    unread,
  }
}

/** A duty called "Disinfection" that was done counts as one; its dose is not written down in it. */
function waterEvents(facts: readonly CurrentFact[]): WaterEvent[] {
  return facts.flatMap(({ fact, on, byName }): WaterEvent[] => {
    if (fact.kind === 'service-done' && fact.duties.includes('disinfection')) {
      return [{ kind: 'disinfected', on, by: byName ?? '', targetMgL: null, contactHours: null }]
    }
    if (fact.kind === 'event' && fact.event === 'flooded')
      return [{ kind: 'test-again', on, event: 'flooded' }]
    return []
  })
}
