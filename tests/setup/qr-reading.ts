/**
 * A reader of QR codes as ISO/IEC 18004 lays them out, written apart from the library that draws them: format bits,
 * mask, the path of the bits, interleaved blocks and byte mode. It mends no errors, so that a code it reads is whole.
 * Tables from memory of the standard (Table 9 for level Q, Annex C for the mask of the format).
 */

/** Data codewords of each block at level Q, by version. */
const BLOCKS_Q: Readonly<Record<number, readonly number[]>> = {
  3: [17, 17],
  4: [24, 24],
  5: [15, 15, 16, 16],
  6: [19, 19, 19, 19],
}
/** The place of the one alignment pattern that is not at a finder, by version. */
const ALIGNED: Readonly<Record<number, number>> = { 2: 18, 3: 22, 4: 26, 5: 30, 6: 34 }
const LEVELS = ['M', 'L', 'H', 'Q'] as const
const FORMAT_MASK = 0b101010000010010

const MASKS: readonly ((row: number, column: number) => boolean)[] = [
  (r, c) => (r + c) % 2 === 0,
  (r) => r % 2 === 0,
  (_, c) => c % 3 === 0,
  (r, c) => (r + c) % 3 === 0,
  (r, c) => (Math.floor(r / 2) + Math.floor(c / 3)) % 2 === 0,
  (r, c) => ((r * c) % 2) + ((r * c) % 3) === 0,
  (r, c) => (((r * c) % 2) + ((r * c) % 3)) % 2 === 0,
  (r, c) => (((r + c) % 2) + ((r * c) % 3)) % 2 === 0,
]

type Matrix = readonly (readonly boolean[])[]

/** Version, level and codewords in the order in which they stand in a code without its border; versions 1 to 6. */
export function readCodewords(matrix: Matrix): { version: number; level: string; codewords: number[] } {
  const size = matrix.length
  const version = (size - 17) / 4
  const { level, mask } = formatOf(matrix)
  const bits: boolean[] = []
  for (const [row, column] of path(size)) {
    if (isFunction(row, column, size, version)) continue
    bits.push(dark(matrix, row, column) !== (MASKS[mask]?.(row, column) ?? false))
  }
  const codewords = Array.from({ length: Math.floor(bits.length / 8) }, (_, i) =>
    bits.slice(8 * i, 8 * i + 8).reduce((value, bit) => 2 * value + Number(bit), 0),
  )
  return { version, level, codewords }
}

/** The text of a code of level Q in byte mode. Throws where it is none. */
export function readText(matrix: Matrix): string {
  const { version, level, codewords } = readCodewords(matrix)
  const blocks = BLOCKS_Q[version]
  if (level !== 'Q' || !blocks) throw new Error(`no table for version ${version} at level ${level}`)
  const data: number[][] = blocks.map(() => [])
  let at = 0
  for (let i = 0; i < Math.max(...blocks); i++)
    for (const [b, length] of blocks.entries()) if (i < length) data[b]?.push(codewords[at++] ?? 0)
  const bits = data.flat().flatMap((word) => [...word.toString(2).padStart(8, '0')])
  const number = (from: number, length: number) =>
    Number.parseInt(bits.slice(from, from + length).join(''), 2)
  if (number(0, 4) !== 0b0100) throw new Error('the code is not in byte mode')
  const bytes = Array.from({ length: number(4, 8) }, (_, i) => number(12 + 8 * i, 8))
  return new TextDecoder().decode(Uint8Array.from(bytes))
}

const dark = (matrix: Matrix, row: number, column: number) => matrix[row]?.[column] ?? false

/** The format bits beside the upper left finder, the weightiest first. */
function formatOf(matrix: Matrix): { level: string; mask: number } {
  const along = [0, 1, 2, 3, 4, 5, 7, 8].map((column) => [8, column] as const)
  const up = [7, 5, 4, 3, 2, 1, 0].map((row) => [row, 8] as const)
  const read = [...along, ...up].reduce(
    (value, [row, column]) => 2 * value + Number(dark(matrix, row, column)),
    0,
  )
  const format = read ^ FORMAT_MASK
  return { level: LEVELS[format >> 13] ?? '', mask: (format >> 10) & 7 }
}

/** Two columns at a time from the right, up and down in turn, the timing column left out. */
function* path(size: number): Generator<[number, number]> {
  let up = true
  for (let right = size - 1; right > 0; right -= 2) {
    if (right === 6) right = 5
    for (let i = 0; i < size; i++) {
      const row = up ? size - 1 - i : i
      yield [row, right]
      yield [row, right - 1]
    }
    up = !up
  }
}

/** Finders with format bits, timing, alignment. */
function isFunction(row: number, column: number, size: number, version: number): boolean {
  if (row === 6 || column === 6) return true
  if (row < 9 && (column < 9 || column >= size - 8)) return true
  if (row >= size - 8 && column < 9) return true
  const centre = ALIGNED[version]
  return centre !== undefined && Math.abs(row - centre) <= 2 && Math.abs(column - centre) <= 2
}
