import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Db } from './db'
import { prepared } from './statements'
import { keyOf } from './well-fields'
import { wellList } from './well-list'

/** Words that name no single well, with the wells that come near them. */
type NoSuchWell = { text: string; near: string[] }

/** As many near ones as a sentence carries. */
const NEAR_MAX = 5
const LOOKED_AT = 50

const BY_LABEL = 'SELECT "id" FROM "Well" WHERE "labelKey" = ? AND "struck" = 0 AND "retiredOn" IS NULL'

/**
 * The wells that a round can go to, by label, else by their whole name where only one bears it; capitals and spaces do
 * not matter. What fits no single well is told with what comes near, and never guessed. Throws NotAllowed unless the
 * viewer may plan.
 */
export function wellsNamed(
  db: Db,
  viewer: Viewer,
  texts: readonly string[],
): { ids: string[]; unknown: NoSuchWell[] } {
  demandFleet(viewer, 'round.plan')
  const ids: string[] = []
  const unknown: NoSuchWell[] = []
  for (const text of texts) {
    const key = keyOf(text)
    const labelled = prepared<{ id: string }>(db.sqlite, BY_LABEL).get(key)
    if (labelled) {
      ids.push(labelled.id)
      continue
    }
    const { rows, next } = wellList(db, viewer, { search: text }, null, LOOKED_AT)
    const [one, another] = rows.filter((row) => row.name !== null && keyOf(row.name) === key)
    // Where not every hit was looked at, another well may bear the same name.
    if (one && !another && next === null) ids.push(one.id)
    else {
      const near = rows.slice(0, NEAR_MAX).map(({ label, name }) => (name ? `${label} (${name})` : label))
      unknown.push({ text, near })
    }
  }
  return { ids, unknown }
}

/** One sentence a person can act on. */
export function sayUnknown(unknown: readonly NoSuchWell[]): string {
  return unknown
    .map(({ text, near }) =>
      near.length === 0
        ? `No well in use is called ${text}. Write its label or its whole name`
        : `No single well in use is called ${text}. Write the label: ${near.join(', ')}`,
    )
    .join('. ')
}
