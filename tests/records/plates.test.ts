import encodeQR from 'qr'
import decodeQR from 'qr/decode.js'
import { describe, expect, test } from 'vitest'
import { qrPath } from '@/app/ui/qr-code'
import { OUTFIT } from '@/lib/access/viewer'
import { exportPlates } from '@/lib/exchange/export-plates'
import type { Db } from '@/lib/records/db'
import {
  makePlates,
  plateAddress,
  platesOfWell,
  takePlateBack,
  wellOfPlate,
  wellPlates,
} from '@/lib/records/plates'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const AT = '2026-11-20T12:00:00.000Z'

async function wellOf(
  db: Db,
  label: string,
  ownerName: string,
): Promise<{ wellId: string; ownerId: string }> {
  const made = await createWell(db, OUTFIT, { ...bareWell(label), ownerName }, AT)
  if (made.kind !== 'stored') throw new Error(made.kind)
  const { ownerId } = db.sqlite.prepare('SELECT "ownerId" FROM "Well" WHERE "id" = ?').get(made.id) as {
    ownerId: string
  }
  return { wellId: made.id, ownerId }
}

test('every code leaves in the export, those taken back among them, to those who may export', async () => {
  const db = await freshDb()
  const { wellId } = await wellOf(db, 'W1', 'Brook Farm')
  await makePlates(db, installer, [wellId], AT)
  const code = platesOfWell(db, installer, wellId)[0]?.code ?? ''
  await takePlateBack(db, installer, code, AT)
  expect([...exportPlates(db, installer)].join('')).toContain(`W1,${code},${AT},`)
  expect([...exportPlates(db, installer)].join('').trimEnd().endsWith(AT)).toBe(true)
  expect(() => [...exportPlates(db, technician)]).toThrow('not allowed')
})

describe('a plate', () => {
  test('opens its well for those who may see it, and is nothing to others, like a code that never was', async () => {
    const db = await freshDb()
    const { wellId, ownerId } = await wellOf(db, 'W1', 'Brook Farm')
    const other = await wellOf(db, 'W2', 'Mill')
    expect(await makePlates(db, installer, [wellId], AT)).toBe(1)
    const code = platesOfWell(db, installer, wellId)[0]?.code ?? ''
    expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{16}$/)
    for (const viewer of [installer, technician, owner(ownerId)])
      expect(wellOfPlate(db, viewer, code)).toBe(wellId)
    for (const viewer of [owner(other.ownerId), owner(null)]) expect(wellOfPlate(db, viewer, code)).toBeNull()
    expect(wellOfPlate(db, installer, 'AAAABBBBCCCCDDDD')).toBeNull()
    expect(wellOfPlate(db, installer, "' OR 1=1 --")).toBeNull()
    expect(platesOfWell(db, owner(other.ownerId), wellId)).toEqual([])
  })

  test('is made once a well, by installers alone, and stands in the change record without its whole code', async () => {
    const db = await freshDb()
    const { wellId } = await wellOf(db, 'W1', 'Brook Farm')
    await expect(makePlates(db, technician, [wellId], AT)).rejects.toThrow('not allowed')
    expect(await makePlates(db, installer, [wellId, wellId, 'no such well'], AT)).toBe(1)
    expect(await makePlates(db, installer, [wellId], AT)).toBe(0)
    const code = platesOfWell(db, installer, wellId)[0]?.code ?? ''
    const changes = JSON.stringify(db.sqlite.prepare('SELECT * FROM "Change"').all())
    expect(changes).toContain('plate made')
    expect(changes).not.toContain(code)
  })

  test('that was taken back leads nowhere, and another can be made', async () => {
    const db = await freshDb()
    const { wellId } = await wellOf(db, 'W1', 'Brook Farm')
    await makePlates(db, installer, [wellId], AT)
    const [first] = wellPlates(db, installer, [wellId])
    await expect(takePlateBack(db, technician, first?.code ?? '', AT)).rejects.toThrow('not allowed')
    expect(await takePlateBack(db, installer, first?.code ?? '', AT)).toBe(wellId)
    expect(await takePlateBack(db, installer, first?.code ?? '', AT)).toBeNull()
    expect(wellOfPlate(db, installer, first?.code ?? '')).toBeNull()
    expect(wellPlates(db, installer, [wellId])[0]?.code).toBeNull()
    expect(await makePlates(db, installer, [wellId], AT)).toBe(1)
    expect(wellPlates(db, installer, [wellId])[0]?.code).not.toBe(first?.code)
  })

  test('forty codes drawn for one well are forty different ones', async () => {
    const db = await freshDb()
    const { wellId } = await wellOf(db, 'W1', 'Brook Farm')
    const codes = new Set<string>()
    for (let i = 0; i < 40; i += 1) {
      await makePlates(db, installer, [wellId], AT)
      const code = wellPlates(db, installer, [wellId])[0]?.code ?? ''
      codes.add(code)
      await takePlateBack(db, installer, code, AT)
    }
    expect(codes.size).toBe(40)
  })
})

describe('the printed code', () => {
  const address = plateAddress('7K2M9QX4T0ABCDEF')

  test('is the public address of the site, and the code', () => {
    expect(address).toMatch(/^https?:\/\/[^/]+\/p\/7K2M9QX4T0ABCDEF$/)
  })

  test('reads back as the same address when its squares are drawn as points of a picture', () => {
    expect(decodeQR(pictureOf(qrPath(address)))).toBe(address)
  })

  test('has the light border of four modules that ISO/IEC 18004 asks for, and still reads with a scratch', () => {
    const drawn = qrPath(address)
    expect(drawn.size).toBe(encodeQR(address, 'raw', { ecc: 'quartile', border: 1 }).length + 6)
    const picture = pictureOf(drawn)
    // A scratch of one module's width across the data, top to bottom.
    const column = Math.floor(drawn.size / 2) * SCALE
    for (let y = 0; y < picture.height; y += 1)
      for (let x = column; x < column + SCALE; x += 1)
        picture.data.fill(255, (y * picture.width + x) * 4, (y * picture.width + x) * 4 + 3)
    expect(decodeQR(picture)).toBe(address)
  })
})

const SCALE = 4

/** The path as a browser would draw it: black squares of four points on white. */
function pictureOf({ size, d }: { size: number; d: string }): {
  width: number
  height: number
  data: Uint8Array
} {
  const width = size * SCALE
  const data = new Uint8Array(width * width * 4).fill(255)
  for (const [, x, y] of d.matchAll(/M(\d+) (\d+)h1v1h-1z/g)) {
    for (let dy = 0; dy < SCALE; dy += 1)
      for (let dx = 0; dx < SCALE; dx += 1) {
        const at = ((Number(y) * SCALE + dy) * width + Number(x) * SCALE + dx) * 4
        data.fill(0, at, at + 3)
      }
  }
  return { width, height: width, data }
}
