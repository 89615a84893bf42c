import { randomBytes } from 'node:crypto'
import { mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import type { Db } from './db'

/** What the store asks of a disk; tests put one in its place that fails on purpose. */
export type Disk = {
  makeFolder(path: string): Promise<void>
  /** Writes a new file and waits until it is on the disk; fails where one is there already. */
  writeWhole(path: string, bytes: Uint8Array): Promise<void>
  rename(from: string, to: string): Promise<void>
  /** Waits until what a folder lists is on the disk. */
  settleFolder(path: string): Promise<void>
  read(path: string): Promise<Buffer>
  remove(path: string): Promise<void>
  list(path: string): Promise<string[]>
  /** When a file was last written, ms since 1970. */
  writtenAt(path: string): Promise<number>
}

const NAME = /^[0-9a-f]{32}$/

/**
 * Files outside the web root, each under a name of chance that only its record knows. A file appears under its name whole or
 * not at all. Nothing a person typed is ever part of a path.
 */
export class FileStore {
  constructor(
    private readonly folder: string,
    private readonly disk: Disk = DISK,
  ) {}

  /** Keeps the bytes and answers the name under which they lie. Throws where the disk does. */
  async put(bytes: Uint8Array): Promise<string> {
    const stored = randomBytes(16).toString('hex')
    const path = this.path(stored)
    await this.disk.makeFolder(this.folder)
    await this.disk.writeWhole(`${path}.part`, bytes)
    await this.disk.rename(`${path}.part`, path)
    await this.disk.settleFolder(this.folder)
    return stored
  }

  /** The bytes of a file. Throws where it is not there: a record names it, so that is our fault. */
  read(stored: string): Promise<Buffer> {
    return this.disk.read(this.path(stored))
  }

  /** Removes a file; nothing happens where it is gone already. */
  remove(stored: string): Promise<void> {
    return this.disk.remove(this.path(stored))
  }

  /** Removes every file that is not `known` and was last written before `beforeMs` (since 1970). Answers how many. */
  async sweep(known: ReadonlySet<string>, beforeMs: number): Promise<number> {
    await this.disk.makeFolder(this.folder)
    let removed = 0
    for (const name of await this.disk.list(this.folder)) {
      const path = join(this.folder, name)
      if (known.has(name) || (await this.disk.writtenAt(path)) >= beforeMs) continue
      await this.disk.remove(path)
      removed += 1
    }
    return removed
  }

  private path(stored: string): string {
    if (!NAME.test(stored)) throw new Error(`"${stored}" is not the name of a stored file`)
    return join(this.folder, stored)
  }
}

/** The files that belong to a database lie beside it, in its data folder. */
export function filesOf(db: Pick<Db, 'file'>, disk: Disk = DISK): FileStore {
  return new FileStore(join(dirname(db.file), 'files'), disk)
}

/** The real disk. */
export const DISK: Disk = {
  async makeFolder(path) {
    await mkdir(path, { recursive: true, mode: 0o700 })
  },
  async writeWhole(path, bytes) {
    const file = await open(path, 'wx', 0o600)
    try {
      await file.writeFile(bytes)
      await file.sync()
    } finally {
      await file.close()
    }
  },
  rename,
  async settleFolder(path) {
    const folder = await open(path, 'r')
    try {
      await folder.sync()
    } finally {
      await folder.close()
    }
  },
  read: (path) => readFile(path),
  remove: (path) => rm(path, { force: true }),
  list: (path) => readdir(path),
  writtenAt: async (path) => (await stat(path)).mtimeMs,
}
