import { showDay } from '@/app/ui/show-day'
import { EVENT_WORDS } from '@/lib/domain/logbook/describe'
import { EVENTS, PART_KINDS } from '@/lib/domain/logbook/kinds'
import { type Day, type UnitSystem, unitSymbols } from '@/lib/domain/quantity'
import { sayDistance } from '@/lib/domain/upkeep/due-words'
import { WHO_DUG_WELL } from '@/lib/domain/water/tables/sanitary'
import type { VisitFormProps } from './visit-fields'

type Known = {
  duties: readonly { key: string; name: string; due: Day | null }[]
  last: Readonly<Record<string, { on: Day; typed: string }>>
}

/** What the visit form shows of a well, in words: the same with signal and without. */
export function visitWords(
  known: Known,
  day: Day,
  units: UnitSystem,
): Pick<VisitFormProps, 'units' | 'last' | 'duties' | 'parts' | 'events' | 'inspection'> {
  return {
    units: unitSymbols(units),
    last: Object.fromEntries(
      Object.entries(known.last).map(([field, { on, typed }]) => [
        field,
        `last ${typed} on ${showDay(on, units)}`,
      ]),
    ),
    duties: known.duties.map((duty) => ({
      key: duty.key,
      name: duty.name,
      hint: duty.due ? sayDistance(duty.due, day) : 'no date known',
    })),
    parts: [{ value: '', label: 'no part' }, ...PART_KINDS.map((kind) => ({ value: kind, label: kind }))],
    events: [
      { value: '', label: 'nothing special' },
      ...EVENTS.map((event) => ({ value: event, label: EVENT_WORDS[event] })),
    ],
    inspection: WHO_DUG_WELL.questions,
  }
}
