import { describeFact } from '@/lib/domain/logbook/describe'
import {
  type Letter,
  type OfficeNews,
  type OwnerNews,
  writeOfficeLetter,
  writeOwnerLetter,
} from '@/lib/domain/logbook/digest'
import type { Day } from '@/lib/domain/quantity/day'
import { dayFor } from '@/lib/domain/quantity/format'
import { siteUrl } from './auth'
import type { Db } from './db'
import { type ToTell, warnedWells } from './due-to-tell'
import type { MailPerson } from './mail-people'
import { troubledCount } from './mailings'
import { openCount } from './matters'
import { getOutfit } from './settings'

/** Stands in a stored letter for the address that switches mail off: only its hash is kept in the database. */
export const QUIET_MARK = '{quiet}'

/** The letter that tells one person these things, as of `today`. */
export function letterTo(db: Db, person: MailPerson, told: readonly ToTell[], today: Day): Letter {
  const frame = {
    today,
    show: (day: Day) => dayFor(day, person.units),
    outfit: getOutfit(db),
    site: `${siteUrl()}${person.role === 'owner' ? '/own' : '/'}`,
    quiet: QUIET_MARK,
  }
  return person.role === 'owner'
    ? writeOwnerLetter(person.name, ownerNews(db, person, told), frame)
    : writeOfficeLetter(person.name, officeNews(db, person, told), frame)
}

function ownerNews(db: Db, person: MailPerson, told: readonly ToTell[]): OwnerNews {
  const matters = told.flatMap((one) => (one.kind === 'matter' ? [one] : []))
  return {
    lines: told.flatMap((one) => (one.kind === 'due' ? [one] : [])),
    warned: warnedWells(db, person).map(({ well }) => well),
    asked: matters.flatMap(({ matter, well }) => (matter.kind === 'look' ? [well] : [])),
    promised: matters.flatMap(({ matter, well }) =>
      matter.kind === 'visit' ? [{ well, on: matter.promised }] : [],
    ),
  }
}

function officeNews(db: Db, person: MailPerson, told: readonly ToTell[]): OfficeNews {
  return {
    lines: told.flatMap((one) => (one.kind === 'due' ? [one] : [])),
    waiting: openCount(db, person, 'visit'),
    visits: told.flatMap(({ well, ...one }) =>
      one.kind === 'matter' && one.matter.kind === 'visit'
        ? [{ well, urgent: one.matter.urgent, says: describeFact(one.matter.fact, person.units) }]
        : [],
    ),
    looks: openCount(db, person, 'look'),
    troubles: troubledCount(db, person),
  }
}
