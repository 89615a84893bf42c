import { OUTFIT, type Role } from '@/lib/access/viewer'
import { createFirstInstaller, createUser } from '@/lib/records/accounts'
import type { Db } from '@/lib/records/db'
import { dueFacets } from '@/lib/records/due-list'
import { drawPassword } from '@/lib/records/passwords'

export type DemoSignIn = { role: Role; name: string; email: string; password: string }

/** The people of Fernhollow who can sign in, and one household of the valley. */
const PEOPLE = [
  { role: 'installer', name: 'Maren', email: 'maren@fernhollow.example' },
  { role: 'technician', name: 'Joss', email: 'joss@fernhollow.example' },
  { role: 'owner', name: 'Ferdy Okonjo', email: 'ferdy@sorrel.example' },
] as const

/**
 * Makes the demo accounts in a database without any, each with a password drawn for this database: a demo
 * that is put on a network must not open to a password that stands in the sources.
 */
export async function makeDemoSignIns(db: Db, at: string): Promise<DemoSignIn[]> {
  const made: DemoSignIn[] = []
  for (const { role, name, email } of PEOPLE) {
    const person = { name, email, password: drawPassword() }
    const ownerId = role === 'owner' ? householdOf(db, name) : null
    const outcome =
      role === 'installer'
        ? await createFirstInstaller(db, person, at)
        : await createUser(db, OUTFIT, { ...person, role, ownerId }, at)
    if (outcome !== 'created') throw new Error(`the demo account of ${name} was refused: ${outcome}`)
    made.push({ role, ...person })
  }
  return made
}

function householdOf(db: Db, name: string): string {
  const household = dueFacets(db, OUTFIT).owners.find((owner) => owner.name === name)
  if (!household) throw new Error(`the demo fleet has no household of ${name}`)
  return household.id
}
