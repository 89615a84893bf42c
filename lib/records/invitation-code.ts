import { createHash, randomInt } from 'node:crypto'

/** Letters and figures that cannot be taken for each other on a printed card: no I, L, O, U. */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'
const LENGTH = 16

/** A new code of 80 bits, in groups of four as people read them out: "7K2M-…". */
export function drawCode(): string {
  const letters = Array.from({ length: LENGTH }, () => LETTERS.charAt(randomInt(LETTERS.length)))
  return letters.join('').replace(/(.{4})(?=.)/g, '$1-')
}

/**
 * A code as somebody typed it, made comparable: spaces and dashes out, capitals, and the letters that the code does
 * not use read as the figures they look like. Null where it cannot be a code.
 */
export function tidyCode(typed: string): string | null {
  const plain = typed.toUpperCase().replace(/[\s-]/g, '').replaceAll('O', '0').replace(/[IL]/g, '1')
  const fits = plain.length === LENGTH && [...plain].every((letter) => LETTERS.includes(letter))
  return fits ? plain : null
}

/** What is stored of a code. It is long and random, so that one round of SHA-256 hides it. */
export function hashCode(tidy: string): string {
  return createHash('sha256').update(`invitation:${tidy}`).digest('hex')
}
