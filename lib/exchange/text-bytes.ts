/** From the bytes of an uploaded file to its text, or to a plain word on what it is instead. */

export type FileText =
  | { kind: 'text'; text: string; notices: string[] }
  | { kind: 'workbook' }
  | { kind: 'refused'; message: string }

type Magic = { bytes: readonly number[]; what: string }

/** First bytes of what people pick by mistake. */
const NOT_TABLES: readonly Magic[] = [
  { bytes: [0x25, 0x50, 0x44, 0x46], what: 'a PDF' },
  { bytes: [0xff, 0xd8, 0xff], what: 'a photo' },
  { bytes: [0x89, 0x50, 0x4e, 0x47], what: 'a picture' },
  { bytes: [0x47, 0x49, 0x46, 0x38], what: 'a picture' },
  { bytes: [0x1f, 0x8b], what: 'a compressed file' },
  { bytes: [0x52, 0x61, 0x72, 0x21], what: 'a compressed file' },
  { bytes: [0x53, 0x51, 0x4c, 0x69, 0x74, 0x65], what: 'a database' },
]
const OLD_OFFICE = [0xd0, 0xcf, 0x11, 0xe0]
const ZIP = [0x50, 0x4b, 0x03, 0x04]
const EMPTY_ZIP = [0x50, 0x4b, 0x05, 0x06]

/**
 * What a file holds, by its bytes and never by its name.
 *
 * Answer  the text (UTF-8 with or without byte order mark, UTF-16 with one; else Windows-1252, which is said in
 *         `notices`); 'workbook' for a zip, which an XLSX is; 'refused' with a sentence for anything else.
 */
export function fileText(bytes: Uint8Array): FileText {
  if (bytes.length === 0) return refused('The file is empty.')
  if (startsWith(bytes, ZIP) || startsWith(bytes, EMPTY_ZIP)) return { kind: 'workbook' }
  if (startsWith(bytes, OLD_OFFICE)) {
    return refused('This is a spreadsheet of the old kind (.xls). Save it as .xlsx or CSV and choose that.')
  }
  const other = NOT_TABLES.find((magic) => startsWith(bytes, magic.bytes))
  if (other) return refused(`This is ${other.what}, not a table. Choose a CSV or XLSX file.`)
  if (startsWith(bytes, [0xff, 0xfe])) return decodedBy('utf-16le', bytes)
  if (startsWith(bytes, [0xfe, 0xff])) return decodedBy('utf-16be', bytes)
  if (bytes.subarray(0, 4096).includes(0)) {
    return refused('This is not a table in text form. Choose a CSV or XLSX file.')
  }
  return eightBit(bytes)
}

/** Bytes above 127 that make no UTF-8 anywhere are Windows-1252; a few among good UTF-8 are damage. */
function eightBit(bytes: Uint8Array): FileText {
  const text = new TextDecoder('utf-8').decode(bytes)
  if (!text.includes('\uFFFD')) return { kind: 'text', text, notices: [] }
  const hasGoodLetters = /[\u0080-\uFFFC]/.test(text)
  if (hasGoodLetters) {
    return { kind: 'text', text, notices: ['Some characters are damaged and are shown as \uFFFD.'] }
  }
  return {
    kind: 'text',
    text: new TextDecoder('windows-1252').decode(bytes),
    notices: [
      'The file is not UTF-8 and was read as Windows-1252: check that names with accents look right.',
    ],
  }
}

function decodedBy(encoding: 'utf-16le' | 'utf-16be', bytes: Uint8Array): FileText {
  return { kind: 'text', text: new TextDecoder(encoding).decode(bytes), notices: [] }
}

function startsWith(bytes: Uint8Array, start: readonly number[]): boolean {
  return start.every((byte, i) => bytes[i] === byte)
}

const refused = (message: string): FileText => ({ kind: 'refused', message })
