/** Holds the entries of a file against the logbook of their well: what is new, and which readings are in doubt. */
import { type CurrentFact, currentFacts, type Entry, withdrawnIds } from '@/lib/domain/logbook/entries'
import type { MeterKind, MeterReading } from '@/lib/domain/upkeep/types'
import { trackUsage } from '@/lib/domain/upkeep/usage'
import { contentId } from '@/lib/records/ids'
import { keyOf } from '@/lib/records/well-fields'
import { byContent } from './about'
import { contentKey } from './content'
import type { EntryFact } from './drafts'
import type { Problem } from './problems'

export type Compared = {
  fresh: { entry: EntryFact; contentKey: string[] }[]
  unchanged: number
  /** Rows that say again what an earlier row of the file says. */
  repeats: Problem[]
  doubts: Problem[]
}

/**
 * Compares the entries that a file gives one well with its logbook. An entry is known when the logbook says the same,
 * by whatever way it got there, or when the same row was imported before and has since been corrected.
 */
export function compareEntries(entries: readonly EntryFact[], logbook: readonly Entry[]): Compared {
  const facts = byContent(entries[0]?.wellLabel ?? '', currentFacts(logbook))
  const said = new Set(facts.map(({ on, time, fact }) => JSON.stringify(contentKey(on, time, fact))))
  const isImported = importedBefore(logbook)
  const compared: Compared = { fresh: [], unchanged: 0, repeats: [], doubts: [] }
  const rowOf = new Map<string, number>()
  for (const entry of entries) {
    const key = contentKey(entry.on, entry.time, entry.fact)
    const text = JSON.stringify(key)
    const earlier = rowOf.get(text)
    if (earlier !== undefined) {
      const message = `The row says the same as row ${earlier} and is stored once.`
      if (earlier !== entry.row)
        compared.repeats.push({ row: entry.row, column: '', value: entry.wellLabel, message })
      continue
    }
    rowOf.set(text, entry.row)
    if (said.has(text) || isImported(entry.wellLabel, key)) compared.unchanged += 1
    else compared.fresh.push({ entry, contentKey: key })
  }
  compared.doubts = meterDoubts(
    facts,
    compared.fresh.map(({ entry }) => entry),
  )
  return compared
}

/** Ids are made as the commit makes them; one whose entry was taken back counts as not imported. */
function importedBefore(logbook: readonly Entry[]): (label: string, key: readonly string[]) => boolean {
  const ids = new Set(logbook.map(({ id }) => id))
  const gone = withdrawnIds(logbook)
  return (label, key) => {
    for (let again = 0; ; again += 1) {
      const id = contentId(keyOf(label), ...key, ...(again ? [`again ${again}`] : []))
      if (!ids.has(id)) return false
      if (!gone.has(id)) return true
    }
  }
}

/** New readings of the meters that do not fit the others: stored as read, and not reckoned with. */
function meterDoubts(facts: readonly CurrentFact[], fresh: readonly EntryFact[]): Problem[] {
  if (!fresh.some(({ fact }) => isAboutMeter(fact))) return []
  const known = facts.map(({ id, on, time, fact }) => ({ id, on, time, fact }))
  const stated = fresh.map((entry, index) => ({
    id: `row ${index}`,
    on: entry.on,
    time: entry.time,
    fact: entry.fact,
  }))
  const inTime = [...known, ...stated].sort((a, b) =>
    compareText(a.on + (a.time ?? ''), b.on + (b.time ?? '')),
  )
  return (['hours', 'volume'] as const).flatMap((meter) =>
    trackUsage(inTime.flatMap((line) => readingOf(line, meter))).setAside.flatMap(({ id, why }) => {
      const entry = fresh[Number(/^row (\d+)$/.exec(id)?.[1] ?? '-1')]
      return entry ? [doubtOf(entry, meter, why)] : []
    }),
  )
}

function doubtOf(entry: EntryFact, meter: MeterKind, why: string): Problem {
  const { fact } = entry
  const value = fact.kind === 'meter-reading' ? fact.reading.typed : ''
  const column = meter === 'hours' ? 'hour_meter' : 'volume_meter'
  const message = `This reading is stored and not used: ${why}. Is it right, was the meter replaced, or is a digit wrong?`
  return { row: entry.row, column, value, message }
}

const isAboutMeter = (fact: EntryFact['fact']) =>
  fact.kind === 'meter-reading' || (fact.kind === 'event' && fact.event === 'meter-replaced')

function readingOf(line: Pick<CurrentFact, 'id' | 'on' | 'fact'>, meter: MeterKind): MeterReading[] {
  const { id, on, fact } = line
  if (fact.kind === 'meter-reading' && fact.meter === meter) {
    return [{ id, on, value: fact.reading.si, explained: fact.explained }]
  }
  if (fact.kind !== 'event' || fact.event !== 'meter-replaced' || (fact.meter ?? meter) !== meter) return []
  const replacedTo = fact.newReading?.si ?? null
  return [
    {
      id,
      on,
      value: replacedTo ?? 0,
      explained: 'replaced',
      replacedFrom: fact.oldReading?.si ?? null,
      replacedTo,
    },
  ]
}

const compareText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)
