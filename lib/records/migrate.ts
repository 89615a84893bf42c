import { existsSync } from 'node:fs'
import { readdir, readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3'
import { bindMigrationAwareSqlAdapterFactory, type SqlDriverAdapter } from '@prisma/driver-adapter-utils'
import type { MigrationList, SchemaEngine } from '@prisma/schema-engine-wasm'
import Database from 'better-sqlite3'
import { UnsafeSetup } from './soundness'

const NO_FILTERS = { externalTables: [], externalEnums: [] }

/**
 * Brings a database file to the newest schema: applies what prisma/migrations holds and the
 * file has not seen, in Prisma's own layout and with Prisma's own bookkeeping.
 *
 * Answer  the names applied now; empty when the file was up to date.
 * Throws  what the engine throws: a migration that fails, or a file written by a newer version
 *         of the program (its history holds a migration that this one does not know).
 */
export async function migrate(databaseFile: string, root = process.cwd()): Promise<string[]> {
  const migrationsList = await readMigrations(root)
  refuseNewerDatabase(databaseFile, migrationsList)
  return withEngine(databaseFile, root, async (engine) => {
    const { appliedMigrationNames } = await engine.applyMigrations({ migrationsList, filters: NO_FILTERS })
    return appliedMigrationNames
  })
}

/** A file from a later version may hold columns that this one would silently drop: leave it alone. */
function refuseNewerDatabase(databaseFile: string, known: MigrationList): void {
  if (!existsSync(databaseFile)) return
  const db = new Database(databaseFile, { readonly: true })
  try {
    const hasHistory = db
      .prepare("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = '_prisma_migrations'")
      .get()
    if (!hasHistory) return
    const names = new Set(known.migrationDirectories.map((directory) => directory.path))
    const stranger = db
      .prepare<[], string>('SELECT migration_name FROM _prisma_migrations ORDER BY migration_name')
      .pluck()
      .all()
      .find((name) => !names.has(name))
    if (stranger) {
      throw new UnsafeSetup(
        `This database was written by a newer version of Wellround (it knows the step "${stranger}"). Start that version, or restore a backup made before the upgrade.`,
      )
    }
  } finally {
    db.close()
  }
}

/**
 * SQL that leads from an earlier schema to the present prisma/schema.prisma.
 *
 * `earlierSchema` is the text of a schema file; null stands for an empty database.
 */
export async function migrationSql(
  scratchFile: string,
  earlierSchema: string | null,
  root = process.cwd(),
): Promise<string> {
  const schema = await readSchema(root)
  return withEngine(scratchFile, root, async (engine) => {
    const { stdout } = await engine.diff({
      from:
        earlierSchema === null
          ? { tag: 'empty' }
          : { tag: 'schemaDatamodel', files: [{ path: 'earlier.prisma', content: earlierSchema }] },
      to: { tag: 'schemaDatamodel', files: [schema] },
      script: true,
      exitCode: null,
      filters: NO_FILTERS,
    })
    return stdout ?? ''
  })
}

async function readSchema(root: string) {
  const path = join(root, 'prisma', 'schema.prisma')
  return { path, content: await readFile(path, 'utf8') }
}

async function readMigrations(root: string): Promise<MigrationList> {
  const baseDir = join(root, 'prisma', 'migrations')
  const names = (await readdir(baseDir, { withFileTypes: true }))
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort()
  return {
    baseDir,
    lockfile: {
      path: 'migration_lock.toml',
      content: await readFile(join(baseDir, 'migration_lock.toml'), 'utf8'),
    },
    shadowDbInitScript: '',
    migrationDirectories: await Promise.all(
      names.map(async (name) => ({
        path: name,
        migrationFile: {
          path: 'migration.sql',
          content: {
            tag: 'ok' as const,
            value: await readFile(join(baseDir, name, 'migration.sql'), 'utf8'),
          },
        },
      })),
    ),
  }
}

/**
 * Prisma publishes its schema engine as WebAssembly too. We load that one, because the usual
 * native engine is downloaded at install time and a well outfit's server may have no way out.
 */
async function withEngine<T>(
  databaseFile: string,
  root: string,
  use: (engine: SchemaEngine) => Promise<T>,
): Promise<T> {
  glueLoading ??= loadGlue(root)
  const glue = await glueLoading
  const schema = await readSchema(root)
  const factory = new PrismaBetterSqlite3({ url: `file:${databaseFile}` })
  const opened: SqlDriverAdapter[] = []
  const remember = async (connecting: Promise<SqlDriverAdapter>) => {
    const connection = await connecting
    opened.push(connection)
    return connection
  }
  // The engine leaves its connections open, and they would keep the file locked: we close them.
  const adapter = bindMigrationAwareSqlAdapterFactory({
    provider: factory.provider,
    adapterName: factory.adapterName,
    connect: () => remember(factory.connect()),
    connectToShadowDb: () => remember(factory.connectToShadowDb()),
  })
  const engine = await glue.SchemaEngine.new(
    { datamodels: [[schema.path, schema.content]] },
    () => {
      // The engine's own log lines; failures come back as rejected calls.
    },
    adapter,
  )
  try {
    return await use(engine)
  } finally {
    engine.free()
    for (const connection of opened) await connection.dispose()
  }
}

type Glue = typeof import('@prisma/schema-engine-wasm/schema_engine_bg')

/** The engine's glue code keeps one instance in a variable of its own: a second one would pull it from under the first. */
let glueLoading: Promise<Glue> | null = null

async function loadGlue(root: string): Promise<Glue> {
  const glueFile = createRequire(join(root, 'package.json')).resolve(
    '@prisma/schema-engine-wasm/schema_engine_bg',
  )
  const glue = await import('@prisma/schema-engine-wasm/schema_engine_bg')
  const bytes = await readFile(join(dirname(glueFile), 'schema_engine_bg.wasm'))
  const { instance } = await WebAssembly.instantiate(bytes, {
    './schema_engine_bg.js': glue as WebAssembly.ModuleImports,
  })
  glue.__wbg_set_wasm(instance.exports)
  const start = instance.exports.__wbindgen_start
  if (typeof start === 'function') start()
  return glue
}
