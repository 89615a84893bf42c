/**
 * What every command needs before it can run: the right Node, the packages, the database client.
 * Plain Node, nothing from packages: on a fresh machine there are none yet.
 */
import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'

export const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '..', '..')

/** A reason to stop that is told in its own words, without a stack. */
export class Stop extends Error {}

/** Runs a command's main function; a Stop ends it with its words and status 1. */
export async function main(work) {
  try {
    process.chdir(ROOT)
    checkNode()
    process.exitCode = (await work()) ?? 0
  } catch (error) {
    if (!(error instanceof Stop)) throw error
    console.error(`\n${error.message}`)
    process.exitCode = 1
  }
}

/** Lines about progress go to standard error, so that a command's own output stays clean. */
export function say(text) {
  process.stderr.write(`${text}\n`)
}

/** Says what is being done, does it, says how long it took. */
export async function step(what, work) {
  const from = performance.now()
  say(`· ${what} …`)
  const answer = await work()
  say(`  done in ${((performance.now() - from) / 1000).toFixed(1)} s`)
  return answer
}

function checkNode() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number)
  const fits = (major === 20 && minor >= 19) || (major === 22 && minor >= 12) || major > 22
  if (!fits) {
    throw new Stop(
      `Wellround needs Node 20.19 or later of 20, or 22.12 or later. This is Node ${process.versions.node}.`,
    )
  }
}

/** Installs the packages when they are missing or older than the lock file. */
export async function ensureInstalled() {
  const lock = join(ROOT, 'package-lock.json')
  const folder = join(ROOT, 'node_modules')
  const stamp = join(folder, '.wellround-lock')
  const want = existsSync(lock)
    ? hashOf([lock, join(ROOT, 'package.json')])
    : hashOf([join(ROOT, 'package.json')])
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === want) return
  if (installedByHand(folder, lock)) {
    writeFileSync(stamp, want)
    return
  }
  const how = existsSync(lock) ? ['ci'] : ['install']
  await step(`Installing packages (npm ${how[0]}; the first time takes some minutes)`, () => npm(how))
  writeFileSync(stamp, want)
}

/** npm leaves a list of what it installed; newer than the lock file, it was made from it. */
function installedByHand(folder, lock) {
  const list = join(folder, '.package-lock.json')
  if (!existsSync(list) || !existsSync(lock)) return false
  return statSync(list).mtimeMs >= statSync(lock).mtimeMs
}

/** Makes the database client from the schema when it is missing or older than the schema. */
export async function ensureGenerated() {
  const folder = join(ROOT, 'lib', 'records', 'generated')
  const stamp = join(folder, '.schema')
  const prisma = join(ROOT, 'node_modules', 'prisma')
  const want = hashOf([join(ROOT, 'prisma', 'schema.prisma'), join(prisma, 'package.json')])
  if (existsSync(join(folder, 'client.ts')) && existsSync(stamp) && readFileSync(stamp, 'utf8') === want)
    return
  await step('Making the database client', () =>
    quietly(process.execPath, [join(prisma, 'build', 'index.js'), 'generate'], {
      CHECKPOINT_DISABLE: '1',
      PRISMA_HIDE_UPDATE_MESSAGE: '1',
    }),
  )
  mkdirSync(folder, { recursive: true })
  writeFileSync(stamp, want)
}

/** SHA-256 over names and contents of files, in the order given. */
export function hashOf(files) {
  const hash = createHash('sha256')
  for (const file of files)
    hash.update(file.slice(ROOT.length)).update('\0').update(readFileSync(file)).update('\0')
  return hash.digest('hex')
}

function npm(args) {
  // Under npm its own program is named in the environment; else the one on the PATH serves.
  const own = process.env.npm_execpath
  const [program, first] = own?.endsWith('.js') ? [process.execPath, [own]] : ['npm', []]
  return quietly(program, [...first, ...args, '--no-audit', '--no-fund'], {}, process.platform === 'win32')
}

/** Runs a program and shows what it said only when it failed. */
export async function quietly(program, args, env = {}, shell = false) {
  const child = spawn(program, args, { cwd: ROOT, env: { ...process.env, ...env }, shell })
  let said = ''
  child.stdout.on('data', (data) => {
    said += data
  })
  child.stderr.on('data', (data) => {
    said += data
  })
  const code = await exitOf(child)
  if (code !== 0) throw new Stop(`${said.trim()}\n\nThis failed: ${[program, ...args].join(' ')}`)
  return said
}

/** Runs a program with this one's own input and output; answers its exit status. */
export function loudly(program, args, env = {}) {
  return exitOf(spawn(program, args, { cwd: ROOT, env: { ...process.env, ...env }, stdio: 'inherit' }))
}

/** The exit status of a child, 128 and its number where a signal ended it. */
export function exitOf(child) {
  return new Promise((done, failed) => {
    child.on('error', failed)
    child.on('exit', (code, signal) => done(code ?? 128 + (SIGNALS[signal] ?? 0)))
  })
}

const SIGNALS = { SIGHUP: 1, SIGINT: 2, SIGKILL: 9, SIGTERM: 15 }
