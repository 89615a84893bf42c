import { z } from 'zod'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { writeChange } from './changes'
import type { Db } from './db'
import { prepared } from './statements'
import { transaction } from './transaction'

const SELECT = 'SELECT "value" FROM "Setting" WHERE "key" = ?'
const UPSERT = `INSERT INTO "Setting" ("key","value","version") VALUES (?,?,1)
  ON CONFLICT ("key") DO UPDATE SET "value" = excluded."value", "version" = "version" + 1`

/** A setting of the outfit, or `otherwise` where it was never set. Throws where the stored text has another shape. */
export function getSetting<T>(db: Db, key: string, schema: z.ZodType<T>, otherwise: T): T {
  const row = prepared<{ value: string }>(db.sqlite, SELECT).get(key)
  return row ? schema.parse(JSON.parse(row.value)) : otherwise
}

/** Sets a setting, with its line in the change record. Throws NotAllowed unless the viewer may. */
export async function putSetting(
  db: Db,
  viewer: Viewer,
  key: string,
  value: unknown,
  at: string,
): Promise<void> {
  demandFleet(viewer, 'setting.edit')
  await transaction(db, () => {
    const before = prepared<{ value: string }>(db.sqlite, SELECT).get(key)
    prepared(db.sqlite, UPSERT).run(key, JSON.stringify(value))
    writeChange(db.sqlite, viewer, at, {
      action: 'setting.set',
      targetKind: 'setting',
      targetId: key,
      before: before ? JSON.parse(before.value) : undefined,
      after: value,
    })
  })
}

const outfitShape = z.object({ name: z.string(), contact: z.string() })
export type Outfit = z.infer<typeof outfitShape>

/** The outfit's name and contact as printed on sheets; '' where not given. */
export function getOutfit(db: Db): Outfit {
  return getSetting(db, OUTFIT_KEY, outfitShape, { name: '', contact: '' })
}

export const OUTFIT_KEY = 'outfit'
