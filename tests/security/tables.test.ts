import { execFileSync } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { OUTFIT } from '@/lib/access/viewer'
import { ownWell } from '@/lib/records/own-well'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { WHOLE_TABLES } from '@/lib/records/whole-tables'
import { freshDb } from '../setup/fresh-db'
import {
  asvsRows,
  CLASSES,
  CRYPTOGRAPHY,
  exceptions,
  OWN_WELL_FIELDS,
  securityTables,
  TALKERS,
} from './tables'

const developers = readFileSync('DEVELOPERS.md', 'utf8')

const sources = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name)
    if (path === join('lib', 'records', 'generated')) return []
    if (entry.isDirectory()) return sources(path)
    return /\.(ts|tsx|mjs)$/.test(entry.name) ? [path] : []
  })
const using = (wanted: RegExp) =>
  [...sources('app'), ...sources('lib'), 'proxy.ts', 'instrumentation.ts', 'next.config.ts']
    .filter((path) => wanted.test(readFileSync(path, 'utf8')))
    .sort()

test('the tables for contributors say what the program runs by, and hold the list of exceptions, row by row', () => {
  expect(developers).toContain(securityTables())
  for (const { id } of exceptions()) expect(developers, id).toContain(`| ${id} | `)
  expect(exceptions().length).toBeLessThan(asvsRows().length / 8)
})

test('every table of the database stands in one class of data', () => {
  expect(CLASSES.flatMap(({ tables }) => tables).sort()).toEqual(Object.keys(WHOLE_TABLES).sort())
})

test('every use of cryptography is in the inventory', () => {
  const found = using(/from 'node:crypto'|crypto\.(?:subtle|randomUUID|getRandomValues)/)
  expect(found).toEqual(CRYPTOGRAPHY.flatMap(([, , files]) => files).sort())
})

test('every file that opens a connection or listens is in the list of communications', () => {
  expect(using(/from '(?:node:)?(?:net|http|https|http2|tls|dgram|dns|nodemailer)['/]/)).toEqual([...TALKERS])
})

test('what a household reads of its well is what the table says, field by field', async () => {
  const db = await freshDb()
  const hidden = {
    access: 'CANARY-WAY',
    gateCode: 'CANARY-GATE',
    hazards: 'CANARY-DOG',
    notes: 'CANARY-NOTE',
  }
  const made = await createWell(
    db,
    OUTFIT,
    { ...bareWell('W-1'), ...hidden, ownerName: 'Smith' },
    '2026-11-20T12:00:00.000Z',
  )
  if (made.kind !== 'stored') throw new Error(made.kind)
  const { ownerId } = await db.prisma.well.findUniqueOrThrow({ where: { id: made.id } })
  const viewer = { ...OUTFIT, role: 'owner', ownerIds: [ownerId ?? ''] } as const
  const own = ownWell(db, viewer, made.id)
  expect(Object.keys(own ?? {})).toEqual(OWN_WELL_FIELDS)
  expect(JSON.stringify(own)).not.toContain('CANARY')
})

test('the inventory of packages holds each with its version, its hash and its licence, as many as are locked', () => {
  const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
    packages: Record<string, { version?: string; integrity?: string; license?: string; link?: boolean }>
  }
  const locked = Object.entries(packages).filter(([path, { link }]) => path !== '' && !link)
  const bare = locked.filter(([, { version, integrity }]) => !version || !integrity).map(([path]) => path)
  expect(bare).toEqual([])
  const sbom = JSON.parse(
    execFileSync('npm', ['sbom', '--sbom-format', 'cyclonedx', '--package-lock-only'], {
      encoding: 'utf8',
      maxBuffer: 64 * 1024 * 1024,
      stdio: ['ignore', 'pipe', 'ignore'],
      shell: process.platform === 'win32',
    }),
  ) as { components: { name: string; version: string }[] }
  const nameOf = (path: string) => path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length)
  const both = (names: readonly string[]) => [...new Set(names)].sort()
  expect(both(sbom.components.map(({ name, version }) => `${name}@${version}`))).toEqual(
    both(locked.map(([path, { version }]) => `${nameOf(path)}@${version}`)),
  )
})
