import type Database from 'better-sqlite3'
import { type FittedByVisit, modelKey } from '@/lib/domain/pump'
import type { FittedItem } from './generated/client'
import { prepared } from './statements'

const COLUMNS = [
  'entryId',
  'line',
  'wellId',
  'fittedOn',
  'part',
  'model',
  'modelKey',
  'count',
  'warrantyMonths',
  'position',
] as const satisfies readonly (keyof FittedItem)[]

const INSERT = `INSERT INTO "FittedItem" (${COLUMNS.map((column) => `"${column}"`).join(',')})
  VALUES (${COLUMNS.map(() => '?').join(',')})`

/**
 * Keeps the parts that a well's logbook says were fitted beside its standing, so that the shelf is reckoned without
 * reading logbooks. Call within the transaction of the standing; `previous` as in storeStanding.
 */
export function putFitted(
  sqlite: Database.Database,
  wellId: string,
  lines: readonly FittedByVisit[],
  previous: 'known' | 'none',
): void {
  const rows = lines.map(
    (line, position): FittedItem => ({
      entryId: line.entryId,
      line: line.line,
      wellId,
      fittedOn: line.on,
      part: line.part,
      model: line.model,
      modelKey: modelKey(line.model),
      count: line.count,
      warrantyMonths: line.warrantyMonths,
      position,
    }),
  )
  if (previous === 'known') {
    const before = prepared<FittedItem>(
      sqlite,
      'SELECT * FROM "FittedItem" WHERE "wellId" = ? ORDER BY "fittedOn","entryId","line"',
    ).all(wellId)
    if (sameRows(before, rows)) return
    prepared(sqlite, 'DELETE FROM "FittedItem" WHERE "wellId" = ?').run(wellId)
  }
  for (const row of rows) prepared(sqlite, INSERT).run(...COLUMNS.map((column) => row[column]))
}

function sameRows(before: readonly FittedItem[], rows: readonly FittedItem[]): boolean {
  if (before.length !== rows.length) return false
  const texts = (some: readonly FittedItem[]) =>
    some.map((row) => JSON.stringify(COLUMNS.map((column) => row[column]))).sort()
  const now = texts(rows)
  return texts(before).every((text, i) => text === now[i])
}

/**
 * The models that a kind of part may have at a well, the likeliest first: what was fitted last by logbook or register of
 * parts (the later day first), then what the well's own pump or cartridge model names. Empty where nothing names one.
 */
export function modelsInPlace(sqlite: Database.Database, wellId: string, part: string): string[] {
  const fitted = prepared<{ model: string; fittedOn: string }>(
    sqlite,
    'SELECT "model","fittedOn" FROM "FittedItem" WHERE "wellId" = ? AND "part" = ? AND "model" IS NOT NULL ORDER BY "fittedOn" DESC LIMIT 1',
  ).get(wellId, part)
  const listed = prepared<{ model: string | null; size: string | null; fittedOn: string | null }>(
    sqlite,
    `SELECT "model","size","fittedOn" FROM "Part" WHERE "wellId" = ? AND "kind" = ? AND "removedOn" IS NULL
     AND ("model" IS NOT NULL OR "size" IS NOT NULL) ORDER BY "fittedOn" DESC LIMIT 1`,
  ).get(wellId, part)
  const names = [
    { on: fitted?.fittedOn ?? '', texts: fitted ? [fitted.model] : [] },
    { on: listed?.fittedOn ?? '', texts: listed ? partTexts(listed) : [] },
  ].sort((a, b) => (a.on < b.on ? 1 : a.on > b.on ? -1 : 0))
  return [...names.flatMap(({ texts }) => texts), ...ofModels(sqlite, wellId, part)]
}

/** Model and size together, and each by itself: stock books name parts by either. */
function partTexts({ model, size }: { model: string | null; size: string | null }): string[] {
  const alone = [model, size].filter((text) => text !== null)
  return alone.length > 1 ? [alone.join(', '), ...alone] : alone
}

const OF_MODELS: Readonly<Record<string, string>> = {
  brushes:
    'SELECT m."brushPart" AS "name" FROM "Well" w JOIN "PumpModel" m ON m."id" = w."pumpModelId" WHERE w."id" = ?',
  pump: 'SELECT m."name" FROM "Well" w JOIN "PumpModel" m ON m."id" = w."pumpModelId" WHERE w."id" = ?',
  cartridge:
    'SELECT m."name" FROM "Well" w JOIN "CartridgeModel" m ON m."id" = w."cartridgeModelId" WHERE w."id" = ?',
  'o-rings':
    'SELECT m."oRing" AS "name" FROM "Well" w JOIN "CartridgeModel" m ON m."id" = w."cartridgeModelId" WHERE w."id" = ?',
}

function ofModels(sqlite: Database.Database, wellId: string, part: string): string[] {
  const sql = OF_MODELS[part]
  const name = sql ? prepared<{ name: string | null }>(sqlite, sql).get(wellId)?.name : null
  return name ? [name] : []
}
