/** Builds the pages when their sources are newer than the last build. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { hashOf, quietly, ROOT, say, step } from './steps.mjs'

const SOURCES = [
  'app',
  'lib',
  'proxy.ts',
  'instrumentation.ts',
  'next.config.ts',
  'tsconfig.json',
  'package-lock.json',
  'prisma/schema.prisma',
]
const NOT_BUILT = new Set([join(ROOT, 'lib', 'records', 'generated'), join(ROOT, 'lib', 'cli')])
const STAMP = join(ROOT, '.next', 'wellround-sources')
const LOCK = join(ROOT, 'node_modules', '.wellround-build')

/** Builds if needed. Of two commands at once the second waits for the first. */
export async function ensureBuilt() {
  if (isFresh()) return
  await inTurn(async () => {
    if (isFresh()) return
    const sources = sourceHash()
    rmSync(STAMP, { force: true })
    await step('Building the pages (about a minute)', () =>
      quietly(process.execPath, [join(ROOT, 'node_modules', 'next', 'dist', 'bin', 'next'), 'build'], {
        NODE_ENV: 'production',
        NEXT_TELEMETRY_DISABLED: '1',
      }),
    )
    await step('Building the pages for phones without signal', async () => {
      const { buildOffline } = await import('./build-offline.mjs')
      await buildOffline()
    })
    writeFileSync(STAMP, sources)
  })
}

function isFresh() {
  return (
    existsSync(STAMP) &&
    existsSync(join(ROOT, '.next', 'BUILD_ID')) &&
    existsSync(join(ROOT, 'public', 'offline', 'worker.js')) &&
    readFileSync(STAMP, 'utf8') === sourceHash()
  )
}

function sourceHash() {
  return hashOf(SOURCES.flatMap((name) => filesUnder(join(ROOT, name))).sort())
}

function filesUnder(path) {
  if (!existsSync(path) || NOT_BUILT.has(path)) return []
  try {
    return readdirSync(path).flatMap((name) => filesUnder(join(path, name)))
  } catch (error) {
    if (error.code === 'ENOTDIR') return [path]
    throw error
  }
}

async function inTurn(work) {
  while (!takeLock()) {
    say('  waiting for another build to end')
    await new Promise((done) => setTimeout(done, 2000))
  }
  try {
    await work()
  } finally {
    rmSync(LOCK, { force: true })
  }
}

/** The lock names its holder, so that one left behind by a killed command does not hold for ever. */
function takeLock() {
  mkdirSync(join(ROOT, 'node_modules'), { recursive: true })
  try {
    writeFileSync(LOCK, String(process.pid), { flag: 'wx' })
    return true
  } catch (error) {
    if (error.code !== 'EEXIST') throw error
  }
  if (!isAlive(Number(readFileSync(LOCK, 'utf8')))) rmSync(LOCK, { force: true })
  return false
}

function isAlive(pid) {
  if (!Number.isInteger(pid) || pid <= 0) return true // being written this moment
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return error.code === 'EPERM'
  }
}
