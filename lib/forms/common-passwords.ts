import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'

/**
 * Whether a password is among the most frequent of published leaks. The list holds 49,233 (of @zxcvbn-ts/language-common 4.1.3,
 * MIT; see lib/cli/password-list.mjs), as the first bytes of their SHA-256: of a million that are not listed one is taken for
 * listed. Shorter than six characters none is. No network is asked.
 *
 * Shape   `plain` in small letters.
 */
export function isCommon(plain: string): boolean {
  const wanted = createHash('sha256').update(plain).digest().subarray(0, BYTES)
  const list = marks()
  let low = 0
  let high = list.length / BYTES - 1
  while (low <= high) {
    const middle = (low + high) >> 1
    const order = wanted.compare(list, middle * BYTES, (middle + 1) * BYTES)
    if (order === 0) return true
    if (order < 0) high = middle - 1
    else low = middle + 1
  }
  return false
}

const BYTES = 5
let loaded: Buffer | undefined

/** Read once, when the first password is chosen. */
function marks(): Buffer {
  loaded ??= readFileSync(
    /*turbopackIgnore: true*/ join(process.cwd(), 'lib', 'forms', 'common-passwords.bin'),
  )
  return loaded
}
