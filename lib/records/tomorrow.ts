import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Letter } from '@/lib/domain/logbook/digest'
import type { Day } from '@/lib/domain/quantity/day'
import { untold } from './claim-mail'
import type { Db } from './db'
import { type MailPerson, mailPeople } from './mail-people'
import { reminderSettings } from './reminder-settings'
import { letterTo } from './write-letter'

/**
 * The letters that would go out on `day` as things stand now, one a person; nothing is decided by looking. At most `limit`
 * letters are written; `more` is how many people beyond them would get one. Throws NotAllowed unless the viewer keeps the settings.
 */
export function lettersOn(
  db: Db,
  viewer: Viewer,
  day: Day,
  limit: number,
): { letters: { person: MailPerson; letter: Letter }[]; more: number } {
  demandFleet(viewer, 'setting.edit')
  const choices = reminderSettings(db)
  const letters: { person: MailPerson; letter: Letter }[] = []
  let more = 0
  for (const person of mailPeople(db, choices.officeDigest)) {
    const told = untold(db, person, day, choices)
    if (told.length === 0) continue
    if (letters.length < limit) letters.push({ person, letter: letterTo(db, person, told, day) })
    else more += 1
  }
  return { letters, more }
}
