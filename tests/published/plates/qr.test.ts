/**
 * Source: ISO/IEC 18004, Annex "Symbol encoding example": "01234567" as version 1 at level M. The sixteen data and ten
 * correction codewords are from memory of the standard; they were not seen again.
 */
import encodeQR from 'qr'
import { expect, test } from 'vitest'
import { qrPath } from '@/app/ui/qr-code'
import { plateAddress } from '@/lib/records/plates'
import { readCodewords, readText } from '../../setup/qr-reading'

const EXAMPLE = '10 20 0c 56 61 80 ec 11 ec 11 ec 11 ec 11 ec 11 a5 24 d4 c1 ed 36 c7 87 2c 55'

test('the codes are drawn as the example of the standard is, corrections included', () => {
  const drawn = encodeQR('01234567', 'raw', { ecc: 'medium', border: 1, version: 1 })
  const { version, level, codewords } = readCodewords(drawn.slice(1, -1).map((row) => row.slice(1, -1)))
  expect({ version, level }).toEqual({ version: 1, level: 'M' })
  expect(codewords.map((word) => word.toString(16).padStart(2, '0')).join(' ')).toBe(EXAMPLE)
})

test.each([
  plateAddress('7K2M9QX4T0ABCDEF'),
  'https://w.example/p/7K2M9QX4T0ABCDEF',
  'https://wells.of.the.valley.fernhollow.example/p/7K2M9QX4T0ABCDEF',
])('a plate drawn for %s reads so by the layout of the standard alone, no error mended', (address) => {
  expect(readText(modulesOf(qrPath(address)))).toBe(address)
})

/** The squares of a drawn code without its border of four. */
function modulesOf({ size, d }: { size: number; d: string }): boolean[][] {
  const rows = Array.from({ length: size - 8 }, () => Array<boolean>(size - 8).fill(false))
  for (const [, x, y] of d.matchAll(/M(\d+) (\d+)h1v1h-1z/g)) {
    const row = rows[Number(y) - 4]
    if (row) row[Number(x) - 4] = true
  }
  return rows
}
