/** A folder of plain files as wells with their logbooks, without a database. */
import { existsSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Entry } from '@/lib/domain/logbook/entries'
import { withModelLimits } from '@/lib/domain/logbook/equipment'
import type { WellRegister } from '@/lib/domain/logbook/register'
import { supplySideOf } from '@/lib/domain/logbook/supply-facts'
import type { Duty } from '@/lib/domain/upkeep/types'
import type { DutyFields } from '@/lib/records/duty-fields'
import { equipmentOf } from '@/lib/records/equipment'
import { bareWell, keyOf, type WellFields } from '@/lib/records/well-fields'
import { COLUMNS, recognise, TABLE_KINDS, type TableKind } from './columns'
import { type Drafts, type EntryFact, Labels } from './drafts'
import type { ColumnUse } from './mapping'
import type { Problem } from './problems'
import { readDrafts } from './read'
import { readTable, type Table } from './table'

export type FolderWell = {
  label: string
  register: WellRegister
  /** In order of day, time and place in the files. */
  entries: Entry[]
}
export type Folder = {
  /** In order of first appearance: wells, duties, visits, recovery, samples. */
  wells: FolderWell[]
  problems: { file: string; problem: Problem }[]
  /** Files found, and of those the ones of which at least the headings could be read. */
  found: number
  usable: number
}

/** Reads whichever of the plain files lie in a folder. Rows with a problem are left out; the rest counts. */
export async function readFolder(path: string): Promise<Folder> {
  const gathered = new Gathering()
  const folder: Folder = { wells: [], problems: [], found: 0, usable: 0 }
  for (const kind of TABLE_KINDS) {
    const file = `${kind}.csv`
    if (!existsSync(join(path, file))) continue
    folder.found += 1
    const drafts = await readPlainFile(join(path, file), kind)
    folder.problems.push(...drafts.problems.map((problem) => ({ file, problem })))
    if (drafts.kind === 'unusable') continue
    folder.usable += 1
    gathered.add(drafts)
  }
  folder.wells = gathered.wells()
  return folder
}

type PlainFile = ({ kind: 'read' } & Drafts) | { kind: 'unusable'; problems: Problem[] }

async function readPlainFile(path: string, kind: TableKind): Promise<PlainFile> {
  const reading = await readTable(await readFile(path), { anySize: true, headerLine: 1 })
  if (reading.kind === 'refused') return unusable('', reading.message)
  if (reading.kind === 'choose-sheet') return unusable('', 'This is a workbook and not a CSV file.')
  const mapping = plainMapping(reading.table, kind)
  const missing = COLUMNS[kind].find(
    ({ name, needed }) =>
      needed && !Object.values(mapping).some((use) => typeof use !== 'string' && use.field === name),
  )
  if (missing) return unusable(missing.name, `There is no column "${missing.name}".`)
  // The plain files write decimal points.
  return { kind: 'read', ...readDrafts(reading.table, kind, mapping, { locale: 'en' }) }
}

function unusable(column: string, message: string): PlainFile {
  return { kind: 'unusable', problems: [{ row: 1, column, value: '', message }] }
}

/** Columns by their own headings only; the reckoning has no use for the rest. */
function plainMapping(table: Table, kind: TableKind): Record<number, ColumnUse> {
  return Object.fromEntries(
    table.header.map((heading, column): [number, ColumnUse] => {
      const known = recognise(heading, kind)
      if (!known) return [column, 'skip']
      return [column, { field: known.column.name, ...(known.unit ? { unit: known.unit } : {}) }]
    }),
  )
}

/** What the files say, by well. */
class Gathering {
  private readonly labels = new Labels()
  private readonly fields = new Map<string, WellFields>()
  private readonly duties = new Map<string, DutyFields[]>()
  private readonly entries = new Map<string, Entry[]>()
  private count = 0

  add(drafts: Drafts): void {
    for (const label of drafts.labels) this.labels.add(label)
    for (const { fields } of drafts.wells) this.fields.set(this.labels.add(fields.label), fields)
    for (const { wellLabel, fields } of drafts.duties) push(this.duties, this.labels.add(wellLabel), fields)
    for (const entry of drafts.entries) {
      const label = this.labels.add(entry.wellLabel)
      push(this.entries, label, this.entryOf(label, entry))
    }
  }

  wells(): FolderWell[] {
    return this.labels.list.map((label) => ({
      label,
      register: registerOf(this.fields.get(label) ?? bareWell(label), this.duties.get(label) ?? []),
      entries: (this.entries.get(label) ?? []).sort(inTime),
    }))
  }

  /** Ids count on through the files, so that entries of one day keep the order in which they are written. */
  private entryOf(label: string, { on, time, by, fact }: EntryFact): Entry {
    this.count += 1
    return {
      id: String(this.count).padStart(12, '0'),
      wellId: label,
      visitId: `${keyOf(label)} ${on} ${time ?? ''}`,
      occurredOn: on,
      occurredTime: time,
      payload: fact,
      supersedes: null,
      withdraws: null,
      byName: by,
    }
  }
}

function push<T>(map: Map<string, T[]>, key: string, value: T): void {
  const list = map.get(key)
  if (list) list.push(value)
  else map.set(key, [value])
}

function registerOf(fields: WellFields, duties: readonly DutyFields[]): WellRegister {
  const { closedFrom, closedTo, closedWhy } = fields
  const equipment = equipmentOf(fields)
  return {
    ...fields,
    equipment,
    closed:
      closedFrom && closedTo ? { from: closedFrom, to: closedTo, why: closedWhy ?? 'closed season' } : null,
    duties: withModelLimits(duties.map(dutyOf), equipment),
    supplySide: supplySideOf(fields),
  }
}

function dutyOf({ condition, conditionLimitSi, typed: _, ...duty }: DutyFields): Duty & { id: string } {
  const measured =
    condition && conditionLimitSi !== null ? { kind: condition, limitSi: conditionLimitSi } : null
  return { ...duty, id: duty.key, condition: measured }
}

const inTime = (a: Entry, b: Entry) =>
  compareText(a.occurredOn, b.occurredOn) ||
  compareText(a.occurredTime ?? '', b.occurredTime ?? '') ||
  compareText(a.id, b.id)

const compareText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)
