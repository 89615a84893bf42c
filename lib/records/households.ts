import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Db } from './db'
import { type InvitationRow, invitationsOf } from './invitations'
import { prepared } from './statements'
import { keyOf } from './well-fields'

export type HouseholdRow = { id: string; name: string; nameKey: string; wells: number; people: number }

const LIST = `SELECT o."id", o."name", o."nameKey",
  (SELECT COUNT(*) FROM "Well" w WHERE w."ownerId" = o."id" AND w."struck" = 0) AS "wells",
  (SELECT COUNT(*) FROM "Membership" m JOIN "User" u ON u."id" = m."userId"
    WHERE m."ownerId" = o."id" AND m."until" IS NULL AND u."disabled" = 0) AS "people"
  FROM "Owner" o WHERE o."nameKey" > ? AND o."nameKey" >= ? AND o."nameKey" < ? ORDER BY o."nameKey" LIMIT ?`

/**
 * One page of the households in order of name; `search` is how the name begins, `after` the nameKey of the last row
 * before. Throws NotAllowed unless the viewer may manage people.
 */
export function householdList(
  db: Db,
  viewer: Viewer,
  search: string,
  after: string | null,
  limit: number,
): { rows: HouseholdRow[]; next: string | null } {
  demandFleet(viewer, 'user.manage')
  const from = keyOf(search)
  const rows = prepared<HouseholdRow>(db.sqlite, LIST).all(after ?? '', from, `${from}\u{10ffff}`, limit + 1)
  const page = rows.slice(0, limit)
  return { rows: page, next: rows.length > limit ? (page.at(-1)?.nameKey ?? null) : null }
}

export type Household = {
  id: string
  name: string
  phone: string | null
  email: string | null
  wells: { id: string; label: string; name: string | null; retiredOn: string | null }[]
  people: { id: string; name: string; email: string; disabled: boolean }[]
  invitations: InvitationRow[]
}

/** A household with its wells, who can sign in for it, and who was invited. Throws NotAllowed unless the viewer may manage people. */
export async function household(db: Db, viewer: Viewer, ownerId: string): Promise<Household | null> {
  demandFleet(viewer, 'user.manage')
  const owner = prepared<Pick<Household, 'id' | 'name' | 'phone' | 'email'>>(
    db.sqlite,
    'SELECT "id","name","phone","email" FROM "Owner" WHERE "id" = ?',
  ).get(ownerId)
  if (!owner) return null
  const people = await db.prisma.user.findMany({
    where: { memberships: { some: { ownerId, until: null } } },
    select: { id: true, name: true, email: true, disabled: true },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  })
  return {
    ...owner,
    wells: prepared<Household['wells'][number]>(
      db.sqlite,
      'SELECT "id","label","name","retiredOn" FROM "Well" WHERE "ownerId" = ? AND "struck" = 0 ORDER BY "labelKey"',
    ).all(ownerId),
    people,
    invitations: invitationsOf(db, viewer, ownerId),
  }
}
