import { existsSync, lstatSync, readFileSync, realpathSync } from 'node:fs'
import { dirname, resolve } from 'node:path'

/** What a connection says of itself. */
export type Settings = {
  journalMode: string
  synchronous: number
  foreignKeys: number
  busyTimeoutMs: number
  sqliteVersion: string
}

/** A set-up in which what people write could be lost. The message says what to do. */
export class UnsafeSetup extends Error {
  constructor(message: string) {
    super(message)
    this.name = 'UnsafeSetup'
  }
}

/** Below this, SQLite's write-ahead log could corrupt a file (fixed 13 March 2026 in 3.51.3). */
const SQLITE_MINIMUM = [3, 51, 3] as const

const NETWORK_FILE_SYSTEMS = new Set([
  'nfs',
  'nfs4',
  'cifs',
  'smb3',
  'smbfs',
  'fuse.sshfs',
  '9p',
  'afs',
  'ncpfs',
  'fuse.glusterfs',
  'ceph',
])

/** Throws UnsafeSetup unless the file lies in a plain place on a local disk. */
export function checkPlace(file: string, mounts = readMounts()): void {
  if (file === ':memory:' || file === '') {
    throw new UnsafeSetup('The database must be a file: a database in memory is gone when the program stops.')
  }
  for (const path of [file, `${file}-wal`, `${file}-shm`]) {
    if (existsSync(/*turbopackIgnore: true*/ path) && lstatSync(path).isSymbolicLink()) {
      throw new UnsafeSetup(
        `${path} is a link. SQLite can lose its log when a database is opened under two names. Set WELLROUND_DATA to the real folder.`,
      )
    }
  }
  if (existsSync(/*turbopackIgnore: true*/ file) && lstatSync(file).nlink > 1) {
    throw new UnsafeSetup(
      `${file} has a second name (a hard link). Copy it to a file of its own and use that.`,
    )
  }
  const kind = fileSystemOf(file, mounts)
  if (kind && NETWORK_FILE_SYSTEMS.has(kind)) {
    throw new UnsafeSetup(
      `${file} is on a network file system (${kind}), where SQLite's log does not work. Move WELLROUND_DATA to a local disk.`,
    )
  }
}

/** Throws UnsafeSetup unless the connection keeps what it has acknowledged through a power cut. */
export function checkSettings(file: string, door: string, settings: Settings): void {
  const refuse = (what: string) => {
    throw new UnsafeSetup(`The database ${file} cannot be used safely (${door} connection): ${what}`)
  }
  if (settings.journalMode.toLowerCase() !== 'wal') {
    refuse(
      `its journal mode is "${settings.journalMode}" and must be "wal". Check that the folder can be written to.`,
    )
  }
  if (settings.synchronous !== 2) refuse(`synchronous is ${settings.synchronous} and must be 2 (FULL).`)
  if (settings.foreignKeys !== 1) refuse('foreign keys are off and must be on.')
  if (settings.busyTimeoutMs < 5000)
    refuse(`the waiting time for locks is ${settings.busyTimeoutMs} ms, at least 5000 is needed.`)
  if (isOlder(settings.sqliteVersion)) {
    refuse(
      `SQLite ${settings.sqliteVersion} has a known fault that can corrupt files; ${SQLITE_MINIMUM.join('.')} or later is needed. Run npm ci.`,
    )
  }
}

/** What to say to whoever starts it as the user who may do everything; null for everybody else, and where there are no users. */
export function saysRoot(userId: number | undefined): string | null {
  return userId === 0
    ? 'This runs as root, who may change every file of the machine. Give it a user of its own that owns the data folder and nothing else.'
    : null
}

function isOlder(version: string): boolean {
  const parts = version.split('.').map(Number)
  for (const [i, need] of SQLITE_MINIMUM.entries()) {
    const have = parts[i] ?? 0
    if (have !== need) return have < need
  }
  return false
}

type Mount = { point: string; kind: string }

/** Empty where the system does not tell (outside Linux): then the file system is not checked. */
function readMounts(): Mount[] {
  if (!existsSync('/proc/mounts')) return []
  return readFileSync('/proc/mounts', 'utf8')
    .split('\n')
    .map((line) => line.split(' '))
    .flatMap(([, point, kind]) => (point && kind ? [{ point: point.replaceAll('\\040', ' '), kind }] : []))
}

function fileSystemOf(file: string, mounts: readonly Mount[]): string | null {
  const folder = dirname(resolve(file))
  const real = existsSync(folder) ? realpathSync(folder) : folder
  const holding = mounts
    .filter(({ point }) => real === point || real.startsWith(point.endsWith('/') ? point : `${point}/`))
    .sort((a, b) => b.point.length - a.point.length)
  return holding[0]?.kind ?? null
}
