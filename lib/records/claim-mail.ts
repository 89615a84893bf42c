import type { Day } from '@/lib/domain/quantity/day'
import type { ReminderChoices } from '@/lib/domain/upkeep/reminder-settings'
import type { Db } from './db'
import { dueToTell, mattersToTell, type ToTell, warnedWells } from './due-to-tell'
import { newId } from './ids'
import type { MailPerson } from './mail-people'
import { prepared } from './statements'
import { transaction } from './transaction'
import { letterTo } from './write-letter'

/**
 * Decides on the mail of one person for `today`: everything that was never told them goes into it, and is told from then on.
 * One transaction: of two that try at once, one gets it. Answers the mail's id; null where there is nothing to tell.
 */
export function claimMail(
  db: Db,
  person: MailPerson,
  today: Day,
  at: string,
  choices: ReminderChoices,
): Promise<string | null> {
  return transaction(db, () => {
    const told = untold(db, person, today, choices)
    if (told.length === 0) return null
    const id = newId()
    const { subject, text } = letterTo(db, person, told, today)
    prepared(
      db.sqlite,
      `INSERT INTO "Mailing" ("id","userId","kind","forDay","address","subject","text","state","claimedAt")
       VALUES (?,?,?,?,?,?,?,'claimed',?)`,
    ).run(
      id,
      person.userId,
      person.role === 'owner' ? 'owner' : 'office',
      today,
      person.email,
      subject,
      text,
      at,
    )
    for (const { key, itemId, lead, dueOn } of told)
      prepared(
        db.sqlite,
        'INSERT INTO "Reminder" ("key","userId","mailingId","itemId","lead","dueOn") VALUES (?,?,?,?,?,?)',
      ).run(key, person.userId, id, itemId, lead, dueOn)
    return id
  })
}

/** What this person has not been told yet, as of `today`. Nothing is written. */
export function untold(db: Db, person: MailPerson, today: Day, { leadDays }: ReminderChoices): ToTell[] {
  const known = prepared(db.sqlite, 'SELECT 1 FROM "Reminder" WHERE "key" = ?')
  const isTold = (key: string) => known.get(key) !== undefined
  return [
    ...mattersToTell(db, person),
    ...warnings(db, person),
    ...dueToTell(db, person, today, leadDays),
  ].filter(({ key, after }) => !isTold(key) && !after.some(isTold))
}

/** A warning that began is news once; every later mail repeats it as long as it holds. */
function warnings(db: Db, person: MailPerson): ToTell[] {
  return warnedWells(db, person).map(({ wellId, well, chainOn, key }) => ({
    kind: 'warning',
    key: [person.userId, wellId, 'warning', key, chainOn].join('|'),
    after: [],
    itemId: wellId,
    lead: 0,
    dueOn: chainOn,
    wellId,
    well,
    household: null,
  }))
}
