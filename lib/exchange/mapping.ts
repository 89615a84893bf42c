/** Which column of a table says what: recognised by its heading, or said by the person who imports it. */
import type { DateOrder, NumberLocale, UnitId } from '@/lib/domain/quantity'
import { slug } from '@/lib/domain/upkeep/keys'
import { type Column, columnNamed, type TableKind } from './columns'

/** A duty in a wells sheet: `duty:Change filter:last_done` or `duty:Change filter:every_months`. */
export const DUTY_PARTS = ['last_done', 'every_months', 'every_hours', 'every'] as const
export type DutyPart = (typeof DUTY_PARTS)[number]

/** Where the unit of a column's numbers stands: in this very unit, or in another column, row by row. */
export type UnitSource = UnitId | { fromColumn: number }
export type FieldUse = { field: string; unit?: UnitSource; dateOrder?: DateOrder }
/** 'keep': kept with the row as text. 'skip': left out, because the person said so. */
export type ColumnUse = FieldUse | 'keep' | 'skip'
/** By column number, from 0. A column that is not named is kept. */
export type Mapping = Readonly<Record<number, ColumnUse>>

/** What is true of the whole file. `locale` null: nobody has said what a comma means. */
export type Answers = { locale: NumberLocale }

/** A field of a mapping with what the reader needs to know of it. */
export type Field = { use: FieldUse; column: Column; duty: { name: string; part: DutyPart } | null }

/** What a field name means for this kind of file; null for a name that means nothing. */
export function fieldOf(use: FieldUse, kind: TableKind): Field | null {
  const named = columnNamed(kind, use.field)
  if (named) return { use, column: named, duty: null }
  const duty = kind === 'wells' ? dutyOfField(use.field) : null
  const column = duty && columnNamed('duties', duty.part)
  return duty && column ? { use, column, duty } : null
}

/** The field name of one part of a duty in a wells sheet. */
export function dutyField(name: string, part: DutyPart): string {
  return `duty:${name}:${part}`
}

function dutyOfField(field: string): { name: string; part: DutyPart } | null {
  const match = /^duty:(.+):(\w+)$/.exec(field)
  const part = DUTY_PARTS.find((known) => known === match?.[2])
  const name = match?.[1]?.trim() ?? ''
  return part && /[\p{L}\p{N}]/u.test(name) && name.length <= 120 && slug(name) ? { name, part } : null
}
