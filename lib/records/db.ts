import { chmodSync, statSync } from 'node:fs'
import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3'
import Database from 'better-sqlite3'
import { PrismaClient } from './generated/client'
import { checkPlace, checkSettings, type Settings } from './soundness'
import { currentlyHeld, exclusively } from './turns'

/**
 * The two doors to the database file, both in this folder and nowhere else.
 *
 * `prisma` serves the register, accounts and settings. `sqlite` serves what must be one
 * indivisible, fast step: recording entries with their standings, imports, and the lists.
 * They are two connections to one file in one process; every write of either takes its turn
 * (see ./turns), because a second writer in the middle of a transaction is refused by SQLite.
 */
export type Db = { prisma: PrismaClient; sqlite: Database.Database; file: string; close(): Promise<void> }

const WRITES = new Set([
  'create',
  'createMany',
  'createManyAndReturn',
  'update',
  'updateMany',
  'updateManyAndReturn',
  'upsert',
  'delete',
  'deleteMany',
])

/** Opens a migrated database file; throws, in plain words, when the set-up could lose what people write. */
export async function openDb(file: string): Promise<Db> {
  checkPlace(file)
  const sqlite = new Database(file)
  // Its log and index take the mode over when they are made.
  keepToOwner(file)
  sqlite.pragma('journal_mode = WAL')
  sqlite.pragma('synchronous = FULL')
  sqlite.pragma('foreign_keys = ON')
  sqlite.pragma('busy_timeout = 5000')
  const prisma = new PrismaClient({
    adapter: new PrismaBetterSqlite3({ url: `file:${file}`, timeout: 5000 }),
  })
  await prisma.$executeRaw`PRAGMA synchronous = FULL`
  await prisma.$executeRaw`PRAGMA foreign_keys = ON`
  checkSettings(file, 'sqlite', readSettings(sqlite))
  checkSettings(file, 'prisma', await readPrismaSettings(prisma))
  return {
    prisma: inTurns(prisma),
    sqlite,
    file,
    async close() {
      await prisma.$disconnect()
      sqlite.close()
    },
  }
}

/** Nobody else on this machine reads it, whatever mask the process was started with. */
export function keepToOwner(file: string): void {
  const stat = statSync(file, { throwIfNoEntry: false })
  if (stat && (stat.mode & 0o077) !== 0) chmodSync(file, 0o600)
}

function readSettings(sqlite: Database.Database): Settings {
  return {
    journalMode: String(sqlite.pragma('journal_mode', { simple: true })),
    synchronous: Number(sqlite.pragma('synchronous', { simple: true })),
    foreignKeys: Number(sqlite.pragma('foreign_keys', { simple: true })),
    busyTimeoutMs: Number(sqlite.pragma('busy_timeout', { simple: true })),
    sqliteVersion: String(sqlite.prepare('SELECT sqlite_version()').pluck().get()),
  }
}

async function readPrismaSettings(prisma: PrismaClient): Promise<Settings> {
  const one = async (query: Promise<Record<string, unknown>[]>) => Object.values((await query)[0] ?? {})[0]
  return {
    journalMode: String(await one(prisma.$queryRaw`PRAGMA journal_mode`)),
    synchronous: Number(await one(prisma.$queryRaw`PRAGMA synchronous`)),
    foreignKeys: Number(await one(prisma.$queryRaw`PRAGMA foreign_keys`)),
    busyTimeoutMs: Number(await one(prisma.$queryRaw`PRAGMA busy_timeout`)),
    sqliteVersion: String(await one(prisma.$queryRaw`SELECT sqlite_version() AS v`)),
  }
}

/** Makes each single write of Prisma take its turn, unless its caller already holds one. */
function inTurns(prisma: PrismaClient): PrismaClient {
  const extended = prisma.$extends({
    query: {
      $allModels: {
        $allOperations({ operation, args, query }) {
          if (!WRITES.has(operation) || currentlyHeld()) return query(args)
          return exclusively(() => query(args))
        },
      },
    },
  })
  // The extension adds no members; the plain type keeps every signature in this folder short.
  return extended as unknown as PrismaClient
}
