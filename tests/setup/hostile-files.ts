import { deflateSync } from 'node:zlib'
import sharp from 'sharp'

/** A plain photo of 40 by 30 points. */
export const photo = (): Promise<Buffer> =>
  sharp({ create: { width: 40, height: 30, channels: 3, background: '#3a7' } })
    .jpeg()
    .toBuffer()

/** The smallest thing that is a PDF from its first line to its last. */
export const PDF = Buffer.from('%PDF-1.4\n1 0 obj<</Type/Catalog>>endobj\ntrailer<</Root 1 0 R>>\n%%EOF\n')

const HTML = '<!doctype html><script>alert(document.cookie)</script>'
const SVG = `<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"><rect width="9" height="9"/></svg>`

/** A PNG of a few hundred bytes that says it is `side` by `side` points. */
export function vastPng(side: number): Buffer {
  const header = Buffer.alloc(13)
  header.writeUInt32BE(side, 0)
  header.writeUInt32BE(side, 4)
  header.set([8, 0, 0, 0, 0], 8)
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(Buffer.alloc(100_000))),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

function chunk(kind: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(kind, 'latin1'), data])
  const size = Buffer.alloc(4)
  size.writeUInt32BE(data.length)
  const sum = Buffer.alloc(4)
  sum.writeUInt32BE(crc32(body))
  return Buffer.concat([size, body, sum])
}

function crc32(bytes: Buffer): number {
  let crc = 0xffffffff
  for (const byte of bytes) {
    crc ^= byte
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1
  }
  return (crc ^ 0xffffffff) >>> 0
}

/** Files that must be refused: what each tries, the name it comes with, its bytes. */
export async function refusedFiles(): Promise<[what: string, name: string, bytes: Buffer][]> {
  const jpeg = await photo()
  return [
    ['a page of script called a photo', 'sheet.jpg', Buffer.from(HTML)],
    ['a drawing with script in it', 'sheet.svg', Buffer.from(SVG)],
    ['a drawing called a PNG, after a mark of byte order', 'sheet.png', Buffer.from(`\ufeff${SVG}`)],
    ['a program with two endings', 'sheet.pdf.exe', Buffer.from('MZ\x90\x00This program cannot be run')],
    ['an empty file', 'sheet.pdf', Buffer.alloc(0)],
    ['a file larger than allowed', 'sheet.pdf', Buffer.concat([PDF, Buffer.alloc(10 * 1024 * 1024), PDF])],
    ['a small file that unpacks to 900 million points', 'sheet.png', vastPng(30_000)],
    ['a JPEG by its first bytes alone', 'sheet.jpg', Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3, 4])],
    ['a photo cut in half', 'sheet.jpg', jpeg.subarray(0, jpeg.length / 2)],
    ['a PDF that begins with something else', 'sheet.pdf', Buffer.concat([Buffer.from(HTML), PDF])],
    ['a PDF cut short', 'sheet.pdf', PDF.subarray(0, 30)],
    ['an archive called a PDF', 'sheet.pdf', Buffer.from('PK\x03\x04 and the rest')],
    ['a kind of picture that is not taken', 'sheet.gif', Buffer.from('GIF89a\x01\x00\x01\x00\x00\x00\x00;')],
  ]
}

/** Files that are taken and must come out harmless. */
export async function harmlessAfter(): Promise<[what: string, name: string, bytes: Buffer, gone: string][]> {
  const jpeg = await photo()
  const placed = await sharp(jpeg)
    .withExif({ IFD0: { Make: 'FERNCAM' }, IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '44/1 3/1 5/1' } })
    .jpeg()
    .toBuffer()
  return [
    [
      'a photo with a page of script behind it',
      'a.jpg',
      Buffer.concat([jpeg, Buffer.from(HTML)]),
      '<script>',
    ],
    [
      'a photo with an archive behind it',
      'a.jpg',
      Buffer.concat([jpeg, Buffer.from('PK\x03\x04payload')]),
      'payload',
    ],
    ['a photo that knows where it was taken', 'a.jpg', placed, 'FERNCAM'],
    ['a name that climbs out of its folder', '../../../etc/cron.d/x.jpg', jpeg, '..'],
    ['a name with a line break and a quotation mark', 'a"\r\nSet-Cookie: x=1.jpg', jpeg, 'Set-Cookie'],
  ]
}
