import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { partsAtWell, partsOfDuty } from '@/lib/domain/logbook/duty-parts'
import { modelKey } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { Db } from './db'
import { dutyKeysDue } from './due-list'
import { modelsInPlace } from './fitted-items'
import { prepared } from './statements'
import { shelf } from './stock-items'

/** A stop of a round, or a well of a list, with the keys of the duties to be done there. */
export type StopWork = { wellId: string; label: string; dutyKeys: readonly string[] }

/** One kind of part to take along. */
export type PickLine = {
  part: string
  /** As fitted last at those wells; null where no model or size was ever written down there. */
  model: string | null
  /** How many are used up; for `in case` the one that is taken along for all of these wells. */
  count: number
  use: 'used' | 'in case'
  wells: { id: string; label: string }[]
  /** Its item on the shelf; null where the stock book does not have it. */
  itemId: string | null
  /** On the shelf; null where it was never counted: unknown is not none. */
  onShelf: number | null
  /** How many are lacking, 0 where there are enough; null where the shelf is not known. */
  short: number | null
}

/**
 * What to load for a round: the parts that the duties of these stops take, by part, then model.
 *
 * Which parts a duty takes stands in lib/domain/logbook/duty-parts; which model, in what was fitted at that well last
 * (logbook or register of parts), or in its pump or cartridge model. Parts that are used up are added over the stops; of those taken in case they are
 * found worn, one of a model serves the whole round. Bottles, tools and grease are no stock: lib/domain/upkeep/truck.
 *
 * Shape   any number of stops; one well twice counts twice. `label` comes back as given.
 * Cost    three index look-ups a stop and part, and one reading of the shelf.
 * Throws  NotAllowed unless the viewer keeps stock (installer, technician).
 */
export function pickListOf(db: Db, viewer: Viewer, stops: readonly StopWork[]): PickLine[] {
  demandFleet(viewer, 'stock.keep')
  const lines = new Map<string, PickLine>()
  const items = new Map(
    shelf(db, viewer).map((item) => [JSON.stringify([item.part, item.modelKey]), item] as const),
  )
  for (const { wellId, label, dutyKeys } of stops) {
    for (const { part, count, use } of partsAtWell(dutyKeys)) {
      const models = modelsInPlace(db.sqlite, wellId, part)
      const itemOf = (model: string | null) => items.get(JSON.stringify([part, modelKey(model)]))
      // Of several names for what is in place the one counts that the stock book has.
      const model = models.find((name) => itemOf(name)) ?? models[0] ?? null
      const item = itemOf(model)
      const key = JSON.stringify([part, modelKey(model), use])
      const line = lines.get(key) ?? {
        part,
        model: item?.model ?? model,
        count: 0,
        use,
        wells: [],
        itemId: item?.id ?? null,
        onShelf: item?.shelf ?? null,
        short: null,
      }
      line.count = use === 'used' ? line.count + count : Math.max(line.count, count)
      line.wells.push({ id: wellId, label })
      lines.set(key, line)
    }
  }
  return withShortage([...lines.values()].sort(byPart))
}

/** What is used up is taken from the shelf first; what is taken in case has to do with the rest. */
function withShortage(lines: readonly PickLine[]): PickLine[] {
  return lines.map((line) => {
    if (line.onShelf === null) return line
    const used =
      line.use === 'used'
        ? 0
        : (lines.find((other) => other.use === 'used' && other.itemId === line.itemId)?.count ?? 0)
    return { ...line, short: Math.max(0, line.count + used - Math.max(0, line.onShelf)) }
  })
}

const byPart = (a: PickLine, b: PickLine) =>
  compare(a.use === 'used' ? '0' : '1', b.use === 'used' ? '0' : '1') ||
  compare(a.part, b.part) ||
  compare(a.model ?? '', b.model ?? '')

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)

/**
 * What the duties due up to a day will take, past due ones with them: the same lines as for a round of all of them.
 * A duty counts once, however often it would come round in that time.
 * Throws  NotAllowed unless the viewer keeps stock.
 */
export function neededUntil(db: Db, viewer: Viewer, until: Day): PickLine[] {
  demandFleet(viewer, 'stock.keep')
  const stops = new Map<string, { wellId: string; label: string; dutyKeys: string[] }>()
  for (const key of dutyKeysDue(db).filter((dutyKey) => partsOfDuty(dutyKey).length > 0)) {
    const rows = prepared<{ wellId: string; label: string }>(
      db.sqlite,
      `SELECT d."wellId", w."label" FROM "DueItem" d JOIN "Well" w ON w."id" = d."wellId"
       WHERE d."dutyKey" = ? AND d."rank" IN (1, 2, 3) AND d."dueOn" <= ?`,
    ).all(key, until)
    for (const { wellId, label } of rows) {
      const stop = stops.get(wellId) ?? { wellId, label, dutyKeys: [] }
      stop.dutyKeys.push(key)
      stops.set(wellId, stop)
    }
  }
  return pickListOf(
    db,
    viewer,
    [...stops.values()].sort((a, b) => compare(a.label, b.label)),
  )
}
