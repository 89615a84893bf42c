/**
 * Writes the next migration: `node lib/cli/run.mjs lib/cli/migration.ts NAME [EARLIER_SCHEMA]`.
 * EARLIER_SCHEMA is a file holding the schema as last released (for instance from `git show`);
 * left out, the migration starts from an empty database.
 */
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { migrationSql } from '../records/migrate'

const [name, earlierFile] = process.argv.slice(2)
if (!name || !/^[a-z0-9_]+$/.test(name)) {
  console.error('Name the migration in lower case with underscores, for instance add_photos.')
  process.exit(2)
}

const scratch = await mkdtemp(join(tmpdir(), 'wellround-'))
try {
  const earlier = earlierFile ? await readFile(earlierFile, 'utf8') : null
  const sql = await migrationSql(join(scratch, 'scratch.db'), earlier)
  if (!/\b(CREATE|ALTER|DROP)\b/.test(sql)) {
    console.log('Nothing changed between the two schemas. Nothing written.')
  } else {
    const stamp = new Date().toISOString().replace(/\D/g, '').slice(0, 14)
    const folder = join('prisma', 'migrations', `${stamp}_${name}`)
    await mkdir(folder, { recursive: true })
    await writeFile(join(folder, 'migration.sql'), sql)
    console.log(`Written: ${folder}/migration.sql. Read it before you commit it.`)
  }
} finally {
  await rm(scratch, { recursive: true, force: true })
}
