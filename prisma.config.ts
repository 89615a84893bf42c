import { defineConfig } from 'prisma/config'

// `prisma generate`, `validate` and `format` need no schema engine. Naming an existing
// program keeps the command line tool from trying to download one.
process.env.PRISMA_SCHEMA_ENGINE_BINARY ??= process.execPath

export default defineConfig({
  schema: 'prisma/schema.prisma',
  migrations: { path: 'prisma/migrations' },
})
