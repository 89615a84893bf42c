import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { migrate } from '../../lib/records/migrate'

/** One migrated database for the whole run, which freshDb copies: migrating anew for each file would take most of the time. */
export default async function setup() {
  const folder = mkdtempSync(join(tmpdir(), 'wellround-migrated-'))
  const file = join(folder, 'migrated.db')
  await migrate(file)
  process.env.WELLROUND_TEST_TEMPLATE = file
  return () => rmSync(folder, { recursive: true, force: true })
}
