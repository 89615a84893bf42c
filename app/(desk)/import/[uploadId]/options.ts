import { type UnitId, unitsOf } from '@/lib/domain/quantity'
import { DUTY_LIBRARY } from '@/lib/domain/upkeep'
import { COLUMNS, type TableKind } from '@/lib/exchange/columns'
import { dutyField, fieldOf } from '@/lib/exchange/mapping'

type Group = { label: string; options: { value: string; label: string }[] }

/** What a column can be said to be: a field of this kind of file, a duty of the well, or nothing of ours. */
export function fieldOptions(kind: TableKind): Group[] {
  const groups: Group[] = [
    {
      label: 'Not one of ours',
      options: [
        { value: 'keep', label: 'keep it with the row, as text' },
        { value: 'skip', label: 'leave it out' },
      ],
    },
    { label: 'Fields', options: COLUMNS[kind].map(({ name, title }) => ({ value: name, label: title })) },
  ]
  if (kind !== 'wells') return groups
  const duties = DUTY_LIBRARY.flatMap(({ name }) => [
    { value: dutyField(name, 'last_done'), label: `${name}: last done` },
    { value: dutyField(name, 'every_months'), label: `${name}: every so many months` },
  ])
  return [...groups, { label: 'Duties of the well', options: duties }]
}

/** The units in which a field can be; empty where it needs none. */
export function unitOptions(kind: TableKind, field: string): UnitId[] {
  const column = fieldOf({ field }, kind)?.column
  if (!column || (column.reads !== 'quantity' && column.reads !== 'limit') || column.plainUnit !== undefined)
    return []
  return column.dimension ? unitsOf(column.dimension) : [...unitsOf('length'), ...unitsOf('pressure')]
}
