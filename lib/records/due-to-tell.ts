import { reach } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Matter } from '@/lib/domain/logbook/owner-matters'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import { reachedLead, reminderKey } from '@/lib/domain/upkeep/reminders'
import type { Db } from './db'
import { ofHouseholds } from './of-households'
import { prepared } from './statements'

/** Something to be told to one person, once. `key` makes it once; `after` are keys that make it stale. */
export type ToTell = {
  key: string
  after: readonly string[]
  itemId: string
  lead: number
  dueOn: Day
  wellId: string
  well: string
  household: string | null
} & ({ kind: 'due'; what: string; rank: number } | { kind: 'matter'; matter: Matter } | { kind: 'warning' })

type Person = Viewer & { userId: string }

/** What has reached one of the lead times on `today` for this person, health first; told already or not. */
export function dueToTell(db: Db, person: Person, today: Day, leadDays: readonly number[]): ToTell[] {
  const scope = scopeOf(person)
  if (!scope) return []
  const until = addDays(today, Math.max(...leadDays))
  return prepared<DueRow>(
    db.sqlite,
    `${DUE} AND ${scope.sql} AND d."dueOn" <= ? ORDER BY d."rank", d."dueOn", d."id"`,
  )
    .all(...scope.values, until)
    .flatMap((row): ToTell[] => {
      const lead = reachedLead(row.dueOn, today, leadDays)
      if (lead === null) return []
      const turn = { ...row, ofDuty: row.ofDuty === 1 }
      const key = (days: number) => reminderKey(person.userId, turn, days)
      return [
        {
          kind: 'due',
          key: key(lead),
          after: leadDays.filter((days) => days < lead).map(key),
          itemId: row.itemId,
          lead,
          dueOn: row.dueOn,
          wellId: row.wellId,
          well: row.wellName ?? row.label,
          household: row.ownerName,
          what: row.dutyName,
          rank: row.rank,
        },
      ]
    })
}

type DueRow = {
  itemId: string
  dueOn: string
  lastDoneOn: string | null
  ofDuty: 0 | 1
  dutyName: string
  rank: number
  wellId: string
  label: string
  wellName: string | null
  ownerName: string | null
}

/** Nothing of a well that is retired or taken out, and no duty that is retired: those have no row. */
const DUE = `SELECT d."id" AS "itemId", d."dueOn", d."lastDoneOn", (u."id" IS NOT NULL) AS "ofDuty", d."dutyName", d."rank",
  w."id" AS "wellId", w."label", w."name" AS "wellName", o."name" AS "ownerName"
  FROM "DueItem" d JOIN "Well" w ON w."id" = d."wellId" LEFT JOIN "Duty" u ON u."id" = d."id"
  LEFT JOIN "Owner" o ON o."id" = w."ownerId"
  WHERE w."struck" = 0 AND w."retiredOn" IS NULL`

/**
 * What stands open between households and outfit and is news to this person: to the office a visit that is asked for, to a
 * household a question and a promised visit. Nothing from before a well came to its household.
 */
export function mattersToTell(db: Db, person: Person): ToTell[] {
  const scope = scopeOf(person)
  if (!scope) return []
  return prepared<MatterRow>(db.sqlite, `${MATTERS} AND ${scope.sql} ORDER BY m."later", m."onDay", m."id"`)
    .all(...scope.values)
    .flatMap((row): ToTell[] => {
      const matter = JSON.parse(row.payload) as Matter
      if (!isNews(matter, person.role)) return []
      const promised = matter.kind === 'visit' ? (matter.promised ?? '') : (matter.question ?? '')
      const told = person.role === 'owner' ? `${matter.state}:${promised}` : 'asked'
      return [
        {
          kind: 'matter',
          key: [person.userId, matter.id, told].join('|'),
          after: [],
          itemId: matter.id,
          lead: 0,
          dueOn: matter.on,
          wellId: row.wellId,
          well: row.wellName ?? row.label,
          household: row.ownerName,
          matter,
        },
      ]
    })
}

function isNews(matter: Matter, role: Person['role']): boolean {
  if (role === 'owner')
    return matter.kind === 'visit' ? matter.state === 'planned' : matter.state === 'queried'
  return matter.kind === 'visit'
}

type MatterRow = {
  payload: string
  wellId: string
  label: string
  wellName: string | null
  ownerName: string | null
}

const MATTERS = `SELECT m."payload", w."id" AS "wellId", w."label", w."name" AS "wellName", o."name" AS "ownerName"
  FROM "Matter" m JOIN "Well" w ON w."id" = m."wellId" LEFT JOIN "Owner" o ON o."id" = w."ownerId"
  WHERE w."struck" = 0 AND w."retiredOn" IS NULL AND (w."heldSince" IS NULL OR m."onDay" >= substr(w."heldSince", 1, 10))`

/** Wells of the person's households whose water has an open chain. */
export function warnedWells(
  db: Db,
  person: Person,
): { wellId: string; well: string; chainOn: Day; key: string }[] {
  const scope = scopeOf(person)
  if (!scope || person.role !== 'owner') return []
  return prepared<{ wellId: string; well: string; chainOn: Day; key: string }>(
    db.sqlite,
    `SELECT w."id" AS "wellId", COALESCE(w."name", w."label") AS "well", s."chainOn", s."chain" AS "key"
     FROM "Well" w JOIN "Standing" s ON s."wellId" = w."id"
     WHERE w."struck" = 0 AND w."retiredOn" IS NULL AND s."chain" IS NOT NULL AND ${scope.sql} ORDER BY w."labelKey"`,
  ).all(...scope.values)
}

/** Which wells a person hears of: an owner those of their households, the office all. */
function scopeOf(person: Person): { sql: string; values: string[] } | null {
  const scope = reach(person, 'well.see')
  if (scope.kind === 'none') return null
  return scope.kind === 'own' ? ofHouseholds('w."ownerId"', scope.ownerIds) : { sql: '1 = 1', values: [] }
}
