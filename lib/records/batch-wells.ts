import type Database from 'better-sqlite3'
import type { Viewer } from '@/lib/access/viewer'
import type { Entry } from '@/lib/domain/logbook/entries'
import { writeChange } from './changes'
import type { DutyFields } from './duty-fields'
import { modelIdsFor } from './model-rows'
import {
  type DutyValues,
  dutyValues,
  handOver,
  insertDuty,
  insertWell,
  type NamedIds,
  ownerIdFor,
  updateDutyRow,
  updateWellRow,
  type WellValues,
  wellValues,
} from './register-rows'
import type { DutyRow, WellRow } from './rows'
import { prepared } from './statements'
import { keyOf, type WellFields } from './well-fields'

/** What one import did. */
export type BatchCounts = {
  wellsAdded: number
  wellsChanged: number
  wellsUnchanged: number
  dutiesAdded: number
  dutiesChanged: number
  dutiesUnchanged: number
  entriesAdded: number
  entriesUnchanged: number
}

/** A register row that a batch changed: what those columns held before, and the version it has since. */
export type BatchChange =
  | {
      target: 'well'
      id: string
      version: number
      before: Partial<WellValues> & { ownerName: string | null }
    }
  | { target: 'duty'; id: string; version: number; before: DutyValues }

/** The register's side of one import: wells and duties put in or changed, and what each did. */
export class BatchWells {
  readonly counts: BatchCounts = {
    wellsAdded: 0,
    wellsChanged: 0,
    wellsUnchanged: 0,
    dutiesAdded: 0,
    dutiesChanged: 0,
    dutiesUnchanged: 0,
    entriesAdded: 0,
    entriesUnchanged: 0,
  }
  /** Wells to be reckoned anew, with the entries that this batch gave them. */
  readonly touched = new Map<string, Entry[]>()
  /** Wells made by this batch, with their duties. */
  readonly fresh = new Map<string, { row: WellRow; duties: DutyRow[] }>()
  readonly changes: BatchChange[] = []
  private readonly ids = new Map<string, string | null>()

  constructor(
    private readonly sqlite: Database.Database,
    private readonly viewer: Viewer,
    private readonly batchId: string,
    private readonly at: string,
    private readonly updateExisting: boolean,
  ) {}

  private named(fields: WellFields): NamedIds {
    return { ownerId: ownerIdFor(this.sqlite, fields), ...modelIdsFor(this.sqlite, fields) }
  }

  /** The id of the well of that label, in the register or in this batch; null when there is none. */
  idOf(label: string): string | null {
    const key = keyOf(label)
    const known = this.ids.get(key)
    if (known !== undefined) return known
    const id =
      prepared<{ id: string }>(this.sqlite, 'SELECT "id" FROM "Well" WHERE "labelKey" = ?').get(key)?.id ??
      null
    this.ids.set(key, id)
    return id
  }

  /** Marks a well for reckoning and answers the list of entries that this batch gives it. */
  touch(wellId: string): Entry[] {
    let entries = this.touched.get(wellId)
    if (!entries) {
      entries = []
      this.touched.set(wellId, entries)
    }
    return entries
  }

  putWell(fields: WellFields): void {
    const id = this.idOf(fields.label)
    if (id === null) {
      const values = wellValues(fields, this.named(fields))
      const row = insertWell(this.sqlite, values, fields.ownerName, this.batchId)
      this.ids.set(values.labelKey, row.id)
      this.fresh.set(row.id, { row, duties: [] })
      this.touch(row.id)
      this.counts.wellsAdded += 1
      return
    }
    const before = prepared<WellRow & { ownerName: string | null }>(
      this.sqlite,
      'SELECT w.*, o."name" AS "ownerName" FROM "Well" w LEFT JOIN "Owner" o ON o."id" = w."ownerId" WHERE w."id" = ?',
    ).get(id)
    if (!before || !this.updateExisting || !this.changeWell(before, fields)) this.counts.wellsUnchanged += 1
  }

  /** A file fills in and changes what it states; what it leaves blank stays as it is. */
  private changeWell(before: WellRow & { ownerName: string | null }, fields: WellFields): boolean {
    const stated = wellValues(fields, this.named(fields))
    const old = valuesOf(before, stated)
    const values = { ...old }
    for (const column of Object.keys(stated) as (keyof WellValues)[]) {
      if (column === 'typed' || column === 'extra') {
        const merged = { ...JSON.parse(old[column]), ...JSON.parse(stated[column]) }
        Object.assign(values, { [column]: JSON.stringify(merged) })
      } else if (stated[column] !== null) Object.assign(values, { [column]: stated[column] })
    }
    if (sameValues(old, values)) return false
    const ownerName = fields.ownerName ?? before.ownerName
    if (!updateWellRow(this.sqlite, before.id, before.version, values, ownerName)) {
      throw new Error(`well ${before.id} changed within its own transaction`)
    }
    handOver(this.sqlite, before, values.ownerId, this.at)
    writeChange(this.sqlite, this.viewer, this.at, {
      action: 'well changed by import',
      targetKind: 'well',
      targetId: before.id,
      wellId: before.id,
      before: old,
      after: values,
    })
    this.changes.push({
      target: 'well',
      id: before.id,
      version: before.version + 1,
      before: { ...old, ownerName: before.ownerName },
    })
    this.touch(before.id)
    this.counts.wellsChanged += 1
    return true
  }

  /** False when there is no such well. */
  putDuty(wellLabel: string, fields: DutyFields): boolean {
    const wellId = this.idOf(wellLabel)
    if (wellId === null) return false
    const fresh = this.fresh.get(wellId)
    const known = fresh
      ? fresh.duties.find((duty) => duty.key === fields.key)
      : prepared<DutyRow>(this.sqlite, 'SELECT * FROM "Duty" WHERE "wellId" = ? AND "key" = ?').get(
          wellId,
          fields.key,
        )
    if (!known) {
      const row = insertDuty(this.sqlite, wellId, dutyValues(fields), this.batchId)
      fresh?.duties.push(row)
      this.touch(wellId)
      this.counts.dutiesAdded += 1
      return true
    }
    if (!fresh && (this.updateExisting || known.retired) && this.changeDuty(known, fields)) return true
    this.counts.dutiesUnchanged += 1
    return true
  }

  private changeDuty(known: DutyRow, fields: DutyFields): boolean {
    const stated = dutyValues(fields)
    const old = valuesOf(known, stated)
    if (!known.retired && sameValues(old, stated)) return false
    if (!updateDutyRow(this.sqlite, known.id, known.version, stated, false)) {
      throw new Error(`duty ${known.id} changed within its own transaction`)
    }
    writeChange(this.sqlite, this.viewer, this.at, {
      action: 'duty changed by import',
      targetKind: 'duty',
      targetId: known.id,
      wellId: known.wellId,
      before: old,
      after: stated,
    })
    this.changes.push({ target: 'duty', id: known.id, version: known.version + 1, before: old })
    this.touch(known.wellId)
    this.counts.dutiesChanged += 1
    return true
  }
}

/** The columns of `shape` as `row` has them. */
function valuesOf<T extends object>(row: T, shape: Partial<T>): T {
  const picked: Partial<T> = {}
  for (const column of Object.keys(shape) as (keyof T)[]) picked[column] = row[column]
  // Every column of T that counts here is a key of `shape`.
  return picked as T
}

function sameValues<T extends object>(a: T, b: T): boolean {
  return (Object.keys(b) as (keyof T)[]).every((column) => a[column] === b[column])
}
