import { demandFleet } from '@/lib/access/rules'
import { OUTFIT, type Role, type Viewer } from '@/lib/access/viewer'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import type { Db } from './db'
import type { Prisma } from './generated/client'
import { newId } from './ids'
import { newWellDefaults } from './new-well-defaults'
import { hashPassword } from './passwords'
import { noteSecurity } from './security-log'
import { roleOf } from './sessions'
import { exclusively } from './turns'

export type NewPerson = { name: string; email: string; password: string }
export type Person = { id: string; name: string; email: string; role: Role; disabled: boolean }

/** Whether anybody can sign in yet. */
export async function hasUsers(db: Db): Promise<boolean> {
  return (await db.prisma.user.count()) > 0
}

/**
 * The first account of a fresh database, an installer. Of two people who try at once one gets it.
 * Answers 'not-first' when there is an account already.
 */
export async function createFirstInstaller(
  db: Db,
  person: NewPerson,
  at: string,
): Promise<'created' | 'not-first'> {
  if (await hasUsers(db)) return 'not-first'
  const passwordHash = await hashPassword(person.password)
  return exclusively(async () => {
    if (await hasUsers(db)) return 'not-first'
    await insertPerson(db, OUTFIT, { ...person, role: 'installer', ownerId: null, passwordHash, at })
    return 'created'
  })
}

/** An account for somebody else. Throws NotAllowed unless the viewer may. An owner's account names its first household. */
export async function createUser(
  db: Db,
  viewer: Viewer,
  person: NewPerson & { role: Role; ownerId: string | null },
  at: string,
): Promise<'created' | 'email-taken'> {
  demandFleet(viewer, 'user.manage')
  const passwordHash = await hashPassword(person.password)
  return exclusively(async () => {
    if (await personWithEmail(db, person.email)) return 'email-taken'
    await insertPerson(db, viewer, { ...person, passwordHash, at })
    return 'created'
  })
}

/** Addresses are stored in lower case, so that one person has one account. */
const emailKey = (email: string) => email.trim().toLowerCase()

type Insert = {
  name: string
  email: string
  role: Role
  ownerId: string | null
  passwordHash: string
  at: string
}

/** Whether an account has this address. */
export async function personWithEmail(db: Db, email: string): Promise<boolean> {
  return (await db.prisma.user.count({ where: { email: emailKey(email) } })) > 0
}

/** The person, their password, the line in the change record and what else goes with it, all or nothing. Call within a turn. */
export async function insertPerson(
  db: Db,
  viewer: Viewer,
  person: Insert,
  more: readonly Prisma.PrismaPromise<unknown>[] = [],
): Promise<void> {
  const id = newId()
  const email = emailKey(person.email)
  const { name, role, ownerId, passwordHash } = person
  await db.prisma.$transaction([
    db.prisma.user.create({
      data: {
        id,
        name,
        email,
        role,
        units: newWellDefaults(db).units,
        ...(ownerId === null ? {} : { memberships: { create: { ownerId, since: person.at.slice(0, 10) } } }),
        accounts: {
          create: { id: newId(), accountId: id, providerId: 'credential', password: passwordHash },
        },
      },
    }),
    changeOfUser(db, viewer, person.at, 'user.create', id, undefined, { name, email, role, ownerId }),
    ...more,
  ])
}

/** Everybody who can or could sign in, by name. Throws NotAllowed unless the viewer may manage them. */
export async function listPeople(db: Db, viewer: Viewer): Promise<Person[]> {
  demandFleet(viewer, 'user.manage')
  const rows = await db.prisma.user.findMany({
    select: { id: true, name: true, email: true, role: true, disabled: true },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  })
  return rows.map((row) => ({ ...row, role: roleOf(row.role) }))
}

/**
 * Lets somebody in again, or shuts them out: their sessions end at once, what they wrote stays.
 * 'yourself' where the viewer names their own account, so that an outfit cannot lose its last installer.
 */
export async function setDisabled(
  db: Db,
  viewer: Viewer,
  userId: string,
  disabled: boolean,
  at: string,
): Promise<'done' | 'no-such-person' | 'yourself'> {
  demandFleet(viewer, 'user.manage')
  if (userId === viewer.userId) return 'yourself'
  return exclusively(async () => {
    const before = await db.prisma.user.findUnique({ where: { id: userId }, select: { disabled: true } })
    if (!before) return 'no-such-person'
    await db.prisma.$transaction([
      db.prisma.user.update({ where: { id: userId }, data: { disabled } }),
      ...(disabled ? [db.prisma.session.deleteMany({ where: { userId } })] : []),
      changeOfUser(db, viewer, at, disabled ? 'user.disable' : 'user.enable', userId, before, { disabled }),
    ])
    noteSecurity(db, { what: disabled ? 'shut-out' : 'let-in', by: viewer.userId, about: userId })
    return 'done'
  })
}

/**
 * Gives somebody a new password without the old one, for who forgot theirs; all their sessions end.
 * For commands run on the server and for whoever manages people.
 */
export async function resetPassword(
  db: Db,
  viewer: Viewer,
  userId: string,
  password: string,
  at: string,
): Promise<'done' | 'no-such-person'> {
  demandFleet(viewer, 'user.manage')
  const passwordHash = await hashPassword(password)
  return exclusively(async () => {
    const where = { userId, providerId: 'credential' }
    if ((await db.prisma.account.count({ where })) === 0) return 'no-such-person'
    await db.prisma.$transaction([
      db.prisma.account.updateMany({ where, data: { password: passwordHash } }),
      db.prisma.session.deleteMany({ where: { userId } }),
      changeOfUser(db, viewer, at, 'user.reset-password', userId, undefined, undefined),
    ])
    noteSecurity(db, { what: 'password-reset', by: viewer.userId, about: userId })
    return 'done'
  })
}

/** The viewer's own name and units. */
export async function updateProfile(
  db: Db,
  viewer: Viewer & { userId: string },
  profile: { name: string; units: UnitSystem },
  at: string,
): Promise<void> {
  const before = { name: viewer.name, units: viewer.units }
  await exclusively(() =>
    db.prisma.$transaction([
      db.prisma.user.update({ where: { id: viewer.userId }, data: profile }),
      changeOfUser(db, viewer, at, 'user.profile', viewer.userId, before, profile),
    ]),
  )
}

export type OpenSession = { id: string; startedAt: Date; lastUsedAt: Date; browser: string | null }

/** Where the viewer is signed in now, newest first. */
export async function listSessions(db: Db, viewer: Viewer & { userId: string }): Promise<OpenSession[]> {
  const rows = await db.prisma.session.findMany({
    where: { userId: viewer.userId, expiresAt: { gt: new Date() } },
    orderBy: { createdAt: 'desc' },
    select: { id: true, createdAt: true, updatedAt: true, userAgent: true },
  })
  return rows.map((row) => ({
    id: row.id,
    startedAt: row.createdAt,
    lastUsedAt: row.updatedAt,
    browser: row.userAgent || null,
  }))
}

/** Ends every session of the viewer, this one too. */
export async function endAllSessions(db: Db, viewer: Viewer & { userId: string }): Promise<void> {
  await db.prisma.session.deleteMany({ where: { userId: viewer.userId } })
}

/** Ends one session of the viewer's. */
export async function endSession(
  db: Db,
  viewer: Viewer & { userId: string },
  sessionId: string,
): Promise<void> {
  await db.prisma.session.deleteMany({ where: { id: sessionId, userId: viewer.userId } })
}

/** Signs somebody else out everywhere. Throws NotAllowed unless the viewer may manage people. */
export async function signOutPerson(
  db: Db,
  viewer: Viewer,
  userId: string,
  at: string,
): Promise<'done' | 'no-such-person'> {
  demandFleet(viewer, 'user.manage')
  return exclusively(async () => {
    if ((await db.prisma.user.count({ where: { id: userId } })) === 0) return 'no-such-person'
    await db.prisma.$transaction([
      db.prisma.session.deleteMany({ where: { userId } }),
      changeOfUser(db, viewer, at, 'user.sign-out', userId, undefined, undefined),
    ])
    return 'done'
  })
}

/**
 * Makes a technician an installer, or an installer a technician; their sessions end, so that none was begun with other rights.
 * 'yourself' for the viewer's own account, 'no-such-person' for an owner's too. Throws NotAllowed unless the viewer may.
 */
export async function setRole(
  db: Db,
  viewer: Viewer,
  userId: string,
  role: 'installer' | 'technician',
  at: string,
): Promise<'done' | 'no-such-person' | 'yourself'> {
  demandFleet(viewer, 'user.manage')
  if (userId === viewer.userId) return 'yourself'
  return exclusively(async () => {
    const before = await db.prisma.user.findUnique({ where: { id: userId }, select: { role: true } })
    if (!before || before.role === 'owner') return 'no-such-person'
    await db.prisma.$transaction([
      db.prisma.user.update({ where: { id: userId }, data: { role } }),
      db.prisma.session.deleteMany({ where: { userId } }),
      changeOfUser(db, viewer, at, 'user.role', userId, before, { role }),
    ])
    noteSecurity(db, { what: 'role-changed', by: viewer.userId, about: `${userId} ${role}` })
    return 'done'
  })
}

function changeOfUser(
  db: Db,
  viewer: Viewer,
  at: string,
  action: string,
  userId: string,
  before: unknown,
  after: unknown,
) {
  const text = (value: unknown) => (value === undefined ? null : JSON.stringify(value))
  return db.prisma.change.create({
    data: {
      id: newId(),
      at,
      byUserId: viewer.userId,
      byName: viewer.name,
      action,
      targetKind: 'user',
      targetId: userId,
      before: text(before),
      after: text(after),
    },
  })
}
