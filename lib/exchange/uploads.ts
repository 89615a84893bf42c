/** Files that wait to be imported: kept in the data folder, readable by the program alone, for a day at most. */
import { createHash, randomBytes } from 'node:crypto'
import { mkdir, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { z } from 'zod'
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { FILE_BYTES_MAX, sayBytes } from '@/lib/domain/limits'
import { noteSecurity } from '@/lib/records/security-log'
import { shownName } from '@/lib/records/shown-name'
import { fileText } from './text-bytes'
import { unpackWorkbook } from './unpack'

const metaSchema = z.object({
  fileName: z.string(),
  sha256: z.string(),
  size: z.number(),
  userId: z.string().nullable(),
  at: z.string(),
})
export type Upload = z.infer<typeof metaSchema> & { id: string }
export type Kept = { kind: 'kept'; upload: Upload } | { kind: 'refused'; message: string }

export const KEPT_MS = 24 * 60 * 60 * 1000
const ID = /^[0-9a-f]{32}$/

/**
 * Keeps an uploaded file until it is imported. Its name is only shown, never used as a path.
 * `at` is the present instant. Throws NotAllowed unless the viewer may import.
 */
export async function keepUpload(
  dataFolder: string,
  viewer: Viewer,
  fileName: string,
  bytes: Uint8Array,
  at: string,
): Promise<Kept> {
  demandFleet(viewer, 'import.run')
  if (bytes.length === 0) return { kind: 'refused', message: 'The file is empty.' }
  if (bytes.length > FILE_BYTES_MAX) {
    return {
      kind: 'refused',
      message: `The file is larger than ${sayBytes(FILE_BYTES_MAX)}. Split it in parts.`,
    }
  }
  if (fileText(bytes).kind === 'workbook') {
    const unpacked = await unpackWorkbook(bytes)
    if (unpacked.kind === 'refused') {
      const line = { what: 'file-refused', by: viewer.userId, about: 'import' } as const
      if (unpacked.hostile) noteSecurity({ file: join(dataFolder, 'wellround.db') }, line)
      return { kind: 'refused', message: unpacked.message }
    }
  }
  const id = randomBytes(16).toString('hex')
  const meta = {
    fileName: shownName(fileName),
    sha256: createHash('sha256').update(bytes).digest('hex'),
    size: bytes.length,
    userId: viewer.userId,
    at,
  }
  await mkdir(folderOf(dataFolder), { recursive: true, mode: 0o700 })
  await writeFile(pathOf(dataFolder, id), bytes, { mode: 0o600, flag: 'wx' })
  await writeFile(`${pathOf(dataFolder, id)}.json`, JSON.stringify(meta), { mode: 0o600, flag: 'wx' })
  return { kind: 'kept', upload: { id, ...meta } }
}

/** The upload of that id with its bytes; null where there is none of this viewer's, whether it exists or not. */
export async function openUpload(
  dataFolder: string,
  viewer: Viewer,
  id: string,
): Promise<{ upload: Upload; bytes: Buffer } | null> {
  demandFleet(viewer, 'import.run')
  if (!ID.test(id)) return null
  const text = await readIfThere(`${pathOf(dataFolder, id)}.json`)
  const bytes = await readIfThere(pathOf(dataFolder, id))
  if (!text || !bytes) return null
  const meta = metaSchema.parse(JSON.parse(text.toString('utf8')))
  return meta.userId === viewer.userId ? { upload: { id, ...meta }, bytes } : null
}

/** Removes an upload; nothing happens where it is gone already. */
export async function dropUpload(dataFolder: string, id: string): Promise<void> {
  if (!ID.test(id)) return
  await rm(pathOf(dataFolder, id), { force: true })
  await rm(`${pathOf(dataFolder, id)}.json`, { force: true })
}

/** Removes what has waited for more than a day; answers how many files. `now` in ms since 1970. */
export async function sweepUploads(dataFolder: string, now: number): Promise<number> {
  await mkdir(folderOf(dataFolder), { recursive: true, mode: 0o700 })
  let removed = 0
  for (const name of await readdir(folderOf(dataFolder))) {
    const path = join(folderOf(dataFolder), name)
    if (now - (await stat(path)).mtimeMs <= KEPT_MS) continue
    await rm(path, { force: true })
    removed += 1
  }
  return removed
}

const folderOf = (dataFolder: string) => join(dataFolder, 'uploads')
const pathOf = (dataFolder: string, id: string) => join(folderOf(dataFolder), id)

async function readIfThere(path: string): Promise<Buffer | null> {
  try {
    return await readFile(path)
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return null
    throw error
  }
}
