/** What a workbook unpacks to, looked at before anything reads it. */
import { promisify } from 'node:util'
import { inflateRaw } from 'node:zlib'
import { zipSync } from 'fflate'

const inflate = promisify(inflateRaw)

/** All parts of a workbook together. The 200,000 rows that an import takes are a fifth of it. */
export const UNPACKED_BYTES_MAX = 300 * 1024 * 1024
/** A workbook has a dozen parts and one a sheet. */
export const PARTS_MAX = 2000

export type Unpacked =
  | { kind: 'sound'; parts: Record<string, Uint8Array> }
  /** Damage, which happens by itself, or what no spreadsheet program writes. */
  | { kind: 'refused'; hostile: boolean; message: string }

/**
 * The parts of a workbook that hold text, unpacked within bounds: how much may come out is set before each part, so that no more
 * is ever in memory, whatever the archive says of itself.
 *
 * Answer  'refused' where it would unpack beyond the bounds, where a part has rules of its own for what a word stands for (a
 *         document type: ECMA-376, part 2, section 8, forbids it, and it is how XML fetches files and grows without end), or
 *         where it is no archive.
 */
export async function unpackWorkbook(bytes: Uint8Array): Promise<Unpacked> {
  const entries = directory(bytes)
  if (entries === null) return refused(false, DAMAGED)
  if (entries.length > PARTS_MAX)
    return refused(true, `This workbook has more than ${PARTS_MAX} parts. ${SPLIT}`)
  let left = UNPACKED_BYTES_MAX
  if (entries.reduce((sum, { size }) => sum + size, 0) > left) return refused(true, TOO_MUCH)
  const parts: Record<string, Uint8Array> = Object.create(null)
  for (const entry of entries.filter(({ name }) => /\.xml(?:\.rels)?$/.test(name))) {
    const part = await unpackPart(bytes, entry, left)
    if (part === 'too-much') return refused(true, TOO_MUCH)
    if (part === 'damaged') return refused(false, DAMAGED)
    if (hasDocumentType(part)) return refused(true, ENTITIES)
    left -= part.length
    parts[entry.name] = part
  }
  return { kind: 'sound', parts }
}

/**
 * The same parts as an archive again, not packed: a reader that looks for parts by itself finds these and no others.
 */
export const packPlain = (parts: Record<string, Uint8Array>): Uint8Array => zipSync(parts, { level: 0 })

const SPLIT = 'Split it, or save the sheet you need as CSV.'
const TOO_MUCH = `This workbook holds more than ${UNPACKED_BYTES_MAX / 1024 / 1024} MB. ${SPLIT}`
const DAMAGED = 'This is a damaged zip file, or none that a spreadsheet program wrote.'
const ENTITIES =
  'This workbook defines words of its own, which no spreadsheet program does. Open it, save it again as .xlsx or CSV, and choose that.'

const refused = (hostile: boolean, message: string): Unpacked => ({ kind: 'refused', hostile, message })

const END_OF_DIRECTORY = 0x06054b50
const DIRECTORY_ENTRY = 0x02014b50
const LOCAL_ENTRY = 0x04034b50

/** Of one file in the archive: how it is packed (0 not, 8 deflated), its bytes packed and, as it says, unpacked. */
type Entry = { name: string; method: number; packed: number; size: number; at: number }

/** What the archive says of its files, from its directory; null where it has none. */
function directory(bytes: Uint8Array): Entry[] | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  let end = bytes.length - 22
  const earliest = Math.max(0, end - 65_535)
  while (end >= earliest && view.getUint32(end, true) !== END_OF_DIRECTORY) end -= 1
  if (end < earliest) return null
  const count = view.getUint16(end + 10, true)
  let at = view.getUint32(end + 16, true)
  const entries: Entry[] = []
  for (let i = 0; i < count; i++) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== DIRECTORY_ENTRY) return null
    const nameLength = view.getUint16(at + 28, true)
    entries.push({
      name: new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameLength)),
      method: view.getUint16(at + 10, true),
      packed: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      at: view.getUint32(at + 42, true),
    })
    at += 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true)
  }
  return entries
}

/** One part; never more than `most` bytes of it are made. */
async function unpackPart(
  bytes: Uint8Array,
  { method, packed, at }: Entry,
  most: number,
): Promise<Uint8Array | 'too-much' | 'damaged'> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (at + 30 > bytes.length || view.getUint32(at, true) !== LOCAL_ENTRY) return 'damaged'
  const from = at + 30 + view.getUint16(at + 26, true) + view.getUint16(at + 28, true)
  const data = bytes.subarray(from, from + packed)
  if (data.length < packed) return 'damaged'
  if (method === 0) return data.length > most ? 'too-much' : data
  if (method !== 8) return 'damaged'
  try {
    // One byte more than is left tells "too much" from "just fits".
    return await inflate(data, { maxOutputLength: most + 1 }).then((part) =>
      part.length > most ? ('too-much' as const) : part,
    )
  } catch (error) {
    return error instanceof RangeError ? 'too-much' : 'damaged'
  }
}

const MARK = Buffer.from('<!DOCTYPE')
/** Parts in UTF-16, which a reader of XML must understand too. */
const MARKS = [MARK, Buffer.from('<!DOCTYPE', 'utf16le'), Buffer.from('<!DOCTYPE', 'utf16le').swap16()]

function hasDocumentType(part: Uint8Array): boolean {
  const text = Buffer.from(part.buffer, part.byteOffset, part.byteLength)
  return MARKS.some((mark) => text.includes(mark))
}
