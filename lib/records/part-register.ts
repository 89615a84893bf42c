import type Database from 'better-sqlite3'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { type FittedByVisit, type ListedPart, partRegister, type RegisterPart } from '@/lib/domain/pump'
import { writeChange } from './changes'
import type { Db } from './db'
import type { FittedItem, Part } from './generated/client'
import { prepared } from './statements'
import { keyOf } from './well-fields'
import { visibleWell } from './wells'

/** Every part of a well, by hand or by visit, those in place first; empty where the viewer may not see the well. */
export function partRegisterOf(db: Db, viewer: Viewer, wellId: string): RegisterPart[] {
  return visibleWell(db, viewer, wellId) ? partsNow(db.sqlite, wellId) : []
}

/** The register of every well that has parts, by label, a well at a time. Throws NotAllowed unless the viewer sees the fleet. */
export function* everyPart(db: Db, viewer: Viewer): Generator<{ label: string; parts: RegisterPart[] }> {
  demandFleet(viewer, 'fleet.see')
  const wells = prepared<{ id: string; label: string }>(
    db.sqlite,
    'SELECT "id","label" FROM "Well" WHERE "struck" = 0 ORDER BY "labelKey"',
  ).all()
  for (const { id, label } of wells) {
    const parts = partsNow(db.sqlite, id)
    if (parts.length > 0) yield { label, parts }
  }
}

/** The same for callers that have asked whether the viewer may: what the database says now. */
export function partsNow(sqlite: Database.Database, wellId: string): RegisterPart[] {
  const listed = prepared<Part>(sqlite, 'SELECT * FROM "Part" WHERE "wellId" = ? ORDER BY "id"').all(wellId)
  const fitted = prepared<FittedItem>(
    sqlite,
    'SELECT * FROM "FittedItem" WHERE "wellId" = ? ORDER BY "position"',
  ).all(wellId)
  return partRegister(listed.map(listedOf), fitted.map(fittedOf), (kind, model) =>
    warrantyOfModel(sqlite, kind, model),
  )
}

function listedOf({ wellId: _, version: _v, beside, ...part }: Part): ListedPart {
  // SQLite holds it as a number.
  return { ...part, beside: Boolean(beside) }
}

function fittedOf({
  fittedOn,
  entryId,
  line,
  part,
  model,
  count,
  warrantyMonths,
}: FittedItem): FittedByVisit {
  return { on: fittedOn, entryId, line, part, model, count, warrantyMonths }
}

const WARRANTY_OF: Readonly<Record<string, string>> = {
  pump: 'SELECT "warrantyMonths" AS "months" FROM "PumpModel" WHERE "nameKey" = ?',
  cartridge: 'SELECT "warrantyMonths" AS "months" FROM "CartridgeModel" WHERE "nameKey" = ?',
}

function warrantyOfModel(sqlite: Database.Database, kind: string, model: string | null): number | null {
  const sql = WARRANTY_OF[kind]
  if (sql === undefined || model === null) return null
  return prepared<{ months: number | null }>(sqlite, sql).get(keyOf(model))?.months ?? null
}

/**
 * Writes into the change record what a write to the logbook did to a well's register of parts, part by part. Call within
 * its transaction, with the register as it was before and after the well was reckoned anew.
 */
export function writePartChanges(
  sqlite: Database.Database,
  viewer: Viewer,
  at: string,
  wellId: string,
  before: readonly RegisterPart[],
): void {
  const old = new Map(before.map((part) => [part.key, part]))
  const write = (action: string, was: RegisterPart | undefined, now: RegisterPart | undefined) =>
    writeChange(sqlite, viewer, at, {
      action,
      targetKind: 'part',
      targetId: now?.key ?? was?.key ?? '',
      wellId,
      ...(was ? { before: recorded(was) } : {}),
      ...(now ? { after: recorded(now) } : {}),
    })
  for (const part of partsNow(sqlite, wellId)) {
    const was = old.get(part.key)
    old.delete(part.key)
    if (!was) write('part fitted by a visit', undefined, part)
    else if (was.removedOn === null && part.removedOn !== null) {
      write('part taken out by a visit', was, part)
    } else if (JSON.stringify(recorded(was)) !== JSON.stringify(recorded(part))) {
      write('part changed with its visit', was, part)
    }
  }
  for (const part of old.values()) write('part taken back with its visit', part, undefined)
}

/** What the change record keeps of a part: the fields that people set. */
function recorded({ kind, model, size, count, fittedOn, warrantyUntil, removedOn, notes }: RegisterPart) {
  return { kind, model, size, count, fittedOn, warrantyUntil, removedOn, notes }
}
