/** Finds the row of headings under titles, and gives every column a name of its own. */

const SEARCHED_ROWS = 40
/** A heading row fills at least this share of the widest row; titles and group names fill less. */
const FILLED_SHARE = 0.6
/** At most this share of its cells may look like data. */
const DATA_SHARE = 0.2
const LOOKS_LIKE_DATA = /^[-+]?[\d.,]+(?:\s?%)?$|^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}(?:[T ].*)?$/

type Cells = readonly string[]

/** The index of the heading row: the first well-filled row of words; 0 where none stands out. */
export function findHeaderRow(rows: readonly Cells[]): number {
  const seen = rows.slice(0, SEARCHED_ROWS)
  const widest = Math.max(0, ...seen.map(filled))
  const need = Math.max(Math.min(2, widest), Math.ceil(widest * FILLED_SHARE))
  const found = seen.findIndex((cells) => filled(cells) >= need && dataShare(cells) <= DATA_SHARE)
  return Math.max(found, 0)
}

/**
 * Names for the columns from the heading row and the row above it. Where two headings are alike and a group title
 * stands above ("Filter" over "last changed"), the title goes in front; what is still alike gets a number; a column
 * without a heading is called by its place.
 */
export function columnNames(header: Cells, above: Cells | null, width: number): string[] {
  const plain = Array.from({ length: width }, (_, i) => tidy(header[i] ?? ''))
  const alike = new Set(plain.filter((name, i) => name !== '' && plain.indexOf(name) !== i))
  const groups = above && alike.size > 0 ? groupTitles(above, width) : []
  const taken = new Set<string>()
  return plain.map((name, i) => {
    const group = alike.has(name) ? (groups[i] ?? '') : ''
    const wanted = name === '' ? `Column ${i + 1}` : group === '' ? name : `${group} ${name}`
    let unique = wanted
    for (let n = 2; taken.has(unique.toLowerCase()); n++) unique = `${wanted} (${n})`
    taken.add(unique.toLowerCase())
    return unique
  })
}

/** A merged cell keeps its text in its first column: carried on to the columns it covers. */
function groupTitles(above: Cells, width: number): string[] {
  let title = ''
  return Array.from({ length: width }, (_, i) => {
    const own = tidy(above[i] ?? '')
    if (own !== '') title = own
    return title
  })
}

function dataShare(cells: Cells): number {
  const texts = cells.map(tidy).filter((text) => text !== '')
  return texts.filter((text) => LOOKS_LIKE_DATA.test(text)).length / Math.max(1, texts.length)
}

const filled = (cells: Cells) => cells.filter((cell) => cell.trim() !== '').length
const tidy = (text: string) => text.replace(/\s+/g, ' ').trim()
