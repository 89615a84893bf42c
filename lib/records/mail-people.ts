import type { Role, Viewer } from '@/lib/access/viewer'
import type { Db } from './db'
import { householdIdsOf } from './memberships'
import { prepared } from './statements'

/** Somebody who may get mail, with what they may see. */
export type MailPerson = Viewer & { userId: string; email: string; role: 'owner' | 'installer' }

type Row = { id: string; name: string; email: string; role: Role; units: string }

const SELECT = `SELECT u."id", u."name", u."email", u."role", u."units" FROM "User" u
  LEFT JOIN "MailChoice" c ON c."userId" = u."id"
  WHERE u."disabled" = 0 AND COALESCE(c."off", 0) = 0 AND u."role" IN ('owner', 'installer')`

/** Everybody who gets reminders: people of households, and installers where the office has its digest; nobody shut out or switched off. */
export function mailPeople(db: Db, officeToo: boolean): MailPerson[] {
  return prepared<Row>(db.sqlite, `${SELECT} ORDER BY u."id"`)
    .all()
    .map((row) => personOf(db, row))
    .filter(({ role }) => role === 'owner' || officeToo)
}

/** One of them; null for anybody who gets no mail now. */
export function mailPerson(db: Db, userId: string): MailPerson | null {
  const row = prepared<Row>(db.sqlite, `${SELECT} AND u."id" = ?`).get(userId)
  return row ? personOf(db, row) : null
}

function personOf(db: Db, { id, name, email, role, units }: Row): MailPerson {
  return {
    userId: id,
    name,
    email,
    role: role === 'owner' ? 'owner' : 'installer',
    ownerIds: role === 'owner' ? householdIdsOf(db, id) : [],
    units: units === 'metric' ? 'metric' : 'us',
  }
}
